import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, test } from 'vitest';
import { combineRegions } from '../../src/geometry/clipper.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import type { Ring } from '../../src/geometry/shapes.ts';
import type { Drawing } from '../../src/model/drawing.ts';
import { readDrawing } from '../../src/svg/read-drawing.ts';
import { outsideCheck } from '../outside-check.ts';
import { filledRegions } from './drawn.ts';

/**
 * The area that the reader's curves enclose against the pixels of an independent renderer, on drawings nobody here
 * made. Files with lines or half-transparent paint are passed over: their pixels are not the filled area.
 */
const PIXELS = 800;

/** How many files of each set: every n-th of the sorted list, so that the sample is fixed and spread. */
const SETS = [
  { name: 'bootstrap-icons', folder: 'bootstrap-icons/icons', files: 100 },
  { name: 'jam-icons', folder: 'jam-icons/svg', files: 80 },
  { name: 'maki', folder: '@mapbox/maki/icons', files: 60 },
  { name: 'flag-icons', folder: 'flag-icons/flags/4x3', files: 60 },
] as const;

/** What these sets may have reported: they are sized in pixels, and flags paint beyond their page or clip. */
const ANNOUNCED = ['size-in-pixels', 'size-not-stated', 'clip-path-applied', 'shapes-off-page'];

const modules = join(import.meta.dirname, '../../node_modules');

function sample(folder: string, count: number): { file: string; text: string }[] {
  const files = readdirSync(join(modules, folder))
    .filter((file) => file.endsWith('.svg'))
    .sort()
    .map((file) => ({ file, text: readFileSync(join(modules, folder, file), 'utf8') }))
    .filter(({ text }) => !/\bstroke\b|opacity/.test(text));
  const step = Math.max(1, Math.floor(files.length / count));
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

/** Filled area inside the page, which is all that a renderer shows. */
function areaOnPage(drawing: Drawing, width: number, height: number): number {
  const outline: Ring = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const shown = combineRegions('intersection', filledRegions(drawing, 1e-3), [{ outline, openings: [] }]);
  return shown.reduce((sum, region) => sum + regionArea(region), 0);
}

describe.each(SETS)('$name', ({ name, folder, files }) => {
  let worst = 0;
  let compared = 0;

  test.each(sample(folder, files))('$file', ({ file, text }) => {
    // A set without a size is read as if its viewBox were in pixels.
    const { drawing, issues } = readDrawing(text, { file });
    expect(issues.map(({ kind }) => kind).filter((kind) => !ANNOUNCED.includes(kind))).toEqual([]);
    const [, , boxWidth, boxHeight] = (/viewBox="([^"]*)"/.exec(text)?.[1] ?? '').split(/\s+/).map(Number);
    const width = drawing.page?.width ?? (boxWidth * 25.4) / 96;
    const height = drawing.page?.height ?? (boxHeight * 25.4) / 96;
    const expected = areaByPixels(text, width);
    expect(expected).toBeGreaterThan(0);
    const difference = Math.abs(areaOnPage(drawing, width, height) / expected - 1);
    expect(difference).toBeLessThan(0.005);
    worst = Math.max(worst, difference);
    compared++;
  });

  test('all of them', () => {
    outsideCheck({
      what: `Filled area of ${compared} drawings of ${name}: greatest difference from the painted pixels, share`,
      source: 'A renderer of its own (resvg), 800 pixels across, on drawings nobody here made',
      expected: 0,
      found: worst,
      tolerance: 0.005,
    });
  });
});
