import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, test } from 'vitest';
import { combineRegions } from '../../src/geometry/clipper.ts';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { readDrawing } from '../../src/svg/read-drawing.ts';

/**
 * Pieces and openings of parts against the pixels of an independent renderer, on drawings nobody here made. Counted
 * at two resolutions; a file is judged only where the two agree, for there the picture leaves no doubt.
 */
const SETS = [
  { name: 'bootstrap-icons', folder: 'bootstrap-icons/icons', files: 60 },
  { name: 'jam-icons', folder: 'jam-icons/svg', files: 50 },
  { name: 'maki', folder: '@mapbox/maki/icons', files: 40 },
] as const;

/** Files whose picture and parts differ, each with the reason. */
const EXCEPTIONS: Readonly<Record<string, string>> = {
  'toilet.svg':
    'round ends touch straight legs in a point: the cusp in between is no opening, its pixels are one',
};

const modules = join(import.meta.dirname, '../../node_modules');

function sample(folder: string, count: number): { file: string; text: string }[] {
  const files = readdirSync(join(modules, folder))
    .filter((file) => file.endsWith('.svg'))
    .sort()
    .map((file) => ({ file, text: readFileSync(join(modules, folder, file), 'utf8') }))
    .filter(({ text }) => !/\bstroke\b|opacity|clip-path/.test(text));
  const step = Math.max(1, Math.floor(files.length / count));
  return files.filter((_, i) => i % step === Math.min(3, step - 1)).slice(0, count);
}

/** Painted and unpainted areas of the picture: 8-connected solids, 4-connected openings, as pixels are counted. */
function topologyByPixels(text: string, size: number): { pieces: number; openings: number } {
  const { pixels, width, height } = new Resvg(text, {
    fitTo: { mode: 'width', value: size },
    font: { loadSystemFonts: false },
  }).render();
  // A frame of one unpainted pixel joins everything outside.
  const w = width + 2;
  const solid = new Uint8Array(w * (height + 2));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++)
      solid[(y + 1) * w + x + 1] = pixels[4 * (y * width + x) + 3] > 127 ? 1 : 0;
  }
  const areas = countAreas(solid, w);
  return { pieces: areas[1], openings: areas[0] - 1 };
}

/** Connected areas of value 0 and of value 1. */
function countAreas(cells: Uint8Array, w: number): [number, number] {
  const straight = [-1, 1, -w, w];
  const all = [...straight, -w - 1, -w + 1, w - 1, w + 1];
  const seen = new Uint8Array(cells.length);
  const stack = new Int32Array(cells.length);
  const counts: [number, number] = [0, 0];
  for (let start = 0; start < cells.length; start++) {
    if (seen[start] === 1) continue;
    const value = cells[start];
    counts[value as 0 | 1]++;
    let top = 0;
    stack[top++] = start;
    seen[start] = 1;
    while (top > 0) {
      const cell = stack[--top];
      for (const step of value === 1 ? all : straight) {
        const next = cell + step;
        const wraps = Math.abs((next % w) - (cell % w)) > 1;
        if (next < 0 || next >= cells.length || wraps || seen[next] === 1 || cells[next] !== value) continue;
        seen[next] = 1;
        stack[top++] = next;
      }
    }
  }
  return counts;
}

function topologyOfParts(file: string, text: string): { pieces: number; openings: number } {
  const { drawing } = readDrawing(text, { file });
  // A set without a stated size is measured as drawn: only counts matter here.
  const { pattern } = patternFromDrawing({ ...drawing, page: drawing.page ?? { width: 10, height: 10 } });
  const regions = pattern.layers.flatMap(({ parts }) => parts.map(({ region }) => region));
  const united = combineRegions('union', regions, []);
  return { pieces: united.length, openings: united.reduce((sum, { openings }) => sum + openings.length, 0) };
}

describe.each(SETS)('$name', ({ folder, files }) => {
  const chosen = sample(folder, files);
  let judged = 0;

  test.each(chosen)('$file', ({ file, text }) => {
    const coarse = topologyByPixels(text, 400);
    const fine = topologyByPixels(text, 900);
    if (file in EXCEPTIONS) return;
    if (coarse.pieces !== fine.pieces || coarse.openings !== fine.openings) return;
    judged++;
    expect(topologyOfParts(file, text)).toEqual(fine);
  });

  test('most files leave no doubt', () => {
    expect(judged).toBeGreaterThan(0.8 * chosen.length);
  });
});
