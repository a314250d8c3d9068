import { isBox } from '../../geometry/ring.ts';
import { type Box, boundsOf, middleOf } from '../../geometry/shapes.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { USUAL_CROSSCUT_KERF, USUAL_KEEP } from '../../stock/keep-rule.ts';
import { isLaidAsPinned } from '../groups/pinned.ts';
import type { LaidGroup } from './laid-group.ts';
import { placementOf, rounded, roundedAngle } from './placement-of.ts';
import { roomAtEnds } from './room-at-ends.ts';

/**
 * Of a layout and its mirror image the one with fewer copies face down: for each of those the pattern has to be stuck on the
 * back. To the search both are worth the same, so that it may lay a whole board face down. Along the board everything is
 * mirrored between the ends of what lies there, so that lengths and distances stay as they are.
 */

/**
 * A group laid out, its boards or sections with more than half of their copies face down mirrored: on plain rectangles where
 * all copies may be turned over, none is pinned, and no less is left to keep.
 */
export function withFewerFaceDown(batch: Batch, laid: LaidGroup): LaidGroup {
  const demands = new Map(batch.demands.map((demand) => [partKey(demand), demand]));
  return { ...laid, boards: laid.boards.map((board) => fewerOn(batch, demands, board)) };
}

function fewerOn(batch: Batch, demands: ReadonlyMap<string, Demand>, board: LaidBoard): LaidBoard {
  const { openings, outline } = board.usable;
  // On any other board the wood differs from place to place.
  if (openings.length > 0 || !isBox(outline)) return board;
  const images = new Map<Placement, Placement>();
  for (const { box, copies } of stretchesOf(board)) {
    const down = copies.filter(({ turnedOver }) => turnedOver).length;
    if (2 * down <= copies.length) continue;
    if (!copies.every((copy) => demands.get(partKey(copy))!.rules.turnOver)) continue;
    const mirrored = mirrorImage(demands, copies);
    if (!keepsAsMuch(batch, box, copies, mirrored)) continue;
    for (const [i, copy] of copies.entries()) images.set(copy, mirrored[i]);
  }
  const isPinned = batch.pins?.some((pin) => isLaidAsPinned(pin, [board])) === true;
  if (images.size === 0 || isPinned) return board;
  return { ...board, placements: numberedAlong(board.placements, images) };
}

/** A section of a board, or all of it, with what lies there. */
interface Stretch {
  readonly box: Box;
  readonly copies: readonly Placement[];
}

function stretchesOf({ usable, sections = [], placements }: LaidBoard): Stretch[] {
  const box = boundsOf(usable.outline);
  if (sections.length === 0) return [{ box, copies: placements }];
  return sections.map(({ from, to }) => ({
    box: { ...box, minX: from, maxX: to },
    copies: placements.filter(({ region }) => {
      const [middle] = middleOf(boundsOf(region.outline));
      return middle > from && middle < to;
    }),
  }));
}

/** What lies in a stretch, mirrored along the board between its ends. */
function mirrorImage(demands: ReadonlyMap<string, Demand>, copies: readonly Placement[]): Placement[] {
  const { minX, maxX } = boundsOf(copies.flatMap(({ region }) => region.outline));
  return copies.map((copy) => {
    const { x, y, rotation, turnedOver, set } = copy;
    const lying = {
      x: rounded(minX + maxX - x),
      y,
      rotation: roundedAngle((360 - rotation) % 360),
      turnedOver: !turnedOver,
    };
    return placementOf(demands.get(partKey(copy))!, lying, set);
  });
}

/**
 * Whether the mirror image leaves as much to keep: copies lie against the left end of a board, and what the blade frees
 * between them at the right, in one piece with the rest of the board, may be too short at the left.
 */
function keepsAsMuch(
  { kerf, keep = USUAL_KEEP, crosscutKerf = USUAL_CROSSCUT_KERF }: Batch,
  box: Box,
  copies: readonly Placement[],
  mirrored: readonly Placement[],
): boolean {
  const end = boundsOf(copies.flatMap(({ region }) => region.outline)).maxX + kerf;
  // A rest that is long enough is parted off first, across the whole board.
  const isParted = box.maxX - end - crosscutKerf >= keep.length;
  const sawn = isParted ? { ...box, maxX: end } : box;
  const [before, after] = [copies, mirrored].map((all) =>
    roomAtEnds(
      sawn,
      all.map(({ region }) => region),
      { keep, kerf },
    ),
  );
  return after >= before - ROUNDING;
}

/** Area that is lost where places are rounded to the grid, mm2. */
const ROUNDING = 1;

/** Copies replaced by their images, and the sets of every part numbered along the board again. */
function numberedAlong(
  placements: readonly Placement[],
  images: ReadonlyMap<Placement, Placement>,
): readonly Placement[] {
  const places = new Map<string, number[]>();
  for (const [i, placement] of placements.entries()) {
    const key = partKey(placement);
    places.set(key, [...(places.get(key) ?? []), i]);
  }
  const numbered = [...placements];
  for (const own of places.values()) {
    const copies = own.map((i) => images.get(placements[i]) ?? placements[i]).sort(compareAlong);
    const sets = own.map((i) => placements[i].set).sort((a, b) => a - b);
    own.forEach((i, rank) => {
      numbered[i] = { ...copies[rank], set: sets[rank] };
    });
  }
  return numbered;
}

function compareAlong(a: Placement, b: Placement): number {
  const [alongA, acrossA] = middleOf(boundsOf(a.region.outline));
  const [alongB, acrossB] = middleOf(boundsOf(b.region.outline));
  return alongA - alongB || acrossA - acrossB;
}
