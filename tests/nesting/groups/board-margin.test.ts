import { expect, test } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import type { PlacingRules } from '../../../src/model/batch.ts';
import { roomiestBoxes } from '../../../src/nesting/groups/board-margin.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../../src/nesting/verify.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand } from '../plain-batch.ts';

/** Lays one part on one board 300 mm long, margins 2 mm, outlines known to 0.01 mm; what is told of it. */
async function toldOf(outline: Ring, width: number, rules: Partial<PlacingRules> = {}) {
  const demand = plainDemand('bank', outline);
  const batch = {
    ...{ ...PLAIN_GAPS, outlineTolerance: 0.01, sets: 1 },
    demands: [{ ...demand, rules: { ...demand.rules, ...rules } }],
    boards: [plainBoard('A', 300, width)],
  };
  const { layout, issues } = await layOut(batch, { effort: 0 });
  expect(verifyLayout(layout).breaches).toEqual([]);
  return issues.map(({ message }) => message);
}

test('a part with straight sides fills a board from margin to margin, and less board holds it no more', async () => {
  expect(await toldOf(rectangle(90, 50), 54)).toEqual([]);
  // There is room to spare, but less than what the outline may stray on both sides.
  expect(await toldOf(rectangle(90, 50), 54.015)).toEqual([]);
  expect(await toldOf(rectangle(90, 50), 53.99)).toEqual([
    '1 copy found no place: larger than every board of maple 6 mm',
  ]);
});

test('what stands on the straight edge keeps one margin', async () => {
  expect(await toldOf(rectangle(90, 50), 52, { restEdge: true })).toEqual([]);
  expect(await toldOf(rectangle(90, 50), 51.9, { restEdge: true })).toEqual([
    '1 copy found no place: larger than every board of maple 6 mm',
  ]);
});

test('a round part that fills the board but for a hair is told to be too large by it', async () => {
  const disc = Array.from({ length: 200 }, (_, i): [number, number] => {
    const angle = (2 * Math.PI * i) / 200;
    return [25 * Math.cos(angle), 25 * Math.sin(angle)];
  });
  expect(await toldOf(disc, 54)).toEqual([
    '1 copy found no place: within 0.25 mm as large as the room between the edge margins of the boards of maple 6 mm',
  ]);
});

test('of the boxes of boards those that another covers are left out', () => {
  const usable = (length: number, width: number) => ({ outline: rectangle(length, width), openings: [] });
  const sizes = (boards: Parameters<typeof roomiestBoxes>[0]) =>
    roomiestBoxes(boards).map(({ maxX, maxY }) => [maxX, maxY]);
  expect(sizes([usable(90, 50), usable(80, 60), usable(80, 50), usable(100, 50), usable(80, 60)])).toEqual([
    [80, 60],
    [100, 50],
  ]);
});
