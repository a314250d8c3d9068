import { describe, expect, test } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import { Arrangement, usedEnd } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Compaction } from '../../../src/nesting/sliding/compaction.ts';

/** A thread that is not stopped, and plenty of moves to spend. */
const freeRun = () => ({ pulse: new Pulse(undefined), budget: new MoveBudget(1000) });

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

/** Copies of a 20 mm square on a strip 400 mm long and 45 mm wide, kept 1 mm apart. */
function squares(places: readonly (readonly [number, number])[]): [NestingProblem, Arrangement] {
  const problem = new ProblemBuilder().build({
    shapes: [
      {
        region: { outline: rectangle(20, 20), openings: [] },
        lies: [{ degrees: 0, turnedOver: false }],
        stands: false,
        copies: places.length,
        perSet: 1,
      },
    ],
    containers: [containerFrom({ outline: rectangle(400, 45), openings: [] }, 1, 0)],
    gap: 1,
    margin: 0,
  });
  const arrangement = new Arrangement(places.length);
  arrangement.container.fill(0);
  for (const [i, [x, y]] of places.entries()) {
    arrangement.x[i] = x;
    arrangement.y[i] = y;
  }
  return [problem, arrangement];
}

const wholeStrip = { containers: [0], ends: new Float64Array([400]) };

describe('Compaction', () => {
  test('pushes a loose row together to the last hundredth', async () => {
    // Four squares in two rows: 2 x 20 mm and a gap of 1 mm is the shortest they can be.
    const [problem, arrangement] = squares([
      [10, 11],
      [33, 12],
      [11, 34],
      [34, 33.5],
    ]);
    await new Compaction(problem, wholeStrip, 0, freeRun()).compact(arrangement);
    expect(usedEnd(problem, arrangement, 0)).toBeCloseTo(41, 2);
    expect(new ExactCheck(problem).passes(arrangement)).toBe(true);
  });

  test('sets a chain of small overlaps apart at the least length that does it', async () => {
    const [problem, arrangement] = squares([
      [10, 22],
      [30.7, 22],
      [51.2, 22],
    ]);
    expect(new ExactCheck(problem).passes(arrangement)).toBe(false);
    const compaction = new Compaction(problem, wholeStrip, 0, freeRun());
    expect(await compaction.separate(arrangement)).toBe(true);
    expect(usedEnd(problem, arrangement, 0)).toBeCloseTo(62, 2);
    expect(new ExactCheck(problem).passes(arrangement)).toBe(true);
  });

  test('what it does is paid for in moves, the more the more copies slide', async () => {
    const spent = async (count: number) => {
      const [problem, arrangement] = squares(Array.from({ length: count }, (_, i) => [11 + 22 * i, 22]));
      const run = freeRun();
      await new Compaction(problem, wholeStrip, 0, run).compact(arrangement);
      return run.budget.done;
    };
    const few = await spent(2);
    expect(few).toBeGreaterThan(0);
    expect(await spent(16)).toBeGreaterThan(10 * few);
  });
});
