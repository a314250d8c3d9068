import { describe, expect, it } from 'vitest';
import { boxRing, type Point, type Region } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import {
  containerFrom,
  ProblemBuilder,
  type ProblemSpec,
} from '../../../src/nesting/problem/problem-spec.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { type Found, Searcher } from '../../../src/nesting/workers/search-task.ts';

const POINTS = 250;

/** An ellipse, which looks the same upside down, or a reed that is jagged on one side. */
function outlineOf(n: number, random: Random): Region {
  const width = 20 + 30 * random.unit();
  const height = width * (0.4 + 0.5 * random.unit());
  const outline = Array.from({ length: POINTS }, (_, k): Point => {
    const angle = (2 * Math.PI * k) / POINTS;
    const isTooth = n % 2 === 1 && k % 2 === 1 && k < POINTS / 2;
    const radius = isTooth ? 0.9 : 1;
    return [width * radius * Math.cos(angle), height * radius * Math.sin(angle)];
  });
  return { outline, openings: [] };
}

function manyPoints(): ProblemSpec {
  const random = new Random(7);
  const lies = [0, 90, 180, 270].map((degrees) => ({ degrees, turnedOver: false }));
  const shapes = Array.from({ length: 50 }, (_, n) => ({
    region: outlineOf(n, random),
    lies,
    stands: false,
    copies: 1,
    perSet: 1,
  }));
  const board: Region = { outline: boxRing({ minX: 0, minY: 0, maxX: 3000, maxY: 300 }), openings: [] };
  return { shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 2 };
}

describe('outlines of many points', () => {
  it('have their orientations numbered in boxes as in the problem proper', () => {
    const spec = manyPoints();
    const liesOf = ({ orientations }: ReturnType<ProblemBuilder['build']>) =>
      orientations.map(({ shape, degrees }) => `${shape} ${degrees}`);
    const proper = liesOf(new ProblemBuilder().build(spec));
    expect(liesOf(new ProblemBuilder().buildInBoxes(spec))).toEqual(proper);
    // Two ways each for the ellipses, four for the reeds.
    expect(proper.length).toBe(25 * 2 + 25 * 4);
  });

  it('are laid out in boxes before anything else, where the exact check finds no fault', async () => {
    const spec = manyPoints();
    const reports: Found[] = [];
    const stop = new AbortController();
    const task = { seed: 1, moves: 1000, part: { from: 0, to: 1 } };
    const found = await new Searcher(spec).run(task, stop.signal, (report) => {
      reports.push(report);
      stop.abort();
    });
    const problem = new ProblemBuilder().build(spec);
    const [first] = reports;
    expect(first.score.missing).toBe(0);
    expect(new ExactCheck(problem).passes(Arrangement.of(first))).toBe(true);
    // Whoever stops it then has at least that in hand.
    expect(found.score.missing).toBe(0);
    expect(found.score.clear).toBeGreaterThanOrEqual(first.score.clear);
  });
});
