import { describe, expect, it } from 'vitest';
import { regionArea } from '../../../src/geometry/ring.ts';
import { boundsOf, type Region, type Ring } from '../../../src/geometry/shapes.ts';
import { levelBottom } from '../../../src/nesting/problem/level-bottom.ts';

const region = (outline: Ring): Region => ({ outline, openings: [] });
const square = region([
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
]);

describe('levelBottom', () => {
  it('cuts off what hangs below the part, and nothing else', () => {
    const around = region([
      [-1, -1],
      [11, -1],
      [11, 10],
      [5, 12],
      [-1, 10],
    ]);
    const level = levelBottom(around, square);
    expect(boundsOf(level.outline)).toEqual({ minX: -1, minY: -1, maxX: 11, maxY: 10 });
    expect(regionArea(level)).toBeCloseTo(12 * 11, 6);
  });

  it('leaves an outline as it is that does not hang below the part', () => {
    expect(levelBottom(square, square)).toBe(square);
  });

  it('keeps the piece that holds the part where two hang over', () => {
    // A tongue that hangs below the part and comes up again beside it.
    const around = region([
      [0, 0],
      [10, 0],
      [10, 13],
      [12, 13],
      [12, 8],
      [14, 8],
      [14, 15],
      [0, 15],
    ]);
    expect(levelBottom(around, square).outline).toHaveLength(4);
    expect(regionArea(levelBottom(around, square))).toBeCloseTo(100, 6);
  });
});
