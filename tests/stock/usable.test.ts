import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Ring } from '../../src/geometry/shapes.ts';
import type { Board } from '../../src/model/stock.ts';
import { usableOf } from '../../src/stock/usable.ts';
import { box, rectangle } from '../rectangle.ts';

/** A board of 800 x 150 mm. */
function board(defects: readonly Ring[], more: Partial<Board> = {}): Board {
  const outline = rectangle(800, 150);
  const plain = { id: 'A', species: 'cherry', thickness: 19, outline, quantity: 1, price: undefined };
  return { ...plain, defects, ...more };
}

describe('what may be used of a board', () => {
  it('is the board itself where it has neither trim nor defects', () => {
    const plain = board([]);
    expect(usableOf(plain).outline).toBe(plain.outline);
  });

  it('is open where a knot lies in it, and notched where one reaches over an edge', () => {
    const knotty = usableOf(board([box(100, 50, 120, 80)]));
    expect(knotty.openings).toHaveLength(1);
    expect(regionArea(knotty)).toBeCloseTo(120_000 - 600, 6);
    const notched = usableOf(board([box(100, -10, 120, 80), box(780, 20, 810, 40)]));
    expect(notched.openings).toEqual([]);
    expect(regionArea(notched)).toBeCloseTo(120_000 - 1600 - 400, 6);
  });

  it('is the largest piece where a crack parts the board', () => {
    const cracked = usableOf(board([box(300, -1, 310, 151)]));
    expect(boundsOf(cracked.outline)).toEqual({ minX: 310, minY: 0, maxX: 800, maxY: 150 });
  });

  it('is trimmed first: a knot in what is ripped off costs nothing', () => {
    const trim = { topEdge: 30, straightEdge: 0, leftEnd: 50, rightEnd: 0 };
    const trimmed = usableOf(board([box(100, 5, 120, 20), box(10, 100, 60, 110)], { trim }));
    expect(regionArea(trimmed)).toBeCloseTo(750 * 120 - 100, 6);
    const nothing = board([box(100, 5, 120, 20)], { trim: { ...trim, leftEnd: 900 } });
    expect(usableOf(nothing)).toEqual({ outline: [], openings: [] });
  });
});
