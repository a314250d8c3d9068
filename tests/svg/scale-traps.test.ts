import { expect, test } from 'vitest';
import { readDrawing } from '../../src/svg/read-drawing.ts';

/**
 * The four factors by which whole drawings come out wrong: 96/90 and 96/72 px per inch (programs before CSS fixed
 * the pixel), both ways, and 25.4 mm to the inch.
 */
const notes = (svg: string) =>
  readDrawing(svg)
    .issues.filter(({ kind }) => kind.startsWith('scale-') || kind === 'size-in-pixels')
    .map(({ kind, message }) => `${kind}: ${/\d+\.\d{4}/.exec(message)?.[0] ?? ''}`);

const ns = 'xmlns="http://www.w3.org/2000/svg"';
const square = '<rect width="10" height="10"/>';

test.each([
  ['A4 at 90 px per inch', `<svg ${ns} width="744.09" height="1052.36">${square}</svg>`, 'scale-older-pixels: 1.0667'],
  ['A4 at 72 px per inch', `<svg ${ns} width="595.28" height="841.89">${square}</svg>`, 'scale-older-pixels: 1.3333'],
  ['letter at 72 px per inch, lying', `<svg ${ns} width="792" height="612">${square}</svg>`, 'scale-older-pixels: 1.3333'],
  ['letter at 90 px per inch', `<svg ${ns} width="765" height="990">${square}</svg>`, 'scale-older-pixels: 1.0667'],
  ['A4 at 96 px per inch', `<svg ${ns} width="793.7" height="1122.52">${square}</svg>`, 'size-in-pixels: '],
  ['8 mm where 8 in was meant', `<svg ${ns} width="8mm" height="6mm" viewBox="0 0 8 6">${square}</svg>`, 'scale-unit-mistaken: 25.4000'],
  ['200 in where 200 mm was meant', `<svg ${ns} width="200in" height="150in" viewBox="0 0 200 150">${square}</svg>`, 'scale-unit-mistaken: 0.0394'],
  ['numbers in mm without a viewBox', `<svg ${ns} width="200mm" height="150mm"><rect width="190" height="140"/></svg>`, 'scale-unit-mistaken: 3.7795'],
])('%s', (_, svg, note) => {
  expect(notes(svg)).toEqual([note]);
}); // biome-ignore format: a table

test('a page in millimetres with a viewBox of its own raises no doubt', () => {
  expect(notes(`<svg ${ns} width="200mm" height="150mm" viewBox="0 0 200 150">${square}</svg>`)).toEqual([]);
});

test('the older pixel that a note names makes the drawing as large as meant', () => {
  const svg = `<svg ${ns} width="744.09" height="1052.36">${square}</svg>`;
  const { drawing, issues } = readDrawing(svg, { pixelsPerInch: 90 });
  expect(drawing.page?.width).toBeCloseTo(210, 1);
  expect(drawing.page?.height).toBeCloseTo(297, 1);
  expect(issues.map(({ kind }) => kind)).not.toContain('scale-older-pixels');
});
