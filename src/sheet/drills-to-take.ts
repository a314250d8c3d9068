import { counted } from '../issues/counted.ts';
import type { BoardPlan } from '../model/cut-plan.ts';
import { drillFor } from '../units/drills.ts';
import type { DisplayUnit } from '../units/length.ts';

/** The drills that planned holes ask for, in one wording: what a sheet names is what the report and `cuts.csv` name. */

/** A drill to take from the shelf. */
export interface DrillToTake {
  /** As `drillFor` names it. */
  readonly name: string;
  /** Number of holes to drill with it. */
  readonly holes: number;
}

/**
 * The drills for the holes of some boards, finest first.
 *
 * @param plans their holes are counted as often as the same work is done: pass one copy to count a single board
 */
export function drillsToTake(
  plans: readonly Pick<BoardPlan, 'holes' | 'copies'>[],
  unit: DisplayUnit,
): DrillToTake[] {
  const drills = new Map<string, { diameter: number; holes: number }>();
  for (const { holes, copies } of plans)
    for (const hole of holes) {
      const { name, diameter } = drillFor(hole, unit);
      const known = drills.get(name)?.holes ?? 0;
      drills.set(name, { diameter, holes: known + copies });
    }
  return [...drills]
    .sort(([, a], [, b]) => a.diameter - b.diameter)
    .map(([name, { holes }]) => ({ name, holes }));
}

/**
 * `12 holes, 1.6 mm`; `12 holes: 9 with 0.9 mm, 3 with 1.6 mm`.
 *
 * @param drills at least one
 * @param what said after the number of holes, as ` to drill`
 */
export function drillWords(drills: readonly DrillToTake[], what = ''): string {
  const holes = counted(
    drills.reduce((sum, drill) => sum + drill.holes, 0),
    'hole',
  );
  if (drills.length === 1) return `${holes}${what}, ${drills[0].name}`;
  return `${holes}${what}: ${drills.map((drill) => `${drill.holes} with ${drill.name}`).join(', ')}`;
}
