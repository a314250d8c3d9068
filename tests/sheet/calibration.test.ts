import { expect, test } from 'vitest';
import { drawPlacementSheet } from '../../src/sheet/placement-sheet.ts';
import { outsideCheck } from '../outside-check.ts';
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
  outsideCheck({
    what: 'Calibration squares measured across on pixels, mm',
    source: 'A renderer of its own (resvg) at 254 dpi; 1 in is 25.4 mm (international yard and pound, 1959)',
    expected: [50, 50.8],
    found: [right - left, rightInch - leftInch],
    tolerance: 0.1,
  });
});

test('the squares measure 50 mm and 2 in down', () => {
  const [top, bottom] = lineCentres(scan(raster, 'down', FIRST + 10));
  const [topInch, bottomInch] = lineCentres(scan(raster, 'down', SECOND + 40));
  outsideCheck({
    what: 'Calibration squares measured down on pixels, mm',
    source: 'A renderer of its own (resvg) at 254 dpi; 1 in is 25.4 mm (international yard and pound, 1959)',
    expected: [50, 50.8],
    found: [bottom - top, bottomInch - topInch],
    tolerance: 0.1,
  });
});
