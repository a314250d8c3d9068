import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/svg/read-drawing.ts';
import { filledArea, paintedShapes } from './drawn.ts';

/**
 * The area that the reader's curves enclose against the pixels of an independent renderer, on drawings nobody here
 * made. The renderer paints them as they are: black, without strokes.
 */
const PIXELS = 800;

/** How many files of each set: every n-th of the sorted list, so that the sample is fixed and spread. */
const SETS = [
  { name: 'bootstrap-icons', folder: 'bootstrap-icons/icons', files: 45 },
  { name: 'jam-icons', folder: 'jam-icons/svg', files: 45 },
] as const;

const modules = join(import.meta.dirname, '../../node_modules');

function sample(folder: string, count: number): string[] {
  const files = readdirSync(join(modules, folder))
    .filter((file) => file.endsWith('.svg'))
    .sort();
  const step = Math.floor(files.length / count);
  return files.filter((_, i) => i % step === 0).slice(0, count);
}

/** Painted area in mm2 by counting pixels, each by how far it is covered. */
function areaByPixels(text: string, pageWidth: number): number {
  const image = new Resvg(text, {
    fitTo: { mode: 'width', value: PIXELS },
    font: { loadSystemFonts: false },
  }).render();
  const { pixels, width } = image;
  let covered = 0;
  for (let i = 3; i < pixels.length; i += 4) covered += pixels[i];
  const mmPerPixel = pageWidth / width;
  return (covered / 255) * mmPerPixel * mmPerPixel;
}

describe.each(SETS)('$name', ({ folder, files }) => {
  test.each(sample(folder, files))('%s', (file) => {
    const text = readFileSync(join(modules, folder, file), 'utf8');
    const { drawing, issues } = readDrawing(text, { file });
    // Icons are sized in pixels; nothing else may be reported.
    expect(issues.filter(({ kind }) => kind !== 'size-in-pixels')).toEqual([]);
    expect(paintedShapes(drawing.root).every(({ stroke }) => stroke === 'none')).toBe(true);
    const expected = areaByPixels(text, drawing.page?.width ?? Number.NaN);
    expect(expected).toBeGreaterThan(0);
    expect(Math.abs(filledArea(drawing, 1e-3) / expected - 1)).toBeLessThan(0.005);
  });
});
