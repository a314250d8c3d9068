import { boxesMeet, movedBox } from '../../geometry/shapes.ts';
import type { Arrangement } from '../arrangement/arrangement.ts';
import { readyFields } from '../arrangement/ready-pairs.ts';
import { FinerPairs } from '../problem/finer-pairs.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { FinerShapes } from '../problem/shape.ts';
import { AFFORDABLE, memberOf, workOfPair } from '../problem/work-of-pairs.ts';
import type { Pulse } from '../running/pulse.ts';

/**
 * The end of a search whose parts are so many that it worked with coarser outlines: what lies there is laid out again in
 * finer ones, of which only neighbours ask for no-fit polygons.
 */

/** What the no-fit polygons of neighbours may cost, as a share of what those of all pairs may. */
const SHARE = 0.25;

/** Copies whose boxes are no farther apart than this, as a share of their size, are neighbours. */
const NEAR = 0.1;

/**
 * The problem in the finest outlines that the neighbours of an arrangement can afford, with the fields of these; undefined
 * where it has no finer ones, or none of them can be afforded, or the search is told to stop.
 */
export async function inFinerOutlines(
  problem: NestingProblem,
  arrangement: Arrangement,
  pulse: Pulse,
): Promise<NestingProblem | undefined> {
  if (problem.finer.length === 0) return undefined;
  const pairs = neighbouringPairs(problem, arrangement);
  const finer = problem.finer.find((each) => workOf(each, pairs) <= SHARE * AFFORDABLE);
  if (finer === undefined) return undefined;
  const table = new FinerPairs(problem, finer);
  for (const [fixed, moving] of pairs) table.refine(fixed, moving);
  for (const [fixed, moving] of pairs) {
    await readyFields(table, [fixed], [moving], pulse);
    if (pulse.stopped) return undefined;
  }
  return { ...problem, ...finer, pairs: table };
}

/** Orientations of copies that lie near one another, each pair once. */
function neighbouringPairs(
  { orientations }: NestingProblem,
  { count, container, orientation, x, y }: Arrangement,
): (readonly [fixed: number, moving: number])[] {
  const found = new Map<number, readonly [number, number]>();
  for (let i = 0; i < count; i++) {
    if (container[i] < 0) continue;
    const a = orientations[orientation[i]].box;
    for (let j = 0; j < i; j++) {
      if (container[j] !== container[i]) continue;
      const b = orientations[orientation[j]].box;
      const near = NEAR * Math.max(a.maxX - a.minX, a.maxY - a.minY, b.maxX - b.minX, b.maxY - b.minY);
      if (!boxesMeet(movedBox(a, x[i] - x[j], y[i] - y[j]), b, near)) continue;
      const [low, high] = [
        Math.min(orientation[i], orientation[j]),
        Math.max(orientation[i], orientation[j]),
      ];
      found.set(low * orientations.length + high, [low, high]);
    }
  }
  return [...found.values()];
}

function workOf(
  { shapes, orientations }: FinerShapes,
  pairs: readonly (readonly [fixed: number, moving: number])[],
): number {
  const members = shapes.map(({ region }) => memberOf(region, 1));
  return pairs.reduce(
    (sum, [a, b]) => sum + workOfPair(members[orientations[a].shape], members[orientations[b].shape]),
    0,
  );
}
