import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Overlaps } from '../../../src/nesting/search/overlaps.ts';
import { rectangle } from '../../rectangle.ts';

/** Squares of 10 mm in a row on a board of 100 by 20 mm, at these places. */
function squares(places: readonly number[]): { arrangement: Arrangement; overlaps: Overlaps } {
  const region = { outline: rectangle(10, 10), openings: [] };
  const lies = [{ degrees: 0, turnedOver: false }];
  const problem = new ProblemBuilder().build({
    shapes: [{ region, lies, stands: false, copies: places.length, perSet: 1 }],
    containers: [containerFrom({ outline: rectangle(100, 20), openings: [] }, 1, 100)],
    gap: 0,
    margin: 0,
  });
  const arrangement = new Arrangement(places.length);
  arrangement.x.set(places);
  arrangement.y.fill(10);
  arrangement.container.fill(0);
  const overlaps = new Overlaps(problem, arrangement);
  overlaps.measureAll();
  return { arrangement, overlaps };
}

/** Logarithms of the table with these weights, both ways, and 1 everywhere else: all squares are of one size. */
const weights = (count: number, raised: readonly (readonly [i: number, j: number, weight: number])[]) => {
  const table = Array.from({ length: count * count }, () => 1);
  for (const [i, j, weight] of raised) {
    table[i * count + j] = weight;
    table[j * count + i] = weight;
  }
  return table.map((weight) => expect.closeTo(Math.log(weight), 4));
};

function weightsOf(overlaps: Overlaps): number[] {
  const copies = Array.from({ length: overlaps.count }, (_, i) => i);
  return copies.flatMap((i) => copies.map((j) => Math.log(overlaps.weightOf(i, j))));
}

test('weights of pairs that overlap grow, the deepest most; others fade to what they were', () => {
  // The first two overlap by 8 mm, the next two by 4 mm, the last by nothing.
  const { arrangement, overlaps } = squares([10, 12, 40, 46, 80]);
  overlaps.learn();
  const once: [number, number, number][] = [
    [0, 1, 2],
    [2, 3, 1.2 + 0.8 / 2],
  ];
  expect(weightsOf(overlaps)).toEqual(weights(5, once));
  // The second moves away: its pair fades by a twentieth, the other one is the deepest now.
  arrangement.x[1] = 25;
  overlaps.measure(1);
  overlaps.learn();
  const twice: [number, number, number][] = [
    [0, 1, 2 * 0.95],
    [2, 3, 1.6 * 2],
  ];
  expect(weightsOf(overlaps)).toEqual(weights(5, twice));
  for (let n = 0; n < 20; n++) overlaps.learn();
  expect(weightsOf(overlaps)).toEqual(weights(5, [[2, 3, 3.2 * 2 ** 20]]));
  overlaps.resetWeights();
  expect(weightsOf(overlaps)).toEqual(weights(5, []));
});

test('overlaps measured anew leave nothing of those before, where the copies have been put elsewhere', () => {
  const { arrangement, overlaps } = squares([10, 12, 40, 46, 80, -20]);
  arrangement.x.set([10, 25, 40, 55, 80, 81]);
  overlaps.measureAll();
  const found = [...overlaps.depth.entries()].filter(([, depth]) => depth > 0).map(([at]) => at);
  expect(found).toEqual([4 * 6 + 5, 5 * 6 + 4]);
  expect([0, 1, 2, 3, 4, 5].map((i) => overlaps.meets(i))).toEqual([false, false, false, false, true, true]);
});
