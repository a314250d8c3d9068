import { regionBounds } from '../geometry/ring.ts';
import type { Issue } from '../issues/issue.ts';
import type { BladeUse, BoardPlan } from '../model/cut-plan.ts';
import type { Layout } from '../model/layout.ts';
import { longestSection } from './sections.ts';
import { woodFacts } from './wood-facts.ts';

/** What the plan cannot mend and a person should know before sawing. */
export function planIssues(
  layout: Layout,
  boards: readonly BoardPlan[],
  uses: readonly BladeUse[],
  throat: number | undefined,
): Issue[] {
  return [
    ...kerfIssues(layout, uses),
    ...(throat === undefined ? [] : boards.flatMap((plan) => throatIssues(layout, plan, throat))),
    ...speciesIssues(boards),
  ];
}

/** A blade that saws wider than the layout left room for takes the difference off the parts. */
function kerfIssues({ kerf }: Layout, uses: readonly BladeUse[]): Issue[] {
  return uses
    .filter(({ blade }) => blade.kerf > kerf + 1e-9)
    .map(({ blade }) => ({
      kind: 'kerf-below-blade',
      severity: 'warning',
      message: `the blade ${blade.name} saws wider than the kerf of the layout`,
      expected: `a kerf of at least ${blade.kerf.toFixed(2)} mm`,
      received: `${kerf.toFixed(2)} mm`,
      remedy: 'Measure a test cut, and lay out again with that kerf or a finer blade.',
    }));
}

function throatIssues(layout: Layout, plan: BoardPlan, throat: number): Issue[] {
  const board = layout.boards.find(({ id }) => id === plan.board);
  if (board === undefined) return [];
  const { minY, maxY } = regionBounds(board.usable);
  const longest = longestSection(throat, maxY - minY) ?? 0;
  const worst = Math.max(...plan.sections.map(({ from, to }) => to - from));
  if (worst <= longest) return [];
  return [
    {
      kind: 'section-beyond-throat',
      severity: 'warning',
      message:
        'a section stays longer than turns in the throat: no straight cross-cut is free between the parts',
      expected: `at most ${longest.toFixed(0)} mm`,
      received: `${worst.toFixed(0)} mm`,
      remedy: 'Lay out on shorter boards, saw from both ends, or fit a spiral blade for the far cuts.',
      where: { board: plan.board },
    },
  ];
}

function speciesIssues(boards: readonly BoardPlan[]): Issue[] {
  const unknown = new Set(
    boards.map(({ species }) => species).filter((name) => woodFacts(name) === undefined),
  );
  return [...unknown].map((species) => ({
    kind: 'species-without-facts',
    severity: 'note',
    message: `the table of woods does not have "${species}": a middling hardness of 1000 lbf is taken`,
    remedy: 'Times and blades for it are rougher than the others.',
  }));
}
