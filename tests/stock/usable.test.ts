import { describe, expect, it } from 'vitest';
import { areCrossingFree } from '../../src/geometry/crossing-free.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Ring } from '../../src/geometry/shapes.ts';
import type { Board } from '../../src/model/stock.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
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

  it('crosses itself nowhere, where the outline of the board does by micrometres', () => {
    const outline: Ring = [
      ...([
        [0, 0],
        [50, 0],
        [50.02, 1],
        [50, 2],
        [50.02, 2],
        [50.02, 1.04],
        [50.01, 0],
      ] as const),
      ...([
        [120, 0],
        [120, 80],
        [0, 80],
      ] as const),
    ];
    expect(referenceRegion({ outline, openings: [] }).fault).toContain('Self-intersection');
    const usable = usableOf(board([], { outline }));
    expect(referenceRegion(usable).fault).toBeUndefined();
    expect(regionArea(usable)).toBeCloseTo(9600, 0);
  });

  it('is one piece, where a curl of micrometres in the outline leaves a hole that reaches the edge in two points', () => {
    const outline: Ring = [
      ...([
        [0, 0],
        [64.3195, 0],
        [64.3193, -0.00004],
        [64.3189, -0.0002],
        [64.3189, 0.0002],
        [64.3197, -0.0004],
      ] as const),
      ...([
        [120, 0],
        [120, 80],
        [0, 80],
      ] as const),
    ];
    const usable = usableOf(board([], { outline }));
    expect(referenceRegion(usable).fault).toBeUndefined();
    expect(regionArea(usable)).toBeCloseTo(9600, 0);
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

  it('is one region where knots meet in points: what they cut off from the rest is not used', () => {
    const corners = (...points: Ring) => points;
    const left = corners([100, 0], [125, 15], [100, 30]);
    const right = corners([150, 0], [125, 15], [150, 30]);
    // By hand: of the square of 50 x 30 between them, the knots are half; the quarter at the edge is cut off as well.
    const cases: [Ring[], number][] = [
      [[left, right], 750 + 375],
      [[corners([100, 0], [150, 30], [150, 0], [100, 30])], 750 + 375],
      [[corners([100, 0], [120, 40], [80, 40]), corners([120, 40], [140, 0], [160, 40])], 1600 + 800],
      // Not cut off: they enclose nothing.
      [[box(100, 50, 120, 70), box(120, 70, 140, 90)], 800],
    ];
    for (const [defects, lost] of cases) {
      const usable = usableOf(board(defects));
      expect(regionArea(usable)).toBeCloseTo(120_000 - lost, 2);
      expect(referenceRegion(usable).fault).toBeUndefined();
      expect(areCrossingFree([usable.outline, ...usable.openings])).toBe(true);
    }
  });

  it('keeps every corner where the knots lie apart', () => {
    const knots = [box(100, 50, 120, 80), box(120.01, 50, 140, 80)];
    const openings = usableOf(board(knots)).openings.map((ring) => JSON.stringify(boundsOf(ring)));
    expect(openings.sort()).toEqual(knots.map((ring) => JSON.stringify(boundsOf(ring))).sort());
  });
});
