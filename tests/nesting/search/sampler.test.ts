import { expect, test } from 'vitest';
import { boxRing, type Point, type Region } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { DEPTH_TOLERANCE } from '../../../src/nesting/arrangement/probe.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { Overlaps } from '../../../src/nesting/search/overlaps.ts';
import { Sampler } from '../../../src/nesting/search/sampler.ts';
import { blob } from '../random-batch.ts';

const COPIES = 8;

/** The copy that lies nowhere. */
const NOWHERE = 3;

/** Jagged outlines in six ways to lie, mirrored ones among them, on a board with an opening. */
function problemOf(random: Random, boards = 1): NestingProblem {
  const lies = [0, 40, 180].flatMap((degrees) =>
    [false, true].map((turnedOver) => ({ degrees, turnedOver })),
  );
  const shapes = [9, 5, 14].map((points) => ({
    region: { outline: blob(random, points, 10, 30, false), openings: [] },
    lies,
    stands: false,
    copies: COPIES,
    perSet: 1,
  }));
  const board: Region = {
    outline: boxRing({ minX: 0, minY: 0, maxX: 200, maxY: 120 }),
    openings: [boxRing({ minX: 90, minY: 50, maxX: 110, maxY: 60 })],
  };
  const containers = new Array(boards).fill(containerFrom(board, 1, 0));
  return new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 1 });
}

/** Copies anywhere, one of them nowhere. */
function thrown(problem: NestingProblem, random: Random): Arrangement {
  const arrangement = new Arrangement(problem.shapeOf.length);
  for (let i = 0; i < arrangement.count; i++) {
    const { orientations } = problem.shapes[problem.shapeOf[i]];
    arrangement.x[i] = random.between(20, 180);
    arrangement.y[i] = random.between(20, 100);
    arrangement.orientation[i] = orientations[random.below(orientations.length)];
    arrangement.container[i] = i === NOWHERE ? -1 : 0;
  }
  return arrangement;
}

/** The depths of copy `i` at a place, one by one, and how far a rough look may be off: half a cell's diagonal each. */
function exactly(problem: NestingProblem, lying: Arrangement, i: number, x: number, y: number) {
  const orientation = lying.orientation[i];
  const found = problem.containers[lying.container[i]].hazards.map((hazard) => {
    const field = problem.pairs.hazard(hazard, orientation)!;
    return { with: i, depth: field.depth(x, y), off: 0 };
  });
  for (let j = 0; j < lying.count; j++) {
    if (j === i || lying.container[j] !== lying.container[i]) continue;
    const { field, xx, xy, yx, yy } = problem.pairs.pair(lying.orientation[j], orientation);
    const dx = x - lying.x[j];
    const dy = y - lying.y[j];
    found.push({
      with: j,
      depth: field.depth(xx * dx + xy * dy, yx * dx + yy * dy),
      off: Math.SQRT1_2 / field.perCell + field.roughUnit,
    });
  }
  return found;
}

test('a rough look at many places finds the weighted depths of all neighbours, to half a cell each', () => {
  const random = new Random(4);
  const problem = problemOf(random);
  let positive = 0;
  for (let round = 0; round < 12; round++) {
    const lying = thrown(problem, random);
    const overlaps = new Overlaps(problem, lying);
    overlaps.measureAll();
    for (let n = 0; n < 3 * round; n++) overlaps.learn();
    const sampler = new Sampler(problem, lying, overlaps, random, 60);
    const i = NOWHERE + 1 + round;
    const area = { minX: 20 + 3 * round, minY: 25, maxX: 175, maxY: 90 - 4 * round };
    sampler.spread(area, 60, lying.orientation[i]);
    sampler.include(area.maxX, area.maxY);
    expect(sampler.measure(i, lying.orientation[i], 0, Number.POSITIVE_INFINITY)).toBe(true);
    for (let n = 0; n < sampler.count; n++) {
      const depths = exactly(problem, lying, i, sampler.x[n], sampler.y[n]);
      const weightOf = (j: number) => overlaps.weightOf(i, j);
      const most = depths.reduce((sum, d) => sum + Math.max(0, d.depth + d.off) * weightOf(d.with), 0);
      const least = depths.reduce((sum, d) => sum + Math.max(0, d.depth - d.off) * weightOf(d.with), 0);
      expect(sampler.overlap[n]).toBeLessThanOrEqual(most);
      expect(sampler.overlap[n]).toBeGreaterThanOrEqual(least);
      if (least > 0) positive++;
    }
  }
  expect(positive).toBeGreaterThan(300);
});

test('samples lie one in each cell of a grid over the area, and a place asked for is that of its cell', () => {
  const random = new Random(9);
  const problem = problemOf(random);
  const lying = thrown(problem, random);
  const sampler = new Sampler(problem, lying, new Overlaps(problem, lying), random, 400);
  const area = { minX: 10, minY: 10, maxX: 190, maxY: 110 };
  sampler.spread(area, 400, 0);
  expect(Math.abs(sampler.count - 400)).toBeLessThan(40);
  const places = () => Array.from({ length: sampler.count }, (_, n): Point => [sampler.x[n], sampler.y[n]]);
  const spread = places();
  // A new row begins where x falls back by most of the width.
  const columns = spread.findIndex(([x], n) => n > 0 && x < spread[n - 1][0] - 90);
  const rows = sampler.count / columns;
  const cellOf = ([x, y]: Point) =>
    Math.floor(((y - 10) / 100) * rows) * columns + Math.floor(((x - 10) / 180) * columns);
  expect(spread.map(cellOf)).toEqual(spread.map((_, n) => n));
  sampler.include(100.5, 33);
  const cell = cellOf([100.5, 33]);
  expect(places()).toEqual(spread.map((place, n) => (n === cell ? [100.5, 33] : place)));
  // A copy as wide as the board has one column, one that must lie on the edge one row.
  sampler.spread({ minX: 50, minY: 20, maxX: 50, maxY: 90 }, 12, 0);
  expect(places().every(([x]) => x === 50)).toBe(true);
  sampler.spread({ minX: 20, minY: 110, maxX: 180, maxY: 110 }, 12, 0);
  expect(sampler.count).toBe(12);
  expect(places().every(([, y]) => y === 110)).toBe(true);
});

test('which copies overlap, and how much in all, is known after every move', () => {
  const random = new Random(6);
  const problem = problemOf(random, 2);
  const lying = thrown(problem, random);
  const overlaps = new Overlaps(problem, lying);
  overlaps.measureAll();
  const movable = Array.from(lying.container, (_, i) => i).filter((i) => i !== NOWHERE);
  // Weights are still those of the sizes: what a copy overlaps, weighted, is then its part of the total.
  const sizeOf = (i: number, j: number) => overlaps.weightOf(i, j);
  let free = 0;
  for (let n = 0; n < 120; n++) {
    const moved = movable[random.below(movable.length)];
    lying.x[moved] = random.between(-300, 300);
    lying.orientation[moved] = problem.shapes[problem.shapeOf[moved]].orientations[random.below(6)];
    lying.container[moved] = random.below(2);
    if (n % 40 === 39) overlaps.measureAll();
    else overlaps.measure(moved);
    let total = 0;
    for (const i of movable) {
      const met = exactly(problem, lying, i, lying.x[i], lying.y[i]).filter(
        ({ depth }) => depth > DEPTH_TOLERANCE,
      );
      expect(overlaps.meets(i)).toBe(met.length > 0);
      if (met.length === 0) free++;
      for (const { with: j, depth } of met) total += (j === i ? 1 : 0.5) * depth * sizeOf(i, j);
    }
    expect(overlaps.total()).toBeCloseTo(total, 3);
  }
  expect(free).toBeGreaterThan(100);
});
