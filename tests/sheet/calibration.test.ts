import { expect, test } from 'vitest';
import { drawPlacementSheet } from '../../src/sheet/placement-sheet.ts';
import { handBoard } from './hand-layout.ts';
import { lineCentres, PIXELS_PER_MM, rasterOfSvg, scan } from './raster.ts';

/** Where the first square stands on the sheet, and the second one: white border, side and gap, mm. */
const FIRST = 8;
const SECOND = FIRST + 50 + 4;

const sheet = drawPlacementSheet(handBoard(), { job: 'calibration', unit: 'mm', kerf: 1 });
const raster = rasterOfSvg(sheet);

test('the page is as large as it says: 1 mm is 10 pixels at 254 dpi', () => {
  const width = Number(/width="([\d.]+)mm"/.exec(sheet)?.[1]);
  expect(width).toBeGreaterThan(300);
  expect(raster.width).toBe(Math.ceil(width * PIXELS_PER_MM));
});

test('the squares measure 50 mm and 2 in across', () => {
  const [left, right, leftInch, rightInch] = lineCentres(scan(raster, 'across', FIRST + 10));
  expect(Math.abs(left - FIRST)).toBeLessThan(0.1);
  expect(Math.abs(leftInch - SECOND)).toBeLessThan(0.1);
  expect(Math.abs(right - left - 50)).toBeLessThanOrEqual(0.1);
  expect(Math.abs(rightInch - leftInch - 50.8)).toBeLessThanOrEqual(0.1);
});

test('the squares measure 50 mm and 2 in down', () => {
  const [top, bottom] = lineCentres(scan(raster, 'down', FIRST + 10));
  expect(Math.abs(bottom - top - 50)).toBeLessThanOrEqual(0.1);
  const [topInch, bottomInch] = lineCentres(scan(raster, 'down', SECOND + 40));
  expect(Math.abs(bottomInch - topInch - 50.8)).toBeLessThanOrEqual(0.1);
});
