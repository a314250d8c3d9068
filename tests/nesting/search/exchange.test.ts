import { expect, test } from 'vitest';
import { Arrangement, fullEnds } from '../../../src/nesting/arrangement/arrangement.ts';
import { readyPairs } from '../../../src/nesting/arrangement/ready-pairs.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { Exchanges } from '../../../src/nesting/search/exchange.ts';
import { Mover } from '../../../src/nesting/search/mover.ts';
import { Overlaps } from '../../../src/nesting/search/overlaps.ts';
import { rectangle } from '../../rectangle.ts';

const lies = [{ degrees: 0, turnedOver: false }];
const board = (defects: readonly (readonly [number, number])[]) => ({
  outline: rectangle(100, 20),
  openings: defects.map(([from, to]): [number, number][] => [
    [from, 1],
    [to, 1],
    [to, 19],
    [from, 19],
  ]),
});

/** Parts 20 mm high on a board as high: they differ in length and can only lie side by side. */
async function row(lengths: readonly number[], ends: readonly (readonly [number, number])[]) {
  const shapes = lengths.map((length) => ({
    region: { outline: rectangle(length, 20), openings: [] },
    lies,
    stands: false,
    copies: 1,
    perSet: 1,
  }));
  const containers = [containerFrom(board(ends), 1, 0)];
  const problem: NestingProblem = new ProblemBuilder().build({ shapes, containers, gap: 0, margin: 0 });
  const arrangement = new Arrangement(lengths.length);
  const random = new Random(1);
  const overlaps = new Overlaps(problem, arrangement);
  const mover = new Mover(problem, arrangement, overlaps, random);
  const exchanges = new Exchanges(problem, arrangement, overlaps, mover, random);
  const lay = async (middles: readonly number[]) => {
    for (const [i, middle] of middles.entries()) {
      arrangement.orientation[i] = problem.shapes[problem.shapeOf[i]].orientations[0];
      arrangement.x[i] = middle;
      arrangement.y[i] = 10;
      arrangement.container[i] = 0;
    }
    for (const i of middles.keys()) {
      const { orientations } = problem.shapes[problem.shapeOf[i]];
      await readyPairs(problem, arrangement, i, orientations, new Pulse(undefined));
    }
    overlaps.measureAll();
  };
  return {
    problem,
    arrangement,
    overlaps,
    exchanges,
    lay,
    field: { containers: [0], ends: fullEnds(problem) },
  };
}

const depths = ({ depth }: Overlaps) => Array.from(depth);

test('two copies that each lie in the gap of the other change places', async () => {
  // A crack from 40 to 42 leaves a gap of 40 and one of 58 mm.
  const { arrangement, overlaps, exchanges, lay, field } = await row([55, 38], [[40, 42]]);
  await lay([28, 75]);
  expect(overlaps.total()).toBeGreaterThan(0);
  expect(exchanges.exchange(0, 1, field)).toBe(true);
  expect(overlaps.total()).toBe(0);
  expect(arrangement.x[0] - 27.5).toBeGreaterThan(41.9);
  expect(arrangement.x[1] + 19).toBeLessThan(40.1);
  const kept = depths(overlaps);
  overlaps.measureAll();
  expect(depths(overlaps)).toEqual(kept);
});

test('an exchange that gains nothing leaves both where they lay, and their overlaps as they were', async () => {
  const { arrangement, overlaps, exchanges, lay, field } = await row([57, 38], [[40, 42]]);
  // Each in its own gap, the longer a little beyond it: the other gap is far too short for that.
  await lay([69, 19.5]);
  const before = { depth: depths(overlaps), x: Array.from(arrangement.x), y: Array.from(arrangement.y) };
  expect(overlaps.total()).toBeGreaterThan(0);
  expect(exchanges.exchange(0, 1, field)).toBe(false);
  expect(Array.from(arrangement.x)).toEqual(before.x);
  expect(Array.from(arrangement.y)).toEqual(before.y);
  expect(Array.from(arrangement.container)).toEqual([0, 0]);
  expect(depths(overlaps)).toEqual(before.depth);
});

test('partners are of another shape and about as large or larger', async () => {
  const { exchanges, lay } = await row([10, 8, 3, 40, 25], []);
  await lay([10, 30, 50, 70, 90]);
  const partnersOf = (i: number) => new Set(Array.from({ length: 200 }, () => exchanges.partnerOf(i)));
  // Ten copies are looked at, which may miss them all: -1.
  expect(partnersOf(0)).toEqual(new Set([-1, 1, 4]));
  expect(partnersOf(2)).toEqual(new Set([-1, 1]));
  // The others are less than 0.6 times as large.
  expect(partnersOf(3)).toEqual(new Set([-1, 4]));
});
