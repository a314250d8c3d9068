import { describe, expect, test } from 'vitest';
import { regionArea } from '../../../src/geometry/ring.ts';
import { boundsOf, type Point, type Ring } from '../../../src/geometry/shapes.ts';
import { densestLattice, type Lay } from '../../../src/nesting/lattice/lattice.ts';
import { orientationsOf } from '../../../src/nesting/problem/orientations.ts';
import { PairTable } from '../../../src/nesting/problem/pair-table.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { outsideCheck } from '../../outside-check.ts';

/** Density of the best lattice of a shape, with single copies or with pairs at 0 and 180 degrees. */
function density(ring: Ring, pairs: boolean, starts: number, gap = 0, lay: Lay = 'free'): number {
  const box = boundsOf(ring);
  const centre: Point = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  // Thousands of millimetres, so that the grid of 1e-4 mm leaves eight digits.
  const scale = gap > 0 ? 1 : 4000 / Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const outline = ring.map(([x, y]): Point => [(x - centre[0]) * scale, (y - centre[1]) * scale]);
  const region = { outline, openings: [] };
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  const orientations = orientationsOf(region, region, 0, lies, false);
  const shape = { region, area: regionArea(region), orientations: orientations.map((_, i) => i) };
  const table = new PairTable([shape], orientations, gap, 0);
  const size = Math.max(...Object.values(boundsOf(outline))) * 2;
  const second = pairs && orientations.length > 1 ? 1 : undefined;
  const found = densestLattice({ pairs: table, first: 0, second, size, lay }, starts, new Random(7));
  return found === undefined ? 0 : shape.area / found.areaPerCopy;
}

function regular(corners: number): Ring {
  return Array.from({ length: corners }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / corners;
    return [Math.cos(angle), Math.sin(angle)];
  });
}

const polyline = (...numbers: number[]): Ring =>
  Array.from({ length: numbers.length / 2 }, (_, i): Point => [numbers[2 * i], numbers[2 * i + 1]]);

describe('pairs at 0 and 180 degrees reach the known densest layouts', () => {
  const tiling =
    'Pairs of any triangle, quadrilateral and of these tile: Conway criterion (Schattschneider 1980)';
  test.each([
    // Proved the best of all packings by Hales and Kusner 2016.
    ['regular pentagon', regular(5), (5 - Math.sqrt(5)) / 3, 30, 'Kuperberg and Kuperberg 1990'],
    [
      'regular heptagon',
      regular(7),
      0.892690686,
      40,
      'Kallus 2013: best known; prints no number, computed apart from this code',
    ],
    [
      'regular octagon',
      regular(8),
      (4 + 4 * Math.SQRT2) / (5 + 4 * Math.SQRT2),
      20,
      'Fejes Toth 1950, Rogers 1951: a centrally symmetric convex shape packs best on a lattice',
    ],
    ['regular hexagon', regular(6), 1, 20, 'Tiles the plane'],
    ['scalene triangle', polyline(0, 0, 3, 0, 1, 2), 1, 30, tiling],
    ['dart, a concave quadrilateral', polyline(0, 0, 4, -2, 2, 0, 4, 2), 1, 60, tiling],
    ['L tetromino', polyline(0, 0, 0, 2, 1, 2, 1, 1, 3, 1, 3, 0), 1, 80, tiling],
    ['U pentomino', polyline(0, 0, 0, 2, 1, 2, 1, 1, 2, 1, 2, 2, 3, 2, 3, 0), 1, 120, tiling],
  ])('%s', (name, ring, expected, starts, source) => {
    outsideCheck({
      what: `Density of the best lattice of pairs: ${name}`,
      source,
      expected,
      found: density(ring, true, starts),
      tolerance: 1e-6,
    });
  });
});

describe('copies in one orientation reach the known densest lattices', () => {
  const tiles = 'Tiles the plane by translation';
  test.each([
    ['triangle', polyline(0, 0, 3, 0, 1, 2), 2 / 3, 30, 'Fary 1950: two thirds for every triangle'],
    ['regular pentagon', regular(5), 0.817256002, 30, 'No published number: computed apart from this code'],
    ['regular heptagon', regular(7), 0.860191024, 30, 'No published number: computed apart from this code'],
    ['chevron', polyline(0, 0, 2, 1, 4, 0, 4, 2, 2, 3, 0, 2), 1, 30, tiles],
    [
      'X pentomino',
      polyline(2, 0, 1, 0, 1, 1, 0, 1, 0, 2, 1, 2, 1, 3, 2, 3, 2, 2, 3, 2, 3, 1, 2, 1),
      1,
      150,
      tiles,
    ],
    ['T tetromino', polyline(0, 1, 1, 1, 1, 2, 2, 2, 2, 1, 3, 1, 3, 0, 0, 0), 1, 40, tiles],
  ])('%s', (name, ring, expected, starts, source) => {
    outsideCheck({
      what: `Density of the best lattice of copies: ${name}`,
      source,
      expected,
      found: density(ring, false, starts),
      tolerance: 1e-6,
    });
  });

  test('a circle of 1,200 sides: pi / sqrt 12 (Thue 1892), less what the polygon lacks of the circle', () => {
    // A regular 6k-gon on the hexagonal lattice touches at six edge middles: its cell is 2 sqrt 3 cos^2(pi / n).
    const n = 1200;
    const known = ((n / 2) * Math.sin((2 * Math.PI) / n)) / (2 * Math.sqrt(3) * Math.cos(Math.PI / n) ** 2);
    const found = density(regular(n), false, 6);
    expect(Math.abs(found - known)).toBeLessThan(1e-6);
    outsideCheck({
      what: 'Density of the best lattice of discs (of 1,200 sides)',
      source: 'Thue 1892: pi / sqrt 12',
      expected: Math.PI / Math.sqrt(12),
      found,
      tolerance: 5e-6,
    });
  });
});

test('with a gap the lattice of discs is the one of larger discs', () => {
  // Discs of 50 mm kept 2 mm apart: pi d^2 / (2 sqrt 3 (d + g)^2) = 0.8385.
  const disc = regular(600).map(([x, y]): Point => [25 * x, 25 * y]);
  outsideCheck({
    what: 'Density of discs of 50 mm kept 2 mm apart',
    source: 'Closed form from Thue 1892: pi d^2 / (2 sqrt 3 (d + g)^2)',
    expected: (Math.PI * 50 ** 2) / (2 * Math.sqrt(3) * 52 ** 2),
    found: density(disc, false, 6, 2),
    tolerance: 5e-5,
  });
});

test.each(['rows', 'columns', 'grid', 'free'] as const)('a slender bar that lies straight, in %s', (lay) => {
  // Rectangles with half the gap around them tile; nothing that keeps the gap on all sides along an edge is denser.
  const bar = polyline(0, 0, 500, 0, 500, 5, 0, 5);
  expect(density(bar, false, 24, 1, lay)).toBeCloseTo((500 * 5) / (501 * 6), 5);
});

describe('a slender bar at a slant meets copies many cells away', () => {
  const long = 120;
  const wide = 3;
  const gap = 1;
  const slant = Math.SQRT1_2;
  const corners = polyline(0, 0, long, 0, long, wide, 0, wide);
  const bar = corners.map(([x, y]): Point => [slant * (x - y), slant * (x + y)]);
  const cell = (long + gap) * (wide + gap);

  test('laid anyhow it is as dense as the rectangle it is, with room for the gap on two sides', () => {
    expect(density(bar, false, 20, gap)).toBeCloseTo((long * wide) / cell, 3);
  });

  test.each(['rows', 'columns', 'grid'] as const)(
    'no layout in %s is denser than copies kept apart',
    (lay) => {
      // Steiner formula: what lies within half the gap of a convex shape belongs to one copy alone.
      const kept = long * wide + (long + wide) * gap + (Math.PI * gap ** 2) / 4;
      const found = density(bar, false, 20, gap, lay);
      expect(found).toBeGreaterThan(0);
      expect(found).toBeLessThanOrEqual((long * wide) / kept);
    },
  );
});
