import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Bundle, bundleOf } from './bundle.ts';

/** What applications take in, in the order of docs/bundle-sizes.md. */
const TAKEN: Readonly<Record<string, string>> = {
  'lengths as text': '{ parseLength, formatLength }',
  'measuring a pattern': '{ measurePart, measureLayer, measurePattern }',
  'reading a pattern': '{ readPattern }',
  'checking a layout': '{ readLayout, verifyLayout }',
  'laying out': '{ layOut }',
  'drawing placement sheets': '{ drawPlacementSheets }',
  everything: '*',
};

const page = fileURLToPath(new URL('../../docs/bundle-sizes.md', import.meta.url));

/** A page goes out of date when a size it states is off by more than this share. */
const TOLERANCE = 0.15;

describe('an application that takes part of the library', async () => {
  const bundles: Record<string, Bundle> = {};
  for (const [what, names] of Object.entries(TAKEN)) bundles[what] = await bundleOf(names);

  const folders = (bundle: Bundle) => [...new Set(bundle.files.map((file) => file.split('/')[1]))];

  it('has no engine, no reader and no package in it when it only measures', () => {
    const { files, packages, size } = bundles['measuring a pattern'];
    expect(packages).toEqual([]);
    expect(files.length).toBeGreaterThan(0);
    expect(files.filter((file) => !/^dist\/(pattern|geometry|units|issues|model)\//.test(file))).toEqual([]);
    // Most of it is what is said of a part that is none.
    expect(size).toBeLessThan(7000);
  });

  it('has no engine in it when it checks a layout, and no reference geometry when it lays one out', () => {
    expect(
      bundles['checking a layout'].files.filter((file) => /nesting\/(?!verify|reference)/.test(file)),
    ).toEqual([]);
    // The second tells which field a misspelt one was meant to be.
    expect(bundles['laying out'].packages).toEqual(['clipper-lib', 'fastest-levenshtein']);
    expect(folders(bundles['laying out'])).not.toContain('sheet');
    expect(folders(bundles['reading a pattern'])).not.toContain('nesting');
    expect(folders(bundles['drawing placement sheets'])).not.toContain('nesting');
  });

  it('is as large as docs/bundle-sizes.md says', async () => {
    const stated = statedSizes();
    const rows = Object.entries(bundles).map(([what, { size, compressed, packages }]) => {
      const sizes = kept([size, compressed], stated[what]).map((bytes) => kilobytes(bytes));
      return `| ${what} | \`${TAKEN[what]}\` | ${sizes.join(' | ')} | ${packages.join(', ') || 'none'} |`;
    });
    await expect(`${[...HEAD, ...rows].join('\n')}\n`).toMatchFileSnapshot(page);
  });
});

const HEAD = [
  '# How much of fretlay a web page takes in',
  '',
  'Minified bundles made by the tests (rolldown), in kilobytes of 1000 bytes; the sizes are right to 15 %. A page',
  'that imports one thing does not carry the rest.',
  '',
  '| for | imports | KB | KB compressed (gzip) | packages in it |',
  '|---|---|---:|---:|---|',
];

const kilobytes = (bytes: number): string => (bytes / 1000).toFixed(1);

/** The sizes on the page, bytes, by what they are for. */
function statedSizes(): Readonly<Record<string, number[] | undefined>> {
  const rows = readFileSync(page, 'utf8').matchAll(/^\| ([^|`]+?) \| `.*?` \| ([\d.]+) \| ([\d.]+) \|/gm);
  return Object.fromEntries(
    [...rows].map(([, what, ...sizes]) => [what, sizes.slice(0, 2).map((kb) => Number(kb) * 1000)]),
  );
}

/** The stated sizes as long as they are right, or else the measured ones. */
function kept(measured: readonly number[], stated: readonly number[] | undefined): readonly number[] {
  const isRight = stated?.every((size, i) => Math.abs(size - measured[i]) <= TOLERANCE * measured[i] + 100);
  return isRight ? stated! : measured;
}
