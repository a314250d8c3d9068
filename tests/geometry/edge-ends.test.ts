import { describe, expect, it } from 'vitest';
import { edgeEnds } from '../../src/geometry/edge-ends.ts';
import { ringArea } from '../../src/geometry/ring.ts';
import type { Ring } from '../../src/geometry/shapes.ts';

const triangle: Ring = [
  [0, 0],
  [4, 0],
  [0, 3],
];

describe('the ends of all edges', () => {
  it('stand one edge after the other, the last of a ring leading back to its first point', () => {
    const line: Ring = [
      [10, 20],
      [30, 40],
    ];
    expect([...edgeEnds([triangle, [], line])]).toEqual([
      ...[0, 0, 4, 0, 4, 0, 0, 3, 0, 3, 0, 0],
      ...[10, 20, 30, 40, 30, 40, 10, 20],
    ]);
    expect([...edgeEnds([[[7, 8]]])]).toEqual([7, 8, 7, 8]);
    expect(edgeEnds([])).toHaveLength(0);
  });

  it('give the area by the shoelace formula (Meister 1769)', () => {
    const ends = edgeEnds([triangle]);
    let twice = 0;
    for (let i = 0; i < ends.length; i += 4) twice += ends[i] * ends[i + 3] - ends[i + 2] * ends[i + 1];
    expect(twice / 2).toBe(6);
    expect(ringArea(triangle)).toBe(6);
  });
});
