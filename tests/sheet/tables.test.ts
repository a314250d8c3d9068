import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { flatMarks, type Mark } from '../../src/sheet/marks/marks.ts';
import { partPages } from '../../src/sheet/part-pages.ts';
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
    number: '4',
    layer: 'Figures',
    part: 'peg',
    set: '12',
    'from left (mm)': '180',
    'from top (mm)': '60',
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

test('parts are numbered on each board as on its sheets', () => {
  const layout = handLayout({ boards: [handBoard(), handBoard({ id: 'maple-2' })] });
  const peg = (id: string) =>
    read(partsCsv(layout)).find(({ board, part }) => board === id && part === 'peg');
  const pages = partPages(layout, { job: 'job.json', unit: 'mm', kerf: 1 });
  const printed = pages.flatMap(({ drawing }) => textsOf(drawing.marks));
  for (const id of ['maple-1', 'maple-2']) {
    const own = printed.indexOf(`${peg(id)?.number} on ${id}`);
    expect(printed.slice(own + 1, own + 2)).toEqual(['Figures · peg · 12']);
  }
});

function textsOf(marks: readonly Mark[]): string[] {
  return [...flatMarks(marks)].flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
}

test('places are told from the left end and the upper edge of the whole board, wherever its outline begins', () => {
  // The board begins 30 mm left of what may be used of it, and 20 mm above.
  const outline = box(-30, -20, 360, 160);
  const moved = handLayout({ boards: [handBoard({ outline })] });
  const added = (here: Record<string, string>, there: Record<string, string>, field: string) =>
    Number(there[field]) - Number(here[field]);
  const [, , , peg] = read(partsCsv(moved));
  expect([peg['from left (mm)'], peg['from top (mm)']]).toEqual(['210', '80']);
  const [here, there] = [handLayout(), moved].map((layout) => read(cutsCsv(layout, planCuts(handLayout()))));
  const drilled = here.findIndex(({ drill }) => drill !== '');
  expect(added(here[drilled], there[drilled], 'hole from left (mm)')).toBeCloseTo(30, 6);
  expect(added(here[drilled], there[drilled], 'hole from top (mm)')).toBeCloseTo(20, 6);
});

test('a part that lies turned over is told so, with its turn', () => {
  const over = placed({
    turnedOver: true,
    rotation: 90,
    region: { outline: box(0, 0, 10, 20), openings: [] },
  });
  const [row] = read(partsCsv(handLayout({ boards: [handBoard({ placements: [over] })] })));
  expect([row['turned over'], row['rotation (degrees)']]).toEqual(['yes', '90']);
});

test('a vein sawn through a hole is told where that is: at one of its ends', () => {
  const rows = read(cutsCsv(handLayout(), planCuts(handLayout())));
  const [vein] = rows.filter(({ what }) => what === 'vein');
  // The vein of the hand-typed board runs from 110, 60 to 150, 60.
  expect(['110', '150']).toContain(vein['hole from left (mm)']);
  expect([vein['hole from top (mm)'], vein['begins in'], vein.piece]).toEqual(['60', 'hole', '1']);
});

test('both are in inches where the job is, and their heads say so', () => {
  const layout = handLayout();
  const [, , , peg] = read(partsCsv(layout, 'in'));
  expect(peg['area (sq in)']).toBe('0.0558');
  expect([peg['width (in)'], peg['cut length (in)']]).toEqual(['0.1575', '1.0236']);
  const rows = read(cutsCsv(layout, planCuts(layout), 'in'));
  expect(Object.keys(rows[0]).filter((head) => head.includes('mm'))).toEqual([]);
  const hole = rows.find(({ drill }) => drill !== '');
  // Fractional drills, with their decimals in a column that a spreadsheet can sort.
  expect(hole?.drill).toMatch(/^\d+\/\d+ in \(0\.\d+\)$/);
  expect(Number(hole?.['drill (in)'])).toBeCloseTo(Number(/\((.*)\)/.exec(hole?.drill ?? '')?.[1]), 4);
});

test('cuts.csv lists every cut in the planned order, with its number and its hole', () => {
  const layout = handLayout();
  const plan = planCuts(layout);
  const rows = read(cutsCsv(layout, plan));
  const numbers = rows.map(({ cut }) => Number(cut));
  expect(numbers).toEqual(numbers.map((_, i) => i + 1));
  expect(rows.map(({ what, part }) => `${what} ${part}`)).toEqual(
    plan.boards[0].cuts.map(({ kind, part }) => `${kind} ${part}`),
  );
  // An opening is sawn before the outline of its part: while there is wood to hold.
  const kinds = rows.filter(({ part }) => part === 'boathouse').map(({ what }) => what);
  expect(kinds).toEqual(['opening', 'opening', 'outline']);
  expect(rows.filter(({ what }) => what === 'vein').length).toBe(1);
  // A drill misses every part, also one that lies in an opening; only a vein is entered through its part.
  const drilled = rows.filter((row) => row.what !== 'vein' && row['drill (mm)'] !== '');
  expect(drilled.length).toBeGreaterThan(1);
  for (const { 'hole from left (mm)': x, 'hole from top (mm)': y, 'drill (mm)': hole } of drilled) {
    for (const { region } of layout.boards[0].placements) {
      const beside = referenceRegion(region).distanceTo(Number(x), Number(y));
      expect(beside).toBeGreaterThanOrEqual(Number(hole) / 2);
    }
  }
});

test('lines end as RFC 4180 says', () => {
  const csv = cutsCsv(handLayout(), planCuts(handLayout()));
  expect(csv.endsWith('\r\n')).toBe(true);
  expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('hostile names stay in their cell and are never a formula', () => {
  const names = [...HOSTILE_NAMES, '+1', '-1+2', '@SUM(A1)', '\t=1', 'a,"b"', 'line\r\nbreak'];
  const region = { outline: box(0, 0, 10, 10), openings: [] };
  for (const name of names) {
    const board = handBoard({ id: name, placements: [placed({ part: name, layer: name, region })] });
    const layout = handLayout({ boards: [board] });
    for (const row of read(cutsCsv(layout, planCuts(layout)))) {
      for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
    }
    for (const row of read(partsCsv(layout))) {
      for (const cell of [row.board, row.layer, row.part]) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
      expect(row['area (mm2)']).toBe('100');
    }
  }
});
