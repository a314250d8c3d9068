import { expect } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import type { Batch, Demand } from '../../src/model/batch.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';

/** Batches of plain parts on plain boards, for tests that are about something else; lengths in mm. */

/** Gaps with which places are easily worked out by hand. */
export const PLAIN_GAPS = {
  kerf: 1,
  clearance: 0,
  edgeMargin: 2,
  thicknessTolerance: 0.5,
  outlineTolerance: 0,
} as const;

/** A part in maple of 6 mm, its grain along the board, one in a set. */
export function plainDemand(part: string, outline: Ring, more: Partial<Demand> = {}): Demand {
  return {
    part,
    layer: 'L',
    region: { outline, openings: [] },
    veins: [],
    copiesPerSet: 1,
    species: 'maple',
    thickness: 6,
    rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
    ...more,
  };
}

/** One rectangular board of maple, 6 mm thick, without a price. */
export function plainBoard(id: string, length: number, width: number, more: Partial<Board> = {}): Board {
  return {
    id,
    species: 'maple',
    thickness: 6,
    outline: rectangle(length, width),
    defects: [],
    quantity: 1,
    price: undefined,
    ...more,
  };
}

/** The layout of a batch, which the independent check has nothing to say against. */
export async function soundLayout(batch: Batch, effort = 0): Promise<Layout> {
  const { layout } = await layOut(batch, { effort });
  expect(verifyLayout(layout).breaches).toEqual([]);
  return layout;
}
