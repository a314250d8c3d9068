import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { LaidBoard } from '../model/layout.ts';
import { surplusOf } from '../stock/thickness.ts';
import { formatThickness } from '../units/distances.ts';
import type { DisplayUnit } from '../units/length.ts';

/** Nothing of a board is kept by its thickness: whether such a slice is of use is for the maker to say. */
const SURPLUS_IS_YOURS =
  ' That slice is not put into the rack: if it is of use enter it there, at a price of 0, for this batch pays for the whole board.';

/**
 * Slices are hardly planed thinner, mm (common practice, no source); a fraction of an inch whose unit was forgotten is read as
 * less.
 */
const THINNEST_SAWN = 1;

/**
 * What has to be done to boards that are thicker than the layers cut from them, one issue for every entry of the stock
 * and thickness. Boards that nothing lies on are not told: there is nothing to do to them.
 *
 * @param unit what the thicknesses are told in
 */
export function thinningIssues(boards: readonly LaidBoard[], unit: DisplayUnit): Issue[] {
  const issues = new Map<string, Issue>();
  const length = (mm: number) => formatThickness(mm, unit);
  for (const { stock, thickness, planeTo, slices, placements } of boards) {
    if (planeTo === undefined || placements.length === 0) continue;
    const where = { board: stock };
    const thick = `the board is ${length(thickness)} thick`;
    const issue: Issue =
      slices === undefined
        ? {
            kind: 'board-to-plane',
            severity: 'note',
            message: `${thick}: plane it to ${length(planeTo)}, ${length((thickness - planeTo) / 2)} from each side`,
            where,
          }
        : {
            kind: 'board-to-resaw',
            severity: 'warning',
            message:
              slices > 1
                ? `${thick}: resaw it into ${counted(slices, 'slice')} and plane each to ${length(planeTo)}`
                : `${thick}: resaw the surplus off, a slice of ${length(surplusOf(thickness, planeTo))} rough, and plane the board to ${length(planeTo)}`,
            remedy: `${unitMeant(planeTo)}Or add boards of that thickness to the stock.${slices > 1 ? '' : SURPLUS_IS_YOURS}`,
            where,
          };
    issues.set(`${stock} ${planeTo}`, issue);
  }
  return [...issues.values()];
}

/** @param planeTo mm */
function unitMeant(planeTo: number): string {
  return planeTo < THINNEST_SAWN ? `If "${Number(planeTo.toFixed(4))} in" was meant, write that. ` : '';
}
