import { regionBounds } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';
import type { Batch, Demand, Pin } from '../../model/batch.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { pinnedRegion } from '../../model/pinned-region.ts';
import { isSamePart } from '../../model/same-part.ts';
import { sameSpecies } from '../../model/same-wood.ts';
import type { Board } from '../../model/stock.ts';
import type { Stretch } from '../../stock/sections.ts';
import { type StockUnit, unitName } from '../../stock/units.ts';
import { keepApart, liesWithin, type Solid, solidOf } from '../arrangement/solids.ts';
import { type BoardEdge, withoutMargin } from '../problem/container.ts';

/** Copies that lie where the maker has put them. */

/** One such copy with the part it is one of. */
export interface PinnedCopy {
  readonly pin: Pin;
  readonly demand: Demand;
  /** What it covers of its board, mm. */
  readonly region: Region;
  /** Middle of its box along the board, mm: tells its section. */
  readonly middle: number;
}

/** Demands of a group and all pins of the batch. */
interface Pinned {
  readonly demands: readonly Demand[];
  readonly pins: readonly Pin[];
}

/** Ids of the board entries that copies of a wood are pinned to. */
export function pinnedBoards(
  { pins = [], demands }: Pick<Batch, 'pins' | 'demands'>,
  species: string,
  thickness: number,
): Set<string> {
  const ofWood = demands.filter(
    (demand) => demand.thickness === thickness && sameSpecies(demand.species, species),
  );
  const here = ownPins({ demands: ofWood, pins });
  return new Set(here.map(({ board }) => board));
}

/** How much nearer than asked for pinned copies may lie, mm: places are read off rules and lists, to a hundredth. */
const READING = 0.005;

/** True when two copies may be pinned beside each other: kerf and clearance lie between them. */
export function pinsKeepApart(a: Solid, b: Solid, { kerf, clearance }: Batch): boolean {
  return keepApart(a, b, 0, 0, kerf + clearance - READING);
}

/** True when a copy may be pinned to a board: it lies in what may be used of it, off its edges and defects. */
export function pinLiesWithin(
  copy: Solid,
  { outline, openings }: Region,
  { edgeMargin }: Batch,
  edge: BoardEdge | undefined,
): boolean {
  if (outline.length < 3) return false;
  const margin = edgeMargin - READING;
  // What stands on an edge comes nearer to it than other parts may, and to nothing else.
  const frame = { outline, openings: [] };
  const room = edge === undefined ? frame : withoutMargin(frame, edgeMargin, edge);
  if (!liesWithin(solidOf(room), copy, 0, 0, margin)) return false;
  return openings.every((ring) => keepApart(solidOf({ outline: ring, openings: [] }), copy, 0, 0, margin));
}

/** Names of the boards of an entry on which parts of other groups are pinned. */
export function pinnedElsewhere({ demands, pins }: Pinned, board: Board): string[] {
  return pins
    .filter((pin) => pin.board === board.id && !demands.some((demand) => isSamePart(pin, demand)))
    .map(({ number }) => unitName(board, { number, slice: undefined }));
}

/** Which boards of an entry parts of a group are pinned to, from 1. */
export function pinnedNumbers({ demands, pins }: Pinned, board: Board): Set<number> {
  const here = ownPins({ demands, pins }).filter((pin) => pin.board === board.id);
  return new Set(here.map(({ number }) => number));
}

/** The pins of the parts of a group. */
export function ownPins({ demands, pins }: Pinned): Pin[] {
  return pins.filter((pin) => demands.some((demand) => isSamePart(pin, demand)));
}

/** The pinned copies of a group on a pile of boards. */
export function pinnedOn({ demands, pins }: Pinned, board: Board, units: readonly StockUnit[]): PinnedCopy[] {
  return pins.flatMap((pin) => {
    const demand = demands.find((each) => isSamePart(pin, each));
    // Of a board that is resawn, the first slice carries what is pinned.
    const isHere = units.some(({ number, slice = 1 }) => number === pin.number && slice === 1);
    if (demand === undefined || pin.board !== board.id || !isHere) return [];
    const region = pinnedRegion(pin, demand);
    const { minX, maxX } = regionBounds(region);
    return [{ pin, demand, region, middle: (minX + maxX) / 2 }];
  });
}

/** Left between a pinned copy and a line beside it on top of the margin: lines are rounded to the grid of layouts, mm. */
const LINE_PLAY = 1e-3;

/**
 * The stretches along a board that no line may run through, one for each copy.
 *
 * @param margin distance from a copy to a line, mm
 */
export function pinnedStretches(pinned: readonly PinnedCopy[], margin: number): Stretch[] {
  return pinned.map(({ region }) => {
    const { minX, maxX } = regionBounds(region);
    return { from: minX - margin - LINE_PLAY, to: maxX + margin + LINE_PLAY };
  });
}

/** True when a copy lies on one of the boards just where it is pinned. */
export function isLaidAsPinned(pin: Pin, boards: readonly LaidBoard[]): boolean {
  return boards.some(
    ({ stock, placements }) =>
      stock === pin.board &&
      placements.some(({ x, y, ...each }) => isSamePart(each, pin) && x === pin.x && y === pin.y),
  );
}

/** A piece with pins is of a kind of its own: its usable region is an object of its own. */
export function withPinned(
  usable: Region,
  pinned: readonly PinnedCopy[],
): { readonly usable: Region; readonly pinned: readonly PinnedCopy[] } {
  return { usable: pinned.length === 0 ? usable : { ...usable }, pinned };
}
