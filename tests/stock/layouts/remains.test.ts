import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../../src/geometry/area-check.ts';
import { locateInRing } from '../../../src/geometry/ring.ts';
import type { Region } from '../../../src/geometry/shapes.ts';
import type { Batch } from '../../../src/model/batch.ts';
import type { BoardAreas, LaidBoard } from '../../../src/model/layout.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { verifyLayout } from '../../../src/nesting/verify.ts';
import { randomBatch } from '../../nesting/random-batch.ts';
import { box } from '../../rectangle.ts';
import { laidOut } from './laid-out.ts';

const sum = ({ board: _, ...areas }: BoardAreas) => Object.values(areas).reduce((a, b) => a + b, 0);

/** A random job on trimmed boards, some of them cross-cut to sections. */
function randomStock(seed: number): Batch {
  const random = new Random(1000 + seed);
  const batch = randomBatch(seed);
  const straightEdge = random.unit() < 0.5 ? ('clean' as const) : random.between(0, 5);
  const trim = { topEdge: random.between(0, 6), straightEdge, leftEnd: random.between(0, 9), rightEnd: 3 };
  return {
    ...batch,
    sets: Math.min(batch.sets, 3),
    boards: batch.boards.map((board) => (random.unit() < 0.6 ? { ...board, trim } : board)),
    keep: { length: random.between(30, 80), width: random.between(15, 40) },
    crosscutKerf: random.between(0, 4),
    ...(random.unit() < 0.4 ? { reach: { throat: undefined, longest: random.between(100, 200) } } : {}),
  };
}

describe('what is left of the boards of a layout', () => {
  it('adds up to the whole board, over random jobs, to a millionth', async () => {
    let boards = 0;
    let keepers = 0;
    // Jobs that are laid out in a fifth of a second each, half of them in sections.
    for (const seed of [1, 3, 8, 9, 10, 11, 12, 13, 14, 16, 17, 18]) {
      const batch = randomStock(seed);
      const layout = await laidOut(batch);
      expect(verifyLayout(layout).breaches, `seed ${seed}`).toEqual([]);
      for (const { areas, offcuts, placements } of layout.boards) {
        boards++;
        keepers += offcuts!.length;
        expect(Math.abs(sum(areas!) / areas!.board - 1), `seed ${seed}`).toBeLessThan(1e-6);
        for (const area of Object.values(areas!)) expect(area).toBeGreaterThanOrEqual(-1e-3);
        const solids = [...placements.map(({ region }) => region), ...offcuts!.map(({ region }) => region)];
        // A second geometry library finds no wood that is counted twice.
        expect(coveredArea(solids).overlap).toBeLessThan(1e-6 * areas!.board);
        for (const { rectangle, region } of offcuts!) {
          expect(rectangle.maxX - rectangle.minX).toBeGreaterThanOrEqual(batch.keep!.length);
          expect(rectangle.maxY - rectangle.minY).toBeGreaterThanOrEqual(batch.keep!.width);
          expect(holdsBox(region, rectangle)).toBe(true);
        }
      }
    }
    expect(boards).toBeGreaterThan(10);
    expect(keepers).toBeGreaterThan(8);
  });

  it('is told as the check measures it of a lath that is a few millimetres wide', async () => {
    const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false } as const;
    const strip = { outline: box(0, 0, 400, 1), openings: [] };
    // All along its lower edge the areas are those of a board 3.958 mm wide, which is more than a hundred thousandth of it.
    const lath = { id: 'Lath', species: 'oak', thickness: 6, defects: [], quantity: 1, price: 1 };
    const batch: Batch = {
      sets: 1,
      demands: [
        {
          part: 'reed',
          layer: 'L',
          region: strip,
          veins: [],
          copiesPerSet: 1,
          species: 'oak',
          thickness: 6,
          rules,
        },
      ],
      boards: [{ ...lath, outline: box(0, 0, 500, 3.95796) }],
      ...{ kerf: 1, clearance: 0, edgeMargin: 0, thicknessTolerance: 0.5, outlineTolerance: 0 },
    };
    expect(verifyLayout(await laidOut(batch), batch).breaches).toEqual([]);
  });

  it('keeps what a crack all across a board in sections parts from it, on either side', async () => {
    const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false } as const;
    const plate = { outline: box(0, 0, 150, 60), openings: [] };
    const demand = { part: 'plate', layer: 'L', region: plate, veins: [], copiesPerSet: 1 };
    const split = (...crack: [number, number][]): Batch => ({
      sets: 1,
      demands: [{ ...demand, species: 'oak', thickness: 6, rules }],
      boards: [
        {
          ...{ id: 'Split', species: 'oak', thickness: 6, quantity: 1, price: 1 },
          outline: box(0, 0, 1000, 100),
          defects: [crack],
        },
      ],
      ...{ kerf: 1, clearance: 0.5, edgeMargin: 3, thicknessTolerance: 0.5, outlineTolerance: 0 },
      keep: { length: 150, width: 50 },
      crosscutKerf: 3,
      reach: { throat: undefined, longest: 250 },
    });
    const left = split([320, -1], [330, -1], [350, 101], [340, 101]);
    const right = split([650, -1], [660, -1], [680, 101], [670, 101]);
    const used = async (batch: Batch) => {
      const layout = await laidOut(batch);
      expect(verifyLayout(layout, batch).breaches).toEqual([]);
      const [{ areas, offcuts }] = layout.boards;
      // No more than the ring around the part and a cut in every section and beside the crack.
      expect(areas!.kerf).toBeLessThan(2 * (150 + 60) + 4 + 6 * 3 * 100);
      expect(sum(areas!)).toBeCloseTo(100_000, 2);
      return offcuts!.map(({ rectangle }) => rectangle);
    };
    // By hand: the crack slants by 20 mm over 102, and the rectangles end where it comes nearest.
    expect(await used(left)).toContainEqual({
      ...{ minX: 0, minY: 0, maxY: 100 },
      maxX: expect.closeTo(320 + 20 / 102, 2),
    });
    expect(await used(right)).toContainEqual({
      ...{ minY: 0, maxX: 1000, maxY: 100 },
      minX: expect.closeTo(680 - 20 / 102, 2),
    });
  });
});

function holdsBox(
  region: Region,
  { minX, minY, maxX, maxY }: NonNullable<LaidBoard['offcuts']>[0]['rectangle'],
) {
  const corners = box(minX, minY, maxX, maxY);
  return (
    corners.every((point) => locateInRing(point, region.outline, 1e-3) >= 0) &&
    region.openings.every((ring) => corners.every((point) => locateInRing(point, ring, 1e-3) <= 0))
  );
}
