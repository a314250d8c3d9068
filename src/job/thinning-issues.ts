import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { LaidBoard } from '../model/layout.ts';
import { roughSlice, surplusOf } from '../model/resawing.ts';
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
            message: `${thick}: ${resawing({ thickness, planeTo, slices }, length)}`,
            remedy: `${unitMeant(planeTo)}Or add boards of that thickness to the stock.${surplusOf(roughSlice(thickness, slices), planeTo) > 0 ? SURPLUS_IS_YOURS : ''}`,
            where,
          };
    issues.set(`${stock} ${planeTo}`, issue);
  }
  return [...issues.values()];
}

/** What is sawn and planed; `length` writes a thickness. */
function resawing(
  { thickness, planeTo, slices }: { thickness: number; planeTo: number; slices: number },
  length: (mm: number) => string,
): string {
  const rough = roughSlice(thickness, slices);
  const surplus = surplusOf(rough, planeTo);
  if (slices === 1)
    return `resaw the surplus off, a slice of ${length(surplus)} rough, and plane the board to ${length(planeTo)}`;
  return surplus > 0
    ? `resaw it into ${counted(slices, 'slice')} of ${length(rough)} rough, the surplus off each that is used, a slice of ${length(surplus)} rough, and plane it to ${length(planeTo)}`
    : `resaw it into ${counted(slices, 'slice')} and plane each to ${length(planeTo)}`;
}

/** @param planeTo mm */
function unitMeant(planeTo: number): string {
  return planeTo < THINNEST_SAWN ? `If "${Number(planeTo.toFixed(4))} in" was meant, write that. ` : '';
}
