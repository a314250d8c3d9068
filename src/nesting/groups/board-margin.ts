import { applyToRing } from '../../geometry/affine.ts';
import { UNITS_PER_MM } from '../../geometry/integer-grid.ts';
import { boundsOf, type Region } from '../../geometry/shapes.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import { usableOf } from '../../stock/usable.ts';
import { woodSteps } from '../../stock/wood-choice.ts';
import { allowedLies, type Lie, turn } from '../problem/orientations.ts';

/** What is kept from parts to the edges of boards, and whether a part has room between them. */

/** Most that two sides of a part stray when they are rounded to the grid, mm. */
const ROUNDING = 2 / UNITS_PER_MM;

const KNOWN = new WeakMap<Batch, number>();

/**
 * Distance that the engine keeps from parts to edges and defects, mm. The outline may lie a little beside the drawn curve,
 * which counts unless it would keep a part off a board that it fills from margin to margin: straight sides are exact.
 */
export function marginOf(batch: Batch): number {
  const known = KNOWN.get(batch);
  if (known !== undefined) return known;
  const { edgeMargin, outlineTolerance, demands } = batch;
  const isFilled = demands.some((demand) => fillsBoard(batch, demand));
  const margin = isFilled ? Math.max(0, edgeMargin - ROUNDING / 2) : edgeMargin + outlineTolerance;
  KNOWN.set(batch, margin);
  return margin;
}

/** True when a part has room on some board of its wood between the margins, and none for what its outline may stray. */
function fillsBoard(batch: Batch, demand: Demand): boolean {
  const { boards, thicknessTolerance, outlineTolerance } = batch;
  const usable = woodSteps(boards, demand.species, demand.thickness, thicknessTolerance)
    .flat()
    .map(({ board }) => usableOf(board))
    .filter(({ outline }) => outline.length > 0);
  return allowedLies(demand.rules).some((lie) =>
    usable.some((region) => {
      const room = roomBeside(batch, demand, lie, region);
      return room >= -ROUNDING && room < 2 * outlineTolerance;
    }),
  );
}

/**
 * What a board is longer or wider, whichever is less, than a part in some lie with its edge margins, mm: negative where the
 * part has no room.
 */
export function roomBeside(
  { edgeMargin }: Pick<Batch, 'edgeMargin'>,
  { region, rules }: Pick<Demand, 'region' | 'rules'>,
  { degrees, turnedOver }: Lie,
  usable: Region,
): number {
  const board = boundsOf(usable.outline);
  const part = boundsOf(applyToRing(turn(degrees, turnedOver), region.outline));
  const along = board.maxX - board.minX - (part.maxX - part.minX) - 2 * edgeMargin;
  // What stands on the straight edge keeps no margin there.
  const margins = rules.restEdge ? edgeMargin : 2 * edgeMargin;
  return Math.min(along, board.maxY - board.minY - (part.maxY - part.minY) - margins);
}

/** True when the part's box, in some lie, is no larger than the board's less the margins. */
export function boxFits(...where: Parameters<typeof roomBeside>): boolean {
  return roomBeside(...where) >= -ROUNDING;
}
