import { Resvg } from '@resvg/resvg-js';
import { expect, test } from 'vitest';
import { drawPlacementSheet } from '../../src/sheet/placement-sheet.ts';
import { handBoard } from './hand-layout.ts';

/** At 254 dots per inch a millimetre is 10 pixels (1 in = 25.4 mm exactly). */
const DPI = 254;
const PIXELS_PER_MM = 10;
/** Where the first square stands on the sheet: the white border, mm. */
const BORDER = 8;

const sheet = drawPlacementSheet(handBoard(), { job: 'calibration', unit: 'mm', kerf: 1 });

/** Darkness 0 to 255 along a row or column of the sheet as a reference renderer paints it. */
function scan(direction: 'across' | 'down', at: number): number[] {
  const image = new Resvg(sheet, {
    dpi: DPI,
    background: 'white',
    font: { loadSystemFonts: false },
  }).render();
  const { width, height, pixels } = image;
  const length = direction === 'across' ? width : height;
  const fixed = Math.round(at * PIXELS_PER_MM);
  return Array.from({ length }, (_, i) => {
    const index = direction === 'across' ? fixed * width + i : i * width + fixed;
    return 255 - pixels[4 * index];
  });
}

/** Centres of the dark runs, weighted by darkness, in mm from the edge of the sheet. */
function lineCentres(darkness: readonly number[]): number[] {
  const centres: number[] = [];
  let weight = 0;
  let moment = 0;
  [...darkness, 0].forEach((dark, i) => {
    if (dark > 0) {
      weight += dark;
      moment += dark * (i + 0.5);
    } else if (weight > 0) {
      centres.push(moment / weight / PIXELS_PER_MM);
      weight = 0;
      moment = 0;
    }
  });
  return centres;
}

test('the page is as large as it says: 1 mm is 10 pixels at 254 dpi', () => {
  const width = Number(/width="([\d.]+)mm"/.exec(sheet)?.[1]);
  expect(width).toBeGreaterThan(300);
  expect(scan('across', 1).length).toBe(Math.ceil(width * PIXELS_PER_MM));
});

test('the squares measure 50 mm and 2 in across', () => {
  const [left, right, leftInch, rightInch] = lineCentres(scan('across', BORDER + 10));
  expect(Math.abs(left - BORDER)).toBeLessThan(0.1);
  expect(Math.abs(right - left - 50)).toBeLessThanOrEqual(0.1);
  expect(Math.abs(rightInch - leftInch - 50.8)).toBeLessThanOrEqual(0.1);
});

test('the squares measure 50 mm and 2 in down', () => {
  const [top, bottom] = lineCentres(scan('down', BORDER + 10));
  expect(Math.abs(bottom - top - 50)).toBeLessThanOrEqual(0.1);
  const [topInch, bottomInch] = lineCentres(scan('down', BORDER + 56 + 40));
  expect(Math.abs(bottomInch - topInch - 50.8)).toBeLessThanOrEqual(0.1);
});
