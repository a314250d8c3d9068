import { regionArea } from '../../geometry/ring.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import { cutsAround, joined, onGrid, SHORTEST, type Stretch } from '../../stock/sections.ts';
import { type PinnedCopy, pinnedStretches } from '../groups/pinned.ts';

/** Where a board on which copies are pinned is cut while it is filled from the left: all places are mm along it. */

/** What is pinned to a board, and what its lines have to heed. */
export interface AroundPinned {
  readonly pinned: readonly PinnedCopy[];
  /** Distance from a copy to a line, mm. */
  readonly margin: number;
  /** Width of the cross-cut, mm. */
  readonly kerf: number;
  /** Greatest length of a section, mm. */
  readonly longest: number;
  /** Right end of the board. */
  readonly rightEnd: number;
}

/** The copies between two places. */
export function pinnedFrom(pinned: readonly PinnedCopy[], from: number, to: number): readonly PinnedCopy[] {
  return pinned.filter(({ middle }) => middle >= from && middle <= to);
}

/** Where the last of the copies ends; nowhere when there is none. */
export function endOfPinned(pinned: readonly PinnedCopy[]): number {
  return Math.max(Number.NEGATIVE_INFINITY, ...pinned.map(({ region }) => boundsOf(region.outline).maxX));
}

/** Area of the copies, mm2. */
export function areaOfPinned(pinned: readonly PinnedCopy[]): number {
  return pinned.reduce((sum, { region }) => sum + regionArea(region), 0);
}

/**
 * Where a section that begins at `from` may end: at the ends given, but before or behind what is pinned where one runs
 * through it. One longer than a section may be comes of a copy that leaves no other way.
 */
export function endsToTry(from: number, ends: readonly number[], around: AroundPinned): number[] {
  const { kerf, longest, rightEnd } = around;
  const kept = joined(pinnedStretches(around.pinned, around.margin), kerf);
  const free = ends.flatMap((end) => {
    const hit = kept.find((one) => end > one.from - kerf && end < Math.min(one.to, rightEnd));
    if (hit === undefined) return [end];
    const before = onGrid(hit.from - kerf);
    const behind = Math.min(onGrid(hit.to), rightEnd);
    const clear = [
      ...(before - from >= SHORTEST ? [before] : []),
      ...(behind - from <= longest ? [behind] : []),
    ];
    if (clear.length > 0) return clear;
    // A short end is cut off where what is pinned turns without it.
    return hit.to - hit.from <= longest && before > from ? [before] : [behind];
  });
  return [...new Set(free)];
}

/** The stretches that the rest of a board is cut to behind the last copy that was laid: as long as may be. */
export function cutsBehind(from: number, around: AroundPinned): Stretch[] {
  const { pinned, margin, kerf, longest, rightEnd } = around;
  const rest = { from, to: rightEnd };
  const cuts = cutsAround(rest, joined(pinnedStretches(pinned, margin), kerf), longest, kerf);
  return [...cuts, rightEnd].map((to, i) => ({
    from: i === 0 ? from : onGrid(cuts[i - 1] + kerf),
    to,
  }));
}
