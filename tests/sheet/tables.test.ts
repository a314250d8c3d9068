import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { referenceRegion } from '../../src/nesting/reference-geometry.ts';
import { cutsCsv, partsCsv } from '../../src/sheet/tables.ts';
import { box, HOSTILE_NAMES, handBoard, handLayout, placed } from './hand-layout.ts';

function read(csv: string): Record<string, string>[] {
  const { data, errors } = Papa.parse<Record<string, string>>(csv.trimEnd(), { header: true });
  expect(errors).toEqual([]);
  return data;
}

test('parts.csv has a line for each placed part', () => {
  const rows = read(partsCsv(handLayout()));
  expect(rows.map(({ part }) => part)).toEqual(['boathouse', 'float', 'duck', 'peg', 'ring']);
  // The peg is 4 x 9 mm: 36 mm2, 26 mm around.
  expect(rows[3]).toEqual({
    board: 'maple-1',
    'boards alike': '1',
    layer: 'Figures',
    part: 'peg',
    set: '12',
    'x (mm)': '0',
    'y (mm)': '0',
    'rotation (degrees)': '0',
    'turned over': 'no',
    'width (mm)': '4',
    'height (mm)': '9',
    'area (mm2)': '36',
    'cut length (mm)': '26',
    openings: '0',
    veins: '0',
  });
});

test('cuts.csv lists openings, veins and outlines, with the place and the limit of each hole', () => {
  const rows = read(cutsCsv(handLayout()));
  expect(rows.filter(({ part }) => part === 'boathouse').map(({ cut }) => cut)).toEqual([
    'opening',
    'opening',
    'outline',
  ]);
  // An opening of 40 x 40 mm around (50, 80) in which another part lies: the drill has to miss that part.
  const { 'length (mm)': length, 'hole x (mm)': x, 'hole y (mm)': y, 'largest drill (mm)': drill } = rows[0];
  expect(Number(length)).toBe(160);
  const float = handLayout().boards[0].placements.find(({ part }) => part === 'float');
  if (float === undefined) throw new Error('no part lies in the opening');
  expect(Number(drill)).toBeGreaterThan(1);
  const beside = referenceRegion(float.region).distanceTo(Number(x), Number(y));
  expect(beside).toBeGreaterThanOrEqual(Number(drill) / 2 - 0.1);
  expect(rows.filter(({ cut }) => cut === 'vein').length).toBe(1);
});

test('lines end as RFC 4180 says', () => {
  const csv = cutsCsv(handLayout());
  expect(csv.endsWith('\r\n')).toBe(true);
  expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('hostile names stay in their cell and are never a formula', () => {
  const names = [...HOSTILE_NAMES, '+1', '-1+2', '@SUM(A1)', '\t=1', 'a,"b"', 'line\r\nbreak'];
  const region = { outline: box(0, 0, 10, 10), openings: [] };
  for (const name of names) {
    const board = handBoard({ id: name, placements: [placed({ part: name, layer: name, region })] });
    for (const row of read(partsCsv(handLayout({ boards: [board] })))) {
      for (const cell of [row.board, row.layer, row.part]) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
      expect(row['area (mm2)']).toBe('100');
    }
  }
});
