import { describe, expect, test } from 'vitest';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import type { Batch, PlacingRules } from '../../src/model/batch.ts';
import { Arrangement, usedEnd } from '../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../src/nesting/arrangement/exact-check.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { containerFrom, ProblemBuilder } from '../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../src/nesting/running/budget.ts';
import { Pulse } from '../../src/nesting/running/pulse.ts';
import { settleTurning } from '../../src/nesting/sliding/twisting.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';

/** A thread that is not stopped, and plenty of moves to spend. */
const freeRun = () => ({ pulse: new Pulse(undefined), budget: new MoveBudget(1000) });

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function barOn(board: Ring, bar: Ring, rules: Partial<PlacingRules>): Batch {
  const allRules: PlacingRules = {
    grain: 'free',
    grainTolerance: 0,
    turnOver: false,
    restEdge: false,
    ...rules,
  };
  const wood = { species: 'oak', thickness: 6 };
  return {
    sets: 1,
    demands: [
      {
        part: 'bar',
        layer: 'bars',
        region: { outline: bar, openings: [] },
        veins: [],
        copiesPerSet: 1,
        ...wood,
        rules: allRules,
      },
    ],
    boards: [{ id: 'board', ...wood, outline: board, defects: [], quantity: 1, price: undefined }],
    kerf: 1,
    clearance: 0,
    edgeMargin: 0,
    thicknessTolerance: 0.1,
    outlineTolerance: 0,
  };
}

describe('copies at angles between the listed ones', () => {
  test('a bar that fits its board only between 27 and 29 degrees is laid there where the grain is free', async () => {
    const batch = barOn(rectangle(100, 57), rectangle(108, 6), {});
    const { layout } = await layOut(batch, { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    const along = await layOut(
      barOn(rectangle(100, 57), rectangle(108, 6), { grain: 'along', grainTolerance: 20 }),
    );
    expect(along.layout.unplaced).toHaveLength(1);
  });

  // A slot between two walls that lean by 7 degrees takes the bar only when it leans as they do.
  const lean = (7 * Math.PI) / 180;
  const leaning = (x: number, y: number): Point => [
    100 + x * Math.cos(lean) - y * Math.sin(lean),
    100 + x * Math.sin(lean) + y * Math.cos(lean),
  ];
  const wall = (y: number): Ring => [
    leaning(-60, y),
    leaning(60, y),
    leaning(60, y + 30),
    leaning(-60, y + 30),
  ];
  const board = { outline: rectangle(200, 200), openings: [wall(-37), wall(7)] };

  test.each([
    { most: 10, turns: true },
    { most: 5, turns: false },
  ])(
    'a bar in a leaning slot turns out of the walls, if it may by $most degrees',
    async ({ most, turns }) => {
      const problem = new ProblemBuilder().build({
        shapes: [
          {
            region: { outline: rectangle(100, 11), openings: [] },
            lies: [{ degrees: 0, turnedOver: false, twist: [-most, most] }],
            stands: false,
            copies: 1,
            perSet: 1,
          },
        ],
        containers: [containerFrom(board, 1, 0)],
        gap: 1,
        margin: 1,
      });
      const arrangement = new Arrangement(1);
      arrangement.container[0] = 0;
      arrangement.x[0] = 100;
      arrangement.y[0] = 100;
      const settled = await settleTurning(problem, arrangement, 0, freeRun(), { limit: 199, shorten: false });
      expect(settled).toBe(turns);
      expect(new ExactCheck(problem).passes(arrangement)).toBe(turns);
      expect(Math.abs(arrangement.twist[0])).toBeLessThanOrEqual(most);
      if (turns) expect(arrangement.twist[0]).toBeGreaterThan(5);
    },
  );

  test('of more copies than turn at once those beside one another do, stretch after stretch along the board', async () => {
    const [columns, rows, side, pitch] = [30, 3, 20, 21.8];
    const count = columns * rows;
    const length = columns * pitch + 20;
    const problem = new ProblemBuilder().build({
      shapes: [
        {
          region: { outline: rectangle(side, side), openings: [] },
          lies: [{ degrees: 0, turnedOver: false, twist: [-180, 180] }],
          stands: false,
          copies: count,
          perSet: 1,
        },
      ],
      containers: [containerFrom({ outline: rectangle(length, rows * pitch), openings: [] }, 1, 0)],
      gap: 1,
      margin: 0,
    });
    // Squares that lean by 2 degrees are 20.7 mm long: upright ones with a gap of 1 mm end after 629 mm, these after 653 mm.
    const arrangement = new Arrangement(count);
    for (let i = 0; i < count; i++) {
      arrangement.container[i] = 0;
      arrangement.x[i] = ((i % columns) + 0.5) * pitch;
      arrangement.y[i] = (Math.floor(i / columns) + 0.5) * pitch;
      arrangement.twist[i] = 2;
    }
    expect(new ExactCheck(problem).passes(arrangement)).toBe(true);
    const before = usedEnd(problem, arrangement, 0);
    const settled = await settleTurning(problem, arrangement, 0, freeRun(), { limit: length, shorten: true });
    expect(settled).toBe(true);
    expect(new ExactCheck(problem).passes(arrangement)).toBe(true);
    const after = usedEnd(problem, arrangement, 0);
    expect(before).toBeGreaterThan(653);
    expect(after).toBeLessThan(635);
  });
});
