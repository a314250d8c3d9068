import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Painted, paintedByParts, paintedByPixels } from '../pattern/pixels.ts';
import { EXCEPTIONS } from './exceptions.ts';

/** Drawings after which the memory of the renderer is given back: only between two turns of the event loop is it freed. */
const REST_EVERY = 20;

/** Widths of the pictures that are counted, in pixels: a finer one decides where one shows other pieces than the parts. */
const WIDTHS = [900, 2700, 4500];

/**
 * Every filled drawing of five open sets (`npm run corpus`, some minutes): no crash, painted area within 0.5 %, and
 * as many pieces and openings as the pixels of an independent renderer show. Lines, half-transparent paint and
 * clipped drawings are passed over, for their pixels are not the filled shapes.
 */
const FOLDERS = [
  'bootstrap-icons/icons',
  'jam-icons/svg',
  '@mapbox/maki/icons',
  'flag-icons/flags/4x3',
  '@mdi/svg/svg',
];

/** Drawings that are judged in one test: what differs is told while a run of a large set goes on. */
const SLICE = 500;

const modules = join(import.meta.dirname, '../../node_modules');

const slices = FOLDERS.flatMap((folder) => {
  const names = readdirSync(join(modules, folder))
    .filter((name) => name.endsWith('.svg'))
    .sort();
  return Array.from({ length: Math.ceil(names.length / SLICE) }, (_, i) => ({
    folder,
    from: i * SLICE + 1,
    names: names.slice(i * SLICE, (i + 1) * SLICE),
  }));
});

test.each(slices)('$folder from $from', { timeout: 1_800_000 }, async ({ folder, from, names }) => {
  const counts = { files: 0, judged: 0, passedOver: 0, doubtful: 0 };
  const wrong: string[] = [];
  for (const file of names) {
    if (++counts.files % REST_EVERY === 0) {
      globalThis.gc?.();
      await new Promise((resolve) => setImmediate(resolve));
    }
    const text = readFileSync(join(modules, folder, file), 'utf8');
    if (/\bstroke\b|opacity|clip-path|<image|<text/.test(text)) {
      counts.passedOver++;
      continue;
    }
    const fault = faultOf(text, file, counts);
    if (fault !== undefined && !(`${folder}/${file}` in EXCEPTIONS)) wrong.push(`${file}: ${fault}`);
  }
  console.info(folder, from, counts, wrong);
  expect(wrong).toEqual([]);
});

function faultOf(
  text: string,
  file: string,
  counts: { judged: number; doubtful: number },
): string | undefined {
  const coarse = paintedByPixels(text, 400);
  const fine = paintedByPixels(text, WIDTHS[0]);
  counts.judged++;
  let parts: Painted;
  try {
    parts = paintedByParts(text, file, WIDTHS[0]);
  } catch (error) {
    return `${error}`;
  }
  if (Math.abs(parts.share / fine.share - 1) > 0.005)
    return `area ${((parts.share / fine.share - 1) * 100).toFixed(2)} %`;
  if (coarse.pieces !== fine.pieces || coarse.openings !== fine.openings) {
    counts.doubtful++;
    return undefined;
  }
  return showsSame(parts, fine) || WIDTHS.some((width) => showsSameAt(text, file, width))
    ? undefined
    : `${parts.pieces} pieces and ${parts.openings} openings, the picture shows ${fine.pieces} and ${fine.openings}`;
}

const showsSame = (parts: Painted, picture: Painted): boolean =>
  parts.pieces === picture.pieces && parts.openings === picture.openings;

/**
 * True when a picture of some width shows as many pieces and openings as the parts have: as they are, or at its
 * fineness. (A gap of less than a pixel shows or not, as it happens to lie.)
 */
function showsSameAt(text: string, file: string, width: number): boolean {
  const picture = paintedByPixels(text, width);
  return [paintedByParts(text, file, width), paintedByParts(text, file)].some((parts) =>
    showsSame(parts, picture),
  );
}
