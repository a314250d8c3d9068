import { expect, test } from 'vitest';
import { boxRing, type Region } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { DEPTH_TOLERANCE } from '../../../src/nesting/arrangement/probe.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { Overlaps } from '../../../src/nesting/search/overlaps.ts';
import { Sampler } from '../../../src/nesting/search/sampler.ts';
import { blob } from '../random-batch.ts';

const COPIES = 8;

/** Jagged outlines in six ways to lie, mirrored ones among them, on a board with an opening. */
function problemOf(random: Random): NestingProblem {
  const lies = [0, 40, 180].flatMap((degrees) =>
    [false, true].map((turnedOver) => ({ degrees, turnedOver })),
  );
  const shapes = [9, 5, 14].map((points) => ({
    region: { outline: blob(random, points, 10, 30, false), openings: [] },
    lies,
    onEdge: false,
    copies: COPIES,
    perSet: 1,
  }));
  const board: Region = {
    outline: boxRing({ minX: 0, minY: 0, maxX: 200, maxY: 120 }),
    openings: [boxRing({ minX: 90, minY: 50, maxX: 110, maxY: 60 })],
  };
  const containers = [containerFrom(board, 1, 0)];
  return new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 1 }).problem;
}

/** Copies anywhere, one of them nowhere. */
function thrown(problem: NestingProblem, random: Random): Arrangement {
  const arrangement = new Arrangement(problem.shapeOf.length);
  for (let i = 0; i < arrangement.count; i++) {
    const { orientations } = problem.shapes[problem.shapeOf[i]];
    arrangement.x[i] = random.between(20, 180);
    arrangement.y[i] = random.between(20, 100);
    arrangement.orientation[i] = orientations[random.below(orientations.length)];
    arrangement.container[i] = i === 3 ? -1 : 0;
  }
  return arrangement;
}

/** The depths of copy `i` at a place, one by one, and how far a rough look may be off: half a cell's diagonal each. */
function exactly(problem: NestingProblem, lying: Arrangement, i: number, x: number, y: number) {
  const orientation = lying.orientation[i];
  const found = problem.containers[0].hazards.map((hazard) => {
    const field = problem.pairs.hazard(hazard, orientation)!;
    return { with: i, depth: field.depth(x, y), off: field };
  });
  for (let j = 0; j < lying.count; j++) {
    if (j === i || lying.container[j] < 0) continue;
    const { field, xx, xy, yx, yy } = problem.pairs.pair(lying.orientation[j], orientation);
    const dx = x - lying.x[j];
    const dy = y - lying.y[j];
    found.push({ with: j, depth: field.depth(xx * dx + xy * dy, yx * dx + yy * dy), off: field });
  }
  return found.map(({ off, ...rest }) => ({ ...rest, off: Math.SQRT1_2 / off.perCell + off.roughUnit }));
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
    const sampler = new Sampler(problem, lying, overlaps, random);
    const i = 3 + round;
    const area = { minX: 20 + 3 * round, minY: 25, maxX: 175, maxY: 90 - 4 * round };
    sampler.spread(area, 60, lying.orientation[i]);
    sampler.include(area.maxX, area.maxY);
    expect(sampler.measure(i, lying.orientation[i], 0)).toBe(true);
    for (let n = 0; n < sampler.count; n++) {
      const depths = exactly(problem, lying, i, sampler.x[n], sampler.y[n]);
      const weightOf = (j: number) => overlaps.weight[i * overlaps.count + j];
      const most = depths.reduce((sum, d) => sum + Math.max(0, d.depth + d.off) * weightOf(d.with), 0);
      const least = depths.reduce((sum, d) => sum + Math.max(0, d.depth - d.off) * weightOf(d.with), 0);
      expect(sampler.overlap[n]).toBeLessThanOrEqual(most);
      expect(sampler.overlap[n]).toBeGreaterThanOrEqual(least);
      if (least > 0) positive++;
    }
  }
  expect(positive).toBeGreaterThan(300);
});

test('samples lie one in each cell of a grid over the area, and a place asked for is one of them', () => {
  const random = new Random(9);
  const problem = problemOf(random);
  const lying = thrown(problem, random);
  const sampler = new Sampler(problem, lying, new Overlaps(problem, lying), random);
  const area = { minX: 10, minY: 10, maxX: 190, maxY: 110 };
  sampler.spread(area, 400, 0);
  expect(Math.abs(sampler.count - 400)).toBeLessThan(40);
  // No quarter of the area is left out: chance alone would leave 100 with a spread of nine.
  const inQuarter = (n: number) => sampler.x[n] < 100 && sampler.y[n] < 60;
  const places = Array.from({ length: sampler.count }, (_, n) => n);
  expect(Math.abs(places.filter(inQuarter).length - sampler.count / 4)).toBeLessThan(20);
  sampler.include(100.5, 33);
  expect(places.some((n) => sampler.x[n] === 100.5 && sampler.y[n] === 33)).toBe(true);
  // A copy as wide as the board has one column, one that must lie on the edge one row.
  sampler.spread({ minX: 50, minY: 20, maxX: 50, maxY: 90 }, 12, 0);
  expect(places.slice(0, sampler.count).every((n) => sampler.x[n] === 50)).toBe(true);
  sampler.spread({ minX: 20, minY: 110, maxX: 180, maxY: 110 }, 12, 0);
  expect(sampler.count).toBe(12);
  expect(places.slice(0, 12).every((n) => sampler.y[n] === 110)).toBe(true);
});

test('which copies overlap is known after every move', () => {
  const random = new Random(6);
  const problem = problemOf(random);
  const lying = thrown(problem, random);
  const overlaps = new Overlaps(problem, lying);
  overlaps.measureAll();
  let free = 0;
  for (let n = 0; n < 200; n++) {
    const moved = random.below(COPIES) === 3 ? 4 : random.below(lying.count);
    if (moved === 3) continue;
    lying.x[moved] = random.between(-900, 900);
    overlaps.measure(moved);
    for (let i = 0; i < lying.count; i++) {
      if (i === 3) continue;
      const depths = exactly(problem, lying, i, lying.x[i], lying.y[i]);
      const meets = depths.some(({ depth }) => depth > DEPTH_TOLERANCE);
      expect(overlaps.meets(i)).toBe(meets);
      if (!meets) free++;
    }
  }
  expect(free).toBeGreaterThan(100);
});
