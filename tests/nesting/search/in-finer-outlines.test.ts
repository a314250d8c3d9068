import { expect, test } from 'vitest';
import type { Region, Ring } from '../../../src/geometry/shapes.ts';
import { Arrangement, usedEnd } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { PairTable } from '../../../src/nesting/problem/pair-table.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { inFinerOutlines } from '../../../src/nesting/search/in-finer-outlines.ts';
import { solve } from '../../../src/nesting/search/solve.ts';
import { rectangle } from '../../rectangle.ts';
import { oneWayShapes } from '../one-way-shapes.ts';

const SIZES = [20, 19, 18];

/** A disc as so many sides, a quarter of them between the points where it touches its box. */
function disc(size: number, sides: number): Region {
  const outline = Array.from({ length: sides }, (_, i) => {
    const angle = (2 * Math.PI * i) / sides;
    return [(size / 2) * Math.cos(angle), (size / 2) * Math.sin(angle)] as const;
  });
  return { outline, openings: [] };
}

/** Three discs on a board 30 mm wide, worked with as squares. */
function discsAsSquares(finerSides: readonly number[]): NestingProblem {
  const squares = oneWayShapes(
    SIZES.map((size) => {
      const outline: Ring = rectangle(size, size).map(([x, y]) => [x - size / 2, y - size / 2]);
      return { outline, openings: [] };
    }),
  );
  return {
    ...squares,
    shapeOf: Int32Array.of(0, 1, 2),
    perSet: [1, 1, 1],
    pinned: [0, 0, 0],
    containers: [containerFrom({ outline: rectangle(100, 30), openings: [] }, 1, 0)],
    gap: 1,
    margin: 0,
    pairs: new PairTable(squares.shapes, squares.orientations, 1, 0),
    finer: finerSides.map((sides) => oneWayShapes(SIZES.map((size) => disc(size, sides)))),
  };
}

/** The three discs one behind the other. */
function lyingAt(x: readonly number[]): Arrangement {
  const arrangement = new Arrangement(3);
  arrangement.container.fill(0);
  arrangement.orientation.set([0, 1, 2]);
  arrangement.x.set(x);
  arrangement.y.fill(15);
  return arrangement;
}

async function solved(problem: NestingProblem): Promise<Arrangement> {
  return solve(problem, {
    budget: new MoveBudget(4000),
    seed: 1,
    start: undefined,
    pulse: new Pulse(undefined),
    onBetter: () => {},
  });
}

test('what was searched in coarser outlines ends nested in the finer ones', async () => {
  const [coarse, fine] = [discsAsSquares([]), discsAsSquares([48])];
  const [inSquares, inDiscs] = [await solved(coarse), await solved(fine)];
  // Squares lie one behind the other; of discs on 30 mm each steps aside by up to 10 mm and comes nearer by the root.
  expect(usedEnd(coarse, inSquares, 0)).toBeCloseTo(20 + 19 + 18 + 2, 3);
  const [first, second] = [20.5, 19.5];
  const steps = [first, second].map((apart) => Math.sqrt(apart ** 2 - (30 - apart + 1) ** 2));
  const shortest = 10 + steps[0] + steps[1] + 9;
  expect(usedEnd(fine, inDiscs, 0)).toBeLessThan(shortest + 0.5);
  const [discs] = fine.finer;
  const pairs = new PairTable(discs.shapes, discs.orientations, 1, 0);
  expect(new ExactCheck({ ...fine, ...discs, pairs }).passes(inDiscs)).toBe(true);
  expect(new ExactCheck(coarse).passes(inDiscs)).toBe(false);
});

test('only neighbours have fields in the finer outlines', async () => {
  const problem = discsAsSquares([48]);
  const finer = await inFinerOutlines(problem, lyingAt([10, 30.5, 80]), new Pulse(undefined));
  const depth = (fixed: number, moving: number, x: number, y: number) => {
    const { field, xx, xy, yx, yy } = (finer ?? problem).pairs.pair(fixed, moving);
    return field.depth(xx * x + xy * y, yx * x + yy * y);
  };
  // Corner to corner squares overlap where discs do not.
  expect(depth(0, 1, 18, 18)).toBeLessThan(0);
  expect(depth(1, 0, -18, -18)).toBeLessThan(0);
  expect(depth(0, 2, 18, 18)).toBeGreaterThan(1);
});

test('the finest outlines are taken that neighbours can afford, and none where they can afford none', async () => {
  const near = lyingAt([10, 30.5, 50]);
  const chosen = async (sides: readonly number[]) =>
    (await inFinerOutlines(discsAsSquares(sides), near, new Pulse(undefined)))?.shapes[0].region.outline
      .length;
  expect(await chosen([8000, 120, 48])).toBe(120);
  expect(await chosen([8000])).toBeUndefined();
  expect(await chosen([])).toBeUndefined();
});
