import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import { candidatesFor } from '../stock/wood-choice.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/**
 * What has to be done to boards that are thicker than the layers to be cut from them, one issue for each.
 *
 * @param unit what the thicknesses are told in
 */
export function thinningIssues(batch: Batch, unit: DisplayUnit): Issue[] {
  const issues = new Map<string, Issue>();
  for (const { layer, species, thickness } of batch.demands) {
    for (const { board, fit } of candidatesFor(batch.boards, species, thickness, batch.thicknessTolerance)) {
      if (fit.work === 'none') continue;
      const length = (mm: number) => formatLength(mm, unit, 2);
      const where = { layer, board: board.id };
      const issue: Issue =
        fit.work === 'plane'
          ? {
              kind: 'board-to-plane',
              severity: 'note',
              message: `the board is ${length(board.thickness)} thick: plane it to ${length(thickness)}, ${length(fit.eachSide)} from each side`,
              where,
            }
          : {
              kind: 'board-to-resaw',
              severity: 'warning',
              message: `the board is ${length(board.thickness)} thick: resaw it into ${counted(fit.slices, 'slice')} and plane each to ${length(thickness)}`,
              remedy: 'Or add boards of that thickness to the stock.',
              where,
            };
      issues.set(`${layer} ${board.id}`, issue);
    }
  }
  return [...issues.values()];
}
