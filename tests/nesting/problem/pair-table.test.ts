import { describe, expect, it } from 'vitest';
import { boundsOf, type Ring } from '../../../src/geometry/shapes.ts';
import { PairTable } from '../../../src/nesting/problem/pair-table.ts';
import type { Orientation } from '../../../src/nesting/problem/shape.ts';

describe('PairTable', () => {
  // All pairs of some hundred unlike parts had taken more memory than most machines have.
  it('gives fields fewer cells the more of them there are, down to eight', () => {
    expect(cellsOf(50)).toBe(36);
    // 100 x 101 / 2 pairs of two turns each are as many fields as keep all their cells, and 100 more.
    expect(cellsOf(100)).toBe(35);
    expect(cellsOf(200)).toBe(17);
    expect(cellsOf(1000)).toBe(8);
  });

  it('tells the same depth whatever the cells', () => {
    expect(depthOf(10)).toBeCloseTo(7, 9);
    expect(depthOf(1000)).toBeCloseTo(7, 9);
  });
});

/** A table of so many squares of 10 mm, each to lie in two ways, with a gap of 1 mm. */
function tableOf(count: number): PairTable {
  const outline: Ring = [
    [-5, -5],
    [5, -5],
    [5, 5],
    [-5, 5],
  ];
  const shapes = Array.from({ length: count }, (_, s) => ({
    region: { outline, openings: [] },
    area: 100,
    orientations: [2 * s, 2 * s + 1],
  }));
  const orientations = shapes.flatMap((_, shape): Orientation[] =>
    [0, 180].map((degrees) => ({
      shape,
      degrees,
      turnedOver: false,
      twist: [0, 0],
      box: boundsOf(outline),
      edge: undefined,
    })),
  );
  return new PairTable(shapes, orientations, 1, 0);
}

function cellsOf(count: number): number {
  return tableOf(count).pair(0, 2).field.columns;
}

/** Of two squares 4 mm off: 6 mm into each other, and a gap of 1 mm. */
function depthOf(count: number): number {
  return tableOf(count).pair(0, 2).field.depth(4, 0.5);
}
