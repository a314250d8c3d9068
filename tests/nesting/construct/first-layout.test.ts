import { expect, test } from 'vitest';
import { boxRing } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { FirstLayout } from '../../../src/nesting/construct/first-layout.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { blob } from '../random-batch.ts';

/** So many unlike outlines of five points, one copy of each, on a board of 1000 x 300 mm. */
function unlikeParts(copies: number, seed: number) {
  const random = new Random(seed);
  const board = { outline: boxRing({ minX: 0, minY: 0, maxX: 1000, maxY: 300 }), openings: [] };
  const shapes = Array.from({ length: copies }, () => ({
    region: { outline: blob(random, 5, 2, 60, true), openings: [] },
    lies: [0, 180].map((degrees) => ({ degrees, turnedOver: false })),
    stands: false,
    copies: 1,
    perSet: 1,
  }));
  return new ProblemBuilder().build({ shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 0 });
}

test('a copy that is settled and then pushed as far as it goes meets nothing that lay out of sight where it began', async () => {
  const problem = unlikeParts(20, 24);
  const arrangement = new Arrangement(20);
  const layout = new FirstLayout(problem, arrangement);
  for (let item = 0; item < 20; item++)
    expect(await layout.place(item, [0], new Pulse(undefined))).toBe(true);
  expect(new ExactCheck(problem).passes(arrangement)).toBe(true);
});
