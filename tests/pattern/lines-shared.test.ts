import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/ring.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

/** A line of a drawing, from one point to the other. */
function side(x1: number, y1: number, x2: number, y2: number): string {
  return `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}"/>`;
}

/** The four sides of a square of 50 mm, each a line of its own. */
function sides(x: number, y: number): string[] {
  const [right, bottom] = [x + 50, y + 50];
  return [
    side(x, y, right, y),
    side(right, y, right, bottom),
    side(right, bottom, x, bottom),
    side(x, bottom, x, y),
  ];
}

/** Areas of the parts, mm2, and what is told of the drawing. */
function read(...elements: string[]) {
  const { pattern, issues } = readPattern(
    `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">
      <g id="Quay" fill="none" stroke="black">${elements.join('\n')}</g></svg>`,
  );
  const { parts } = pattern.layers[0];
  const areas = parts.map(({ region }) => Math.round(ringArea(region.outline)));
  return { areas, veins: parts.flatMap(({ veins }) => veins).length, kinds: issues.map(({ kind }) => kind) };
}

describe('parts drawn line by line that share a side', () => {
  it('are parts each where the side is drawn for each', () => {
    expect(read(...sides(0, 0), ...sides(50, 0))).toEqual({ areas: [2500, 2500], veins: 0, kinds: [] });
  });

  it('are found one after the other, down a row and over a wall of them', () => {
    const row = Array.from({ length: 6 }, (_, i) => sides(50 * i, 0));
    expect(read(...row.flat())).toEqual({ areas: Array(6).fill(2500), veins: 0, kinds: [] });
    const wall = Array.from({ length: 20 }, (_, i) => sides(50 * (i % 5), 50 * Math.floor(i / 5)));
    expect(read(...wall.flat())).toEqual({ areas: Array(20).fill(2500), veins: 0, kinds: [] });
  });

  it('are not said to meet at a point only where others lie between them, nor where all are one path', () => {
    const wall = [0, 1, 2].flatMap((column) => [0, 1].map((row) => [50 * column, 50 * row]));
    const path = wall.map(([x, y]) => `M${x} ${y}h50v50h-50z`);
    const alike = { areas: Array(6).fill(2500), veins: 0, kinds: [] };
    expect(read(...wall.flatMap(([x, y]) => sides(x, y)))).toEqual(alike);
    expect(read(`<path d="${path.join('')}"/>`)).toEqual(alike);
    // Without the two that lie between them, corners meet at a point.
    const corners = `<path d="${path[0]}${path[3]}${path[4]}"/>`;
    expect(read(corners).kinds).toEqual(['pieces-meet-at-point']);
  });

  it('are found among parts on every side, whichever is drawn last', () => {
    const around = [0, 1, 2, 3, 5, 6, 7, 8, 4].map((i) => sides(50 * (i % 3), 50 * Math.floor(i / 3)));
    expect(read(...around.flat())).toEqual({ areas: Array(9).fill(2500), veins: 0, kinds: [] });
  });

  it('run around one part each, also where all is drawn twice', () => {
    const wall = [0, 1, 2, 3, 4, 5].flatMap((i) => sides(50 * (i % 2), 50 * Math.floor(i / 2)));
    const { areas, kinds } = read(...wall, ...wall);
    expect(areas).toEqual(Array(6).fill(2500));
    expect(kinds).toEqual(['shape-drawn-twice']);
  });

  it('leave the space between them open where all of them are drawn twice', () => {
    const frame = [0, 1, 2, 3, 5, 6, 7, 8].flatMap((i) => sides(50 * (i % 3), 50 * Math.floor(i / 3)));
    expect(read(...frame, ...frame).areas).toEqual(Array(8).fill(2500));
  });

  it('are there once where all of them is drawn twice', () => {
    const pair = [...sides(0, 0), ...sides(50, 0)];
    const { areas, kinds } = read(...pair, ...pair);
    expect(areas).toEqual([2500, 2500]);
    expect(kinds).toEqual(['shape-drawn-twice']);
  });

  it('take no vein for a side: what lies in a part stays in it', () => {
    const { areas, veins } = read(...sides(0, 0), ...sides(0, 0), side(0, 0, 50, 50));
    expect({ areas, veins }).toEqual({ areas: [2500], veins: 1 });
  });

  it('are told of where the side is drawn for one of them only', () => {
    const { areas, kinds } = read(...sides(0, 0), ...sides(50, 0).slice(0, 3));
    expect(areas).toEqual([2500]);
    expect(kinds).toContain('open-line-left-out');
  });
});
