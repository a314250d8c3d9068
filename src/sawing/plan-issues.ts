import type { Issue } from '../issues/issue.ts';
import type { BladeUse, BoardPlan } from '../model/cut-plan.ts';
import type { Layout } from '../model/layout.ts';
import { woodFacts } from './wood-facts.ts';

/** What the plan cannot mend and a person should know before sawing. */
export function planIssues(layout: Layout, boards: readonly BoardPlan[], uses: readonly BladeUse[]): Issue[] {
  return [...kerfIssues(layout, uses), ...speciesIssues(boards), ...boards.flatMap(leadInIssues)];
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

/** A lead-in that cannot run straight: a person has to steer between the parts. */
function leadInIssues({ board, cuts }: BoardPlan): Issue[] {
  const barred = cuts.filter(({ leadInClear }) => !leadInClear).map(({ number }) => number);
  if (barred.length === 0) return [];
  return [
    {
      kind: 'lead-in-barred',
      severity: 'note',
      message: `no straight way through the waste leads to cut ${barred.join(', ')}: its lead-in winds between parts and is longer than counted`,
      remedy: 'Steer between the parts, or drill a hole for the blade in the waste beside the line.',
      where: { board },
    },
  ];
}
