import { describe, expect, it } from 'vitest';
import { insidePoint } from '../../src/geometry/inside-point.ts';
import { distanceToSegment, insideRegion } from '../../src/geometry/ring.ts';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import { holePlace } from '../../src/sawing/hole-place.ts';
import { disc, rectangle } from './boards.ts';

const placed = (ring: Ring, diameter = 1.6) =>
  holePlace(ring, insidePoint({ outline: ring, openings: [] }), diameter);

const leadIn = ({ at, start }: { at: Point; start: Point }) => Math.hypot(at[0] - start[0], at[1] - start[1]);

const toLine = ([x, y]: Point, ring: Ring) =>
  Math.min(
    ...ring.map((b, i) => {
      const a = ring[(i + ring.length - 1) % ring.length];
      return distanceToSegment(x, y, a[0], a[1], b[0], b[1]);
    }),
  );

/** A crescent: two sharp ends, no corner to drill in. */
const crescent: Ring = [
  ...Array.from({ length: 41 }, (_, i): Point => [i - 20, -20 * Math.sin((Math.PI * i) / 40)]),
  ...Array.from({ length: 39 }, (_, i): Point => [19 - i, -8 * Math.sin((Math.PI * (i + 1)) / 40)]),
];

describe('the hole of an opening', () => {
  it('lies in a corner of a long slot, clear of the line, whichever way the slot runs round', () => {
    const slot = rectangle(10, 20, 60, 8);
    for (const ring of [slot, [...slot].reverse()]) {
      const place = placed(ring);
      expect(place.radius).toBeCloseTo(2, 9);
      expect(toLine(place.at, ring)).toBeCloseTo(2, 9);
      expect(ring).toContain(place.start);
      // Square corner: the root of 2 times as far as from the sides. From the middle it was 30 mm.
      expect(leadIn(place)).toBeCloseTo(2 * Math.SQRT2, 9);
      expect(insideRegion(place.at, { outline: ring, openings: [] })).toBe(true);
    }
  });

  it('lies, of several corners, in that nearest to the widest place, wherever the outline begins', () => {
    // The largest circle touches the bottom, the right end and the slope: its middle is at 51, 9, with a radius of 9.
    const wedge: Ring = [
      [0, 0],
      [60, 0],
      [60, 20],
      [0, 8],
    ];
    // The same upside down, farther down the board.
    const turned = wedge.map(([x, y]): Point => [x, 120 - y]);
    for (let first = 0; first < 4; first++) {
      const from = (ring: Ring): Ring => [...ring.slice(first), ...ring.slice(0, first)];
      const place = placed(from(wedge));
      expect(place.start).toEqual([60, 0]);
      expect([place.at[0], place.at[1]]).toEqual([expect.closeTo(58, 9), expect.closeTo(2, 9)]);
      const below = placed(from(turned));
      expect(below.start).toEqual([60, 120]);
      expect([below.at[0], below.at[1]]).toEqual([expect.closeTo(58, 9), expect.closeTo(118, 9)]);
    }
  });

  it('lies near the end of a slot that is hardly wider than the hole', () => {
    const slot = rectangle(10, 20, 60, 3);
    const place = placed(slot);
    expect(place.radius).toBeCloseTo(0.98 * 1.5, 2);
    expect(leadIn(place)).toBeLessThan(2.2);
    // Where the drill has no room at all there is one place that is best.
    const wedge: Ring = [
      [0, 0],
      [60, 0.95],
      [0, 1.9],
    ];
    const { at, radius } = placed(wedge);
    const widest = insidePoint({ outline: wedge, openings: [] });
    expect({ at, radius }).toEqual({ at: widest.at, radius: widest.radius });
  });

  it('lies square to a curve, and is never nearer than the drill and a little more', () => {
    for (const ring of [disc(0, 0, 12, 60), crescent]) {
      const place = placed(ring);
      expect(toLine(place.at, ring)).toBeGreaterThanOrEqual(2 - 1e-6);
      expect(place.radius).toBeCloseTo(toLine(place.at, ring), 9);
      expect(leadIn(place)).toBeLessThan(2.1);
    }
  });

  it('is in the middle where there is hardly more room than for the hole', () => {
    const eye = disc(5, 5, 1.5);
    const { at, radius } = placed(eye);
    expect(Math.hypot(at[0] - 5, at[1] - 5)).toBeLessThan(0.1);
    expect(radius).toBeCloseTo(1.5, 1);
  });
});
