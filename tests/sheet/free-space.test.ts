import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { insideRegion } from '../../src/geometry/ring.ts';
import type { Box, Point, Region } from '../../src/geometry/shapes.ts';
import { FreeSpace } from '../../src/sheet/board/free-space.ts';
import { box, circle } from './hand-layout.ts';
import { corners, lineMeetsBox } from './rectangles.ts';

const AREA: Box = { minX: 0, minY: 0, maxX: 100, maxY: 60 };

function spaceOf(region: Region, distance: number): FreeSpace {
  const space = new FreeSpace(AREA, 0.5);
  space.freeInside(region);
  for (const ring of [region.outline, ...region.openings]) space.takeAlong(ring, distance, true);
  return space;
}

function grown({ minX, minY, maxX, maxY }: Box, by: number): Box {
  return { minX: minX - by, minY: minY - by, maxX: maxX + by, maxY: maxY + by };
}

describe('free space', () => {
  test('is all taken at first', () => {
    expect(new FreeSpace(AREA, 0.5).nearest({ width: 1, height: 1 }, [50, 30])).toBeUndefined();
  });

  test('gives the rectangle nearest to the target, as large as asked for', () => {
    const space = spaceOf({ outline: box(10, 10, 80, 40), openings: [] }, 1);
    const found = space.nearest({ width: 20, height: 5 }, [50, 30]);
    expect(found && found.maxX - found.minX).toBeCloseTo(20, 9);
    expect(found && found.maxY - found.minY).toBeCloseTo(5, 9);
    // Within a cell of the target.
    expect(found && Math.abs((found.minX + found.maxX) / 2 - 50)).toBeLessThanOrEqual(0.5);
    expect(found && Math.abs((found.minY + found.maxY) / 2 - 30)).toBeLessThanOrEqual(0.5);
  });

  test('finds a place as wide as there is, less a cell on each side', () => {
    const space = spaceOf({ outline: box(10, 10, 80, 40), openings: [] }, 1);
    const cell = 0.5;
    expect(space.nearest({ width: 78 - 4 * cell, height: 10 }, [50, 30])).toBeDefined();
    expect(space.nearest({ width: 78.1, height: 10 }, [50, 30])).toBeUndefined();
  });

  test('what is called free keeps its distance from every line, whatever the shape', () => {
    const points = fc.array(
      fc.tuple(fc.double({ min: 5, max: 95, noNaN: true }), fc.double({ min: 5, max: 55, noNaN: true })),
      {
        minLength: 3,
        maxLength: 12,
      },
    );
    const sizes = fc.tuple(
      fc.double({ min: 1, max: 20, noNaN: true }),
      fc.double({ min: 1, max: 6, noNaN: true }),
    );
    let found = 0;
    fc.assert(
      fc.property(
        points,
        sizes,
        fc.double({ min: 0.2, max: 2, noNaN: true }),
        (list, [width, height], distance) => {
          const outline = aroundCentre(list);
          const place = spaceOf({ outline, openings: [] }, distance).nearest({ width, height }, [50, 30]);
          if (place === undefined) return;
          found++;
          // A smaller growth than the distance: the corners of the grown box lie farther off than its sides.
          expect(lineMeetsBox(outline, true, grown(place, distance / Math.SQRT2))).toBe(false);
          expect(corners(place).every((corner) => insideRegion(corner, { outline, openings: [] }))).toBe(
            true,
          );
        },
      ),
      { seed: 6, numRuns: 200 },
    );
    expect(found).toBeGreaterThan(50);
  });

  test('openings, lines and boxes are taken', () => {
    const opening = circle(50, 30, 12);
    const space = spaceOf({ outline: box(0, 0, 100, 60), openings: [opening] }, 0.5);
    const first = space.nearest({ width: 8, height: 4 }, [50, 30]);
    expect(first && lineMeetsBox(opening, true, first)).toBe(false);
    expect(
      first && Math.hypot((first.minX + first.maxX) / 2 - 50, (first.minY + first.maxY) / 2 - 30),
    ).toBeGreaterThan(12);
    if (first !== undefined) space.takeBox(first);
    const second = space.nearest({ width: 8, height: 4 }, [50, 30]);
    expect(second).not.toEqual(first);
  });

  test('a box beside the map takes nothing of it', () => {
    const region = { outline: box(0, 0, 100, 60), openings: [] };
    const before = spaceOf(region, 0.5).nearest({ width: 8, height: 4 }, [50, 30]);
    expect(before).toBeDefined();
    for (const [x, y] of [
      [-30, 10],
      [130, 10],
      [10, -30],
      [10, 90],
      [-30, -1],
    ]) {
      const space = spaceOf(region, 0.5);
      space.takeBox({ minX: x, minY: y, maxX: x + 10, maxY: y + 10 });
      expect(space.nearest({ width: 8, height: 4 }, [50, 30])).toEqual(before);
    }
  });

  test('a place may be turned down, and is looked for only within reach', () => {
    const space = spaceOf({ outline: box(0, 0, 100, 60), openings: [] }, 0.5);
    const leftOf20 = space.nearestAccepted(
      { width: 4, height: 4 },
      { target: [50, 30], reach: 100 },
      (place) => place.maxX < 20,
      1e6,
    );
    expect(leftOf20?.maxX).toBeLessThan(20);
    expect(
      space.nearestAccepted(
        { width: 4, height: 4 },
        { target: [50, 30], reach: 10 },
        (place) => place.maxX < 20,
        1e6,
      ),
    ).toBeUndefined();
    expect(
      space.nearestAccepted({ width: 4, height: 4 }, { target: [50, 30], reach: 100 }, () => false),
    ).toBeUndefined();
  });

  test('a map over a huge area takes larger cells instead of all memory', () => {
    const huge: Box = { minX: 0, minY: 0, maxX: 1e6, maxY: 1e5 };
    const space = new FreeSpace(huge, 0.5);
    space.freeInside({ outline: box(0, 0, 1e6, 1e5), openings: [] });
    expect(space.nearest({ width: 1000, height: 1000 }, [5e5, 5e4])).toBeDefined();
  });
});

/** Points ordered by angle around their middle: a ring that does not cross itself. */
function aroundCentre(points: readonly Point[]): Point[] {
  const mx = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const my = points.reduce((sum, [, y]) => sum + y, 0) / points.length;
  return [...points].sort((a, b) => Math.atan2(a[1] - my, a[0] - mx) - Math.atan2(b[1] - my, b[0] - mx));
}
