import { expect, test } from 'vitest';
import { applyToRegion } from '../../../src/geometry/affine.ts';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { regionsArea } from '../../../src/geometry/ring.ts';
import { boxRing, type Region } from '../../../src/geometry/shapes.ts';
import { type Arrangement, usedEnd } from '../../../src/nesting/arrangement/arrangement.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { constructMeanwhile } from '../../../src/nesting/construct/construct.ts';
import { boxedProblem, coarseProblem } from '../../../src/nesting/problem/coarse.ts';
import { turn } from '../../../src/nesting/problem/orientations.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { blob } from '../random-batch.ts';

/** So many different outlines of 12 points, one copy of each, on a board of so many times 1 m by 1 m. */
function problemOf(outlines: number, metres: number): NestingProblem {
  const random = new Random(11);
  const board = { outline: boxRing({ minX: 0, minY: 0, maxX: 1000 * metres, maxY: 1000 }), openings: [] };
  const shapes = Array.from({ length: outlines }, () => ({
    region: { outline: blob(random, 12, 20, 70, true), openings: [] },
    lies: [0, 90, 180, 270].map((degrees) => ({ degrees, turnedOver: false })),
    stands: false,
    copies: 1,
    perSet: 1,
  }));
  return new ProblemBuilder().build({ shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 0 });
}

/** Two stars of so many long tips. */
function jaggedProblem(tips: number): NestingProblem {
  const star = (size: number): Region => ({
    outline: Array.from({ length: 2 * tips }, (_, i) => {
      const angle = (Math.PI * i) / tips;
      const radius = i % 2 === 0 ? size : size / 2;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }),
    openings: [],
  });
  const board = { outline: boxRing({ minX: 0, minY: 0, maxX: 1000, maxY: 1000 }), openings: [] };
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  const shapes = [60, 80].map((size) => ({
    region: star(size),
    lies,
    stands: false,
    copies: 4,
    perSet: 1,
  }));
  return new ProblemBuilder().build({ shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 0 });
}

function answersOf(problem: NestingProblem): Promise<Arrangement[]> {
  const answers: Arrangement[] = [];
  return constructMeanwhile(problem, new Pulse(undefined), true, (next) => answers.push(next.clone())).then(
    () => answers,
  );
}

function placed({ shapes, shapeOf, orientations }: NestingProblem, arrangement: Arrangement): Region[] {
  return Array.from(shapeOf, (shape, i) => {
    const { degrees, turnedOver } = orientations[arrangement.orientation[i]];
    const [a, b, c, d] = turn(degrees, turnedOver);
    return applyToRegion([a, b, c, d, arrangement.x[i], arrangement.y[i]], shapes[shape].region);
  });
}

test('the boxes of many outlines hold them in every orientation, and are of twelve sizes at most', () => {
  const problem = problemOf(40, 2);
  const boxed = boxedProblem(problem);
  for (const [n, { shape, degrees, turnedOver }] of problem.orientations.entries()) {
    const turned = applyToRegion(turn(degrees, turnedOver), problem.shapes[shape].region);
    const box = { outline: boxRing(boxed.orientations[n].box), openings: [] };
    expect(regionsArea(combineRegions('difference', [turned], [box]))).toBeLessThan(1e-6);
  }
  const sizes = new Set(boxed.orientations.map(({ shape }) => shape));
  expect(sizes.size).toBe(12);
});

test('the box of a part with a rest edge ends where the part does', () => {
  // More vertices than are handy: outlines are simplified, and a little off their middle then.
  const hill = Array.from({ length: 120 }, (_, i) => {
    const angle = (Math.PI * i) / 119;
    return [-40 * Math.cos(angle), -30 * Math.sin(angle) - Math.sin(8 * angle) ** 2] as const;
  });
  const region = { outline: hill, openings: [] };
  const lies = [{ degrees: 0, turnedOver: false }];
  const board = { outline: boxRing({ minX: 0, minY: 0, maxX: 1000, maxY: 1000 }), openings: [] };
  const shapes = [true, false].map((stands) => ({ region, lies, stands, copies: 1, perSet: 1 }));
  const spec = { shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 0 };
  const problem = new ProblemBuilder().build(spec);
  expect(problem.orientations[0].box.minY).toBeLessThan(-problem.orientations[0].box.maxY - 1e-3);
  expect(boxedProblem(problem).orientations[0].box.maxY).toBe(problem.orientations[0].box.maxY);
});

test('sixteen outlines are laid out in boxes first, then nearer: complete, and no two over one another', async () => {
  const problem = problemOf(16, 0.8);
  const answers = await answersOf(problem);
  expect(answers).toHaveLength(2);
  for (const answer of answers) {
    expect(scoreOf(problem, answer).missing).toBe(0);
    const regions = placed(problem, answer);
    const union = regionsArea(combineRegions('union', regions, []));
    expect(union).toBeCloseTo(regionsArea(regions), 1);
  }
  expect(usedEnd(problem, answers[1], 0)).toBeLessThan(usedEnd(problem, answers[0], 0));
});

test('boxes that ask for more than seven tenths of the boards are not tried', async () => {
  const roomy = problemOf(16, 2);
  const { shapes, shapeOf } = boxedProblem(roomy);
  const wanted = regionsArea(Array.from(shapeOf, (shape) => shapes[shape].region));
  const tight = problemOf(16, wanted / 1e6 / 0.75);
  expect(await answersOf(tight)).toHaveLength(1);
});

test('few outlines wait for no other answer', async () => {
  expect(await answersOf(problemOf(3, 2))).toHaveLength(0);
});

test('coarse outlines are short, and left out where they would hardly be quicker', () => {
  const { shapes } = coarseProblem(problemOf(16, 2))!;
  expect(shapes.every(({ region }) => region.outline.length <= 16)).toBe(true);
  // Sixty tips as long as half the star are no little excess: it keeps nearly all its vertices.
  expect(coarseProblem(jaggedProblem(60))).toBeUndefined();
});
