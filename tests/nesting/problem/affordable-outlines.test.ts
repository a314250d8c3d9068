import { describe, expect, test } from 'vitest';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { regionArea } from '../../../src/geometry/ring.ts';
import { boundsOf, middleOf, type Point, type Region, type Ring } from '../../../src/geometry/shapes.ts';
import { affordableOutlines } from '../../../src/nesting/problem/affordable-outlines.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { lastOf } from '../../../src/nesting/running/steps.ts';
import { blob } from '../random-batch.ts';

/** That many different parts of 300 points, each of which may lie in two ways. */
function parts(count: number) {
  const random = new Random(8);
  return Array.from({ length: count }, () => ({
    region: { outline: blob(random, 300, 25, 60, true), openings: [] } satisfies Region,
    stands: false,
    turns: 2,
  }));
}

/** The outline with every fourth of its points moved a tenth of the way to the middle, and every other left out. */
function toothedOf({ outline }: Region): Ring {
  const [middleX, middleY] = middleOf(boundsOf(outline));
  return outline.flatMap(([x, y], i): Point[] => {
    if (i % 2 === 1) return [];
    return i % 4 === 0 ? [[x, y]] : [[x + 0.1 * (middleX - x), y + 0.1 * (middleY - y)]];
  });
}

const vertices = (regions: readonly Region[]) =>
  regions.reduce((sum, { outline }) => sum + outline.length, 0);
const area = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);

describe('the outlines of all parts together', () => {
  const few = parts(10);
  const many = parts(200);
  const { outlines: ofFew, finer: finerThanFew } = lastOf(affordableOutlines(few, 1));
  const { outlines: ofMany, finer } = lastOf(affordableOutlines(many, 1));

  test('are coarser where there are so many that their no-fit polygons would take the effort', () => {
    expect(vertices(ofFew) / ofFew.length).toBeGreaterThan(60);
    expect(vertices(ofMany) / ofMany.length).toBeLessThan(40);
    // Alone each of the many would be as fine as the few.
    expect(lastOf(affordableOutlines(many.slice(0, 10), 1)).outlines).toEqual(ofFew);
  });

  test('are kept in more vertices too where they are coarser, the usual ones first', () => {
    expect(finerThanFew).toEqual([]);
    expect(finer.length).toBeGreaterThan(0);
    expect(vertices(finer[0]) / many.length).toBeGreaterThan(60);
    for (const [level, outlines] of [...finer, ofMany].entries()) {
      if (level > 0) expect(vertices(outlines)).toBeLessThan(vertices(finer[level - 1]));
    }
    // A layout in the coarser outlines is one in the finer ones.
    for (const [s, outline] of finer[0].entries()) {
      expect(area(combineRegions('difference', [outline], [ofMany[s]]))).toBeLessThan(1e-4 * 600);
    }
  });

  test('hold the parts, and give away little', () => {
    for (const [s, { region }] of many.entries()) {
      // The grid of the boolean operations is 1e-4 mm; a sliver of that width along the outline is rounding.
      expect(area(combineRegions('difference', [region], [ofMany[s]]))).toBeLessThan(1e-4 * 600);
    }
    expect(area(ofMany) / area(many.map(({ region }) => region))).toBeLessThan(1.03);
  });

  test('are no longer and no wider than the parts: what only just fits on its board still does', () => {
    for (const [s, { region }] of many.entries()) {
      const box = boundsOf(region.outline);
      const around = boundsOf(ofMany[s].outline);
      expect(around.maxX - around.minX).toBeLessThan(box.maxX - box.minX + 1e-3);
      expect(around.maxY - around.minY).toBeLessThan(box.maxY - box.minY + 1e-3);
    }
  });

  test('are coarser of toothed parts than of smooth ones in as many points: their edges cross one another', () => {
    const toothed = parts(40).map((part) => ({
      ...part,
      region: { ...part.region, outline: toothedOf(part.region) },
    }));
    const coarser = vertices(lastOf(affordableOutlines(toothed, 1)).outlines);
    // Ten of them alone keep their teeth.
    expect(coarser / 40).toBeLessThan(
      0.6 * (vertices(lastOf(affordableOutlines(toothed.slice(0, 10), 1)).outlines) / 10),
    );
  });

  test('give way after every part, so that an abort never waits for hundreds', () => {
    expect([...affordableOutlines(few, 1)].length).toBeGreaterThanOrEqual(few.length);
    // Once in the usual outlines, once or more in coarser ones, and once more to be cut to size.
    expect([...affordableOutlines(many, 1)].length).toBeGreaterThanOrEqual(3 * many.length);
  });
});
