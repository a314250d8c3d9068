import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { optimize } from 'svgo';
import { expect, test } from 'vitest';
import { readPattern } from '../../src/job/read-pattern.ts';
import { measurePattern } from '../../src/pattern/measure.ts';

/**
 * A drawing written anew by an SVG optimiser (svgo, its default settings with three decimals) is the same pattern:
 * shapes become paths, transforms are worked in, commands are shortened, and area and cut length stay.
 */
const root = join(import.meta.dirname, '../..');
const FILES = [
  'fixtures/lake-shore/pattern.svg',
  'fixtures/first-cut/pattern.svg',
  ...readdirSync(join(root, 'node_modules/bootstrap-icons/icons'))
    .filter((file, i) => file.endsWith('-fill.svg') && i % 40 === 0)
    .map((file) => `node_modules/bootstrap-icons/icons/${file}`),
];

test.each(FILES)('%s', (file) => {
  const text = readFileSync(join(root, file), 'utf8');
  const written = optimize(text, { path: file, multipass: true, floatPrecision: 3 }).data;
  expect(written.length).toBeLessThan(text.length + 1);
  const measure = (svg: string) =>
    measurePattern(readPattern(svg, { file, finishedSize: { side: 'width', length: 200 } }).pattern);
  const before = measure(text);
  const after = measure(written);
  expect(Math.abs(after.area / before.area - 1)).toBeLessThan(2e-3);
  expect(Math.abs(after.cutLength / before.cutLength - 1)).toBeLessThan(2e-3);
  expect(after.openings).toBe(before.openings);
});
