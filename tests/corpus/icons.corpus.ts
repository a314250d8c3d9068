import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { paintedByParts, paintedByPixels } from '../pattern/pixels.ts';
import { EXCEPTIONS } from './exceptions.ts';

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

const modules = join(import.meta.dirname, '../../node_modules');

test.each(FOLDERS)('%s', { timeout: 3_600_000 }, (folder) => {
  const counts = { files: 0, judged: 0, passedOver: 0, doubtful: 0 };
  const wrong: string[] = [];
  for (const file of readdirSync(join(modules, folder))
    .filter((name) => name.endsWith('.svg'))
    .sort()) {
    counts.files++;
    const text = readFileSync(join(modules, folder, file), 'utf8');
    if (/\bstroke\b|opacity|clip-path|<image|<text/.test(text)) {
      counts.passedOver++;
      continue;
    }
    const fault = faultOf(text, file, counts);
    if (fault !== undefined && !(`${folder}/${file}` in EXCEPTIONS)) wrong.push(`${file}: ${fault}`);
  }
  console.info(folder, counts, `${wrong.length} differ`);
  expect(wrong).toEqual([]);
});

function faultOf(
  text: string,
  file: string,
  counts: { judged: number; doubtful: number },
): string | undefined {
  const coarse = paintedByPixels(text, 400);
  const fine = paintedByPixels(text, 900);
  counts.judged++;
  let parts: ReturnType<typeof paintedByParts>;
  try {
    parts = paintedByParts(text, file, 900);
  } catch (error) {
    return `${error}`;
  }
  if (Math.abs(parts.share / fine.share - 1) > 0.005)
    return `area ${((parts.share / fine.share - 1) * 100).toFixed(2)} %`;
  if (coarse.pieces !== fine.pieces || coarse.openings !== fine.openings) {
    counts.doubtful++;
    return undefined;
  }
  return parts.pieces === fine.pieces && parts.openings === fine.openings
    ? undefined
    : `${parts.pieces} pieces and ${parts.openings} openings, the picture shows ${fine.pieces} and ${fine.openings}`;
}
