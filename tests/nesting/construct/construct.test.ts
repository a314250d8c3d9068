import { expect, test } from 'vitest';
import { construct } from '../../../src/nesting/construct/construct.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { rectangle } from '../../rectangle.ts';

const plate = (length: number, width: number) => ({ outline: rectangle(length, width), openings: [] });

/** Squares of some sizes, one of each in a set, on boards with a cost; the board of each copy, -1 for none. */
async function laid(
  squares: readonly number[],
  sets: number,
  boards: readonly (readonly [length: number, width: number, cost: number])[],
) {
  const shapes = squares.map((size) => ({
    region: plate(size, size),
    lies: [{ degrees: 0, turnedOver: false }],
    ...{ stands: false, copies: sets, perSet: 1 },
  }));
  const containers = boards.map(([length, width, cost], k) => containerFrom(plate(length, width), cost, k));
  const problem = new ProblemBuilder().build({ shapes, containers, gap: 0, margin: 0 });
  const { container } = await construct(problem, new Pulse(undefined), () => {});
  return [...container];
}

test('of the orders of boards the one that costs least is kept, wherever it comes', async () => {
  expect(
    await laid([33], 1, [
      [100, 100, 10],
      [50, 50, 1],
    ]),
  ).toEqual([1]);
  expect(
    await laid([33], 1, [
      [50, 50, 1],
      [100, 100, 10],
    ]),
  ).toEqual([0]);
});

test('a board filled by the large squares of two sets holds one whole set in their place', async () => {
  // Of 66 x 33 mm two squares of 33 mm leave nothing for those of 10 mm.
  const [large, other, small, another] = await laid([33, 10], 2, [[66, 33, 1]]);
  expect([large, small]).toEqual([0, 0]);
  // What is left, 33 mm square less one of 10 mm, has room for the small one of the second set alone.
  expect([other, another]).toEqual([-1, 0]);
});

test('single copies of sets that are not whole lie on boards in use, wherever those come', async () => {
  // The large square of the second set has no room; its small one needs no board of its own.
  const container = await laid([60, 10], 2, [
    [20, 20, 5],
    [80, 80, 10],
  ]);
  expect(container).toEqual([1, -1, 1, 1]);
});
