import { describe, expect, test } from 'vitest';
import { regionArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Point, type Ring } from '../../src/geometry/shapes.ts';
import { densestLattice } from '../../src/nesting/lattice.ts';
import { orientationsOf } from '../../src/nesting/orientations.ts';
import { PairTable } from '../../src/nesting/pair-table.ts';
import { Random } from '../../src/nesting/random.ts';

/** Density of the best lattice of a shape, with single copies or with pairs at 0 and 180 degrees. */
function density(ring: Ring, pairs: boolean, starts: number, gap = 0): number {
  const box = boundsOf(ring);
  const centre: Point = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  // Thousands of millimetres, so that the grid of 1e-4 mm leaves eight digits.
  const scale = gap > 0 ? 1 : 4000 / Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const outline = ring.map(([x, y]): Point => [(x - centre[0]) * scale, (y - centre[1]) * scale]);
  const region = { outline, openings: [] };
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  const orientations = orientationsOf(region, 0, lies, false);
  const shape = { region, area: regionArea(region), orientations: orientations.map((_, i) => i) };
  const table = new PairTable([shape], orientations, gap, 0);
  const size = Math.max(...Object.values(boundsOf(outline))) * 2;
  const second = pairs && orientations.length > 1 ? 1 : undefined;
  const found = densestLattice(table, 0, second, size, starts, new Random(7));
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
  test.each([
    // Kuperberg and Kuperberg 1990; proved the best of all packings by Hales and Kusner 2016.
    ['regular pentagon', regular(5), (5 - Math.sqrt(5)) / 3, 30],
    // Kallus 2013: best known; the number is computed, not read there.
    ['regular heptagon', regular(7), 0.892690686, 40],
    // A centrally symmetric convex shape packs best on a lattice (Fejes Toth 1950, Rogers 1951).
    ['regular octagon', regular(8), (4 + 4 * Math.SQRT2) / (5 + 4 * Math.SQRT2), 20],
    ['regular hexagon', regular(6), 1, 20],
    // Pairs of any triangle and of any quadrilateral tile the plane (Conway criterion, Schattschneider 1980).
    ['scalene triangle', polyline(0, 0, 3, 0, 1, 2), 1, 30],
    ['dart, a concave quadrilateral', polyline(0, 0, 4, -2, 2, 0, 4, 2), 1, 60],
    ['L tetromino', polyline(0, 0, 0, 2, 1, 2, 1, 1, 3, 1, 3, 0), 1, 80],
    ['U pentomino', polyline(0, 0, 0, 2, 1, 2, 1, 1, 2, 1, 2, 2, 3, 2, 3, 0), 1, 120],
  ])('%s', (_, ring, known, starts) => {
    const found = density(ring, true, starts);
    expect(Math.abs(found - known)).toBeLessThan(1e-6);
  });
});

describe('copies in one orientation reach the known densest lattices', () => {
  test.each([
    // Fary 1950: two thirds for every triangle.
    ['triangle', polyline(0, 0, 3, 0, 1, 2), 2 / 3, 30],
    ['regular pentagon', regular(5), 0.817256002, 30],
    ['regular heptagon', regular(7), 0.860191024, 30],
    ['chevron', polyline(0, 0, 2, 1, 4, 0, 4, 2, 2, 3, 0, 2), 1, 30],
    ['X pentomino', polyline(2, 0, 1, 0, 1, 1, 0, 1, 0, 2, 1, 2, 1, 3, 2, 3, 2, 2, 3, 2, 3, 1, 2, 1), 1, 150],
    ['T tetromino', polyline(0, 1, 1, 1, 1, 2, 2, 2, 2, 1, 3, 1, 3, 0, 0, 0), 1, 40],
  ])('%s', (_, ring, known, starts) => {
    expect(Math.abs(density(ring, false, starts) - known)).toBeLessThan(1e-6);
  });

  test('a circle of 1,200 sides: pi / sqrt 12 (Thue 1892), less what the polygon lacks of the circle', () => {
    // A regular 6k-gon on the hexagonal lattice touches at six edge middles: its cell is 2 sqrt 3 cos^2(pi / n).
    const n = 1200;
    const known = ((n / 2) * Math.sin((2 * Math.PI) / n)) / (2 * Math.sqrt(3) * Math.cos(Math.PI / n) ** 2);
    expect(Math.abs(known - Math.PI / Math.sqrt(12))).toBeLessThan(4e-6);
    expect(Math.abs(density(regular(n), false, 6) - known)).toBeLessThan(1e-6);
  });
});

test('with a gap the lattice of discs is the one of larger discs', () => {
  // Discs of 50 mm kept 2 mm apart: pi d^2 / (2 sqrt 3 (d + g)^2) = 0.8385.
  const disc = regular(600).map(([x, y]): Point => [25 * x, 25 * y]);
  expect(density(disc, false, 6, 2)).toBeCloseTo((Math.PI * 50 ** 2) / (2 * Math.sqrt(3) * 52 ** 2), 4);
});
