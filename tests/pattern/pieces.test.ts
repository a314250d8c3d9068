import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { paintedByParts, paintedByPixels } from './pixels.ts';

/**
 * Pieces and openings of parts against the pixels of an independent renderer, on drawings nobody here made. Counted
 * at two resolutions; a file is judged only where the two agree, for there the picture leaves no doubt.
 */
const SETS = [
  { name: 'bootstrap-icons', folder: 'bootstrap-icons/icons', files: 60 },
  { name: 'jam-icons', folder: 'jam-icons/svg', files: 50 },
  { name: 'maki', folder: '@mapbox/maki/icons', files: 40 },
  { name: 'material design icons', folder: '@mdi/svg/svg', files: 50 },
] as const;

/** Files whose picture and parts differ, each with the reason. */
const EXCEPTIONS: Readonly<Record<string, string>> = {
  'notebook-multiple.svg':
    'squares touch corner to corner: sawn, they fall apart, in pixels they hang together',
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

describe.each(SETS)('$name', ({ folder, files }) => {
  const chosen = sample(folder, files);
  let judged = 0;

  test.each(chosen)('$file', ({ file, text }) => {
    if (file in EXCEPTIONS) return;
    const coarse = paintedByPixels(text, 400);
    const fine = paintedByPixels(text, 900);
    if (coarse.pieces !== fine.pieces || coarse.openings !== fine.openings) return;
    judged++;
    const { pieces, openings, share } = paintedByParts(text, file, 900);
    expect({ pieces, openings }).toEqual({ pieces: fine.pieces, openings: fine.openings });
    expect(Math.abs(share / fine.share - 1)).toBeLessThan(0.005);
  });

  test('most files leave no doubt', () => {
    expect(judged).toBeGreaterThan(0.8 * chosen.length);
  });
});
