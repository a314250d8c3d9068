import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { tryReadPattern } from '../../src/job/read-pattern.ts';
import { measurePattern } from '../../src/pattern/measure.ts';

/**
 * Drawings changed at random in bytes, attributes and structure, read the whole way to measured parts. Whatever
 * comes, it is a pattern with whole numbers or a typed error. MUTATIONS=20000 makes the long run; each drawing's
 * number is its seed, and MUTATIONS_FROM starts at another one.
 */
const COUNT = Number(process.env.MUTATIONS ?? 1500);
const FROM = Number(process.env.MUTATIONS_FROM ?? 0);

const root = join(import.meta.dirname, '../../fixtures/svg');
const seeds = [
  ...readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.svg'))
    .sort()
    .map((name) => readFileSync(join(root, name), 'utf8')),
  readFileSync(join(import.meta.dirname, '../../fixtures/lake-shore/pattern.svg'), 'utf8'),
].filter((text) => text.length < 20_000);

/** Values that stand where a number, a length, a reference or a style is expected. */
const VALUES = [
  'NaN', '1e308', '-1e308', '1e-308', '1e999', '-0', '0', '', '%', '100%', '1e9', '-5', '1mm', '4in', '1e6in', 'none', 'inherit',
  'url(#a)', '#a', 'M0 0L1e308 1A1e9 1e9 0 1 1 5 5z', 'M0 0h50v50h-50zM10 10h5v5z', 'M0,0C1e5,0 0,1e5 50,50', 'translate(1e300)',
  'matrix(0 0 0 0 0 0)', 'scale(1e-200)', 'rotate(1e300)', 'scale(1000)', 'calc(1e308px * 9)', 'evenodd', 'fill-box', 'objectBoundingBox',
  'fill:none;stroke:red', 'clip-path:url(#a)', 'rotate:1e9turn;scale:-1', 'translate:50% 1e5px;transform-box:fill-box', '0 0 1e-300 1e300',
] as const; // biome-ignore format: a list to look over

const ELEMENTS = [
  '<g>', '</g>', '<use href="#a"/>', '<g id="a"><use href="#a"/></g>', '<rect id="a" width="9" height="9"/>', '<svg viewBox="0 0 1 1">', '</svg>',
  '<clipPath id="a" clipPathUnits="objectBoundingBox"><circle r="1"/></clipPath>', '<style>*{fill:none;stroke:red;scale:1.1}</style>',
  '<!DOCTYPE svg [<!ENTITY a "&b;&b;"><!ENTITY b "&a;&a;">]>', '&a;', '<![CDATA[', '<!--', '<path d="M0 0A1e8 1e8 0 0 1 9 9z"/>',
  '<symbol id="a" viewBox="0 0 9 9"><path d="M0 0h9v9z"/></symbol>', '<line x2="50" y2="50" stroke="red"/>', '\u0000', '\ud800',
] as const; // biome-ignore format: a list to look over

/** Numbers from 0 to 1, the same for the same seed (Numerical Recipes' generator, 32 bits, its first draws thrown away). */
function randomFrom(seed: number): () => number {
  let state = Math.imul(seed + 1, 2654435761) >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  next();
  next();
  return next;
}

function mutated(seed: number): string {
  const random = randomFrom(seed);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)];
  let text = pick(seeds);
  for (let edits = 1 + Math.floor(random() * 4); edits > 0; edits--) {
    const kind = random();
    if (kind < 0.6) text = withValue(text, random, pick(VALUES));
    else if (kind < 0.8) text = withElement(text, random, pick(ELEMENTS));
    else if (kind < 0.9) text = withPieceMoved(text, random);
    else text = withBytes(text, random);
  }
  return text;
}

function withValue(text: string, random: () => number, value: string): string {
  const places = [...text.matchAll(/="[^"]*"/g)];
  if (places.length === 0) return text;
  const place = places[Math.floor(random() * places.length)];
  return `${text.slice(0, place.index)}="${value}"${text.slice(place.index + place[0].length)}`;
}

function withElement(text: string, random: () => number, element: string): string {
  const places = [...text.matchAll(/>/g)];
  if (places.length === 0) return element;
  const { index } = places[Math.floor(random() * places.length)];
  return text.slice(0, index + 1) + element + text.slice(index + 1);
}

/** A piece of the text repeated somewhere else, up to 60 times. */
function withPieceMoved(text: string, random: () => number): string {
  const from = Math.floor(random() * text.length);
  const piece = text.slice(from, from + Math.floor(random() * 400));
  const to = Math.floor(random() * text.length);
  return text.slice(0, to) + piece.repeat(1 + Math.floor(random() ** 4 * 60)) + text.slice(to);
}

function withBytes(text: string, random: () => number): string {
  const at = Math.floor(random() * text.length);
  const bytes = Array.from({ length: Math.floor(random() * 4) }, () =>
    String.fromCharCode(random() < 0.9 ? 32 + random() * 95 : random() * 0xffff),
  );
  return text.slice(0, at) + bytes.join('') + text.slice(at + Math.floor(random() * 6));
}

test('every changed drawing becomes a pattern or a typed error in bounded time', {
  timeout: 3_600_000,
}, () => {
  let read = 0;
  let slowest = 0;
  let slowestSeed = FROM;
  for (let seed = FROM; seed < FROM + COUNT; seed++) {
    const text = mutated(seed);
    const start = performance.now();
    const { pattern, issues } = tryReadPattern(text, { file: `${seed}` });
    const took = performance.now() - start;
    if (took > slowest) [slowest, slowestSeed] = [took, seed];
    if (pattern === undefined) {
      expect(
        issues.some(({ severity }) => severity === 'error'),
        `${seed}`,
      ).toBe(true);
      expect(() => new FretlayError(issues), `${seed}`).not.toThrow();
      continue;
    }
    read++;
    // Numbers that are none become null, and no field of a pattern is null.
    expect(JSON.stringify([pattern, measurePattern(pattern)]), `${seed}`).not.toContain('null');
  }
  // Told, not judged: a test may not depend on the clock. A hang runs into the time limit of the test.
  console.info(`${COUNT} drawings, ${read} read, the slowest (${slowestSeed}) in ${slowest.toFixed(0)} ms`);
  expect(read).toBeGreaterThan(0.25 * COUNT);
});
