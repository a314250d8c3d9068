import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, test } from 'vitest';
import { tryReadDrawing } from '../../src/svg/read-drawing.ts';
import { filledArea, paintedBounds, paintedShapes } from './drawn.ts';

/**
 * One fixture, one issue: `fixtures/svg/facts.json` says for each file what comes out of it and by which rule of
 * which standard, in closed form.
 */
interface Facts {
  readonly why: string;
  /** Page in mm, or null when none is stated or the file is refused. */
  readonly page: readonly [number, number] | null;
  readonly shapes?: number;
  readonly area?: number;
  readonly box?: readonly [number, number, number, number];
  /** Kinds of all issues in order: none beside them may turn up. */
  readonly issues: readonly string[];
}

const folder = join(import.meta.dirname, '../../fixtures/svg');
const facts = JSON.parse(readFileSync(join(folder, 'facts.json'), 'utf8')) as Record<string, Facts>;

test('every fixture has its facts and every fact its fixture', () => {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.svg'))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replace(/\.svg$/, ''));
  expect(files.sort()).toEqual(Object.keys(facts).sort());
});

test.each(Object.entries(facts))('%s', (name, { page, shapes, area, box, issues }) => {
  const result = tryReadDrawing(readFileSync(join(folder, `${name}.svg`), 'utf8'), { file: name });
  expect(result.issues.map(({ kind }) => kind)).toEqual(issues);
  for (const issue of result.issues) expect(issue.where?.file).toBe(name);
  const { drawing } = result;
  if (shapes === undefined) {
    expect(drawing).toBeUndefined();
    return;
  }
  if (drawing === undefined) throw new Error('no drawing');
  expect(drawing.page === undefined ? null : [drawing.page.width, drawing.page.height]).toEqual(
    page === null ? null : page.map((side) => expect.closeTo(side, 9)),
  );
  expect(paintedShapes(drawing.root)).toHaveLength(shapes);
  // Round shapes are flattened to 0.0001 mm: the area of their chords is short by less than one in 10,000.
  if (area !== undefined) {
    const found = filledArea(drawing);
    expect(Math.abs(found - area)).toBeLessThanOrEqual(1e-4 * area + 1e-3);
  }
  if (box !== undefined) {
    const { minX, minY, maxX, maxY } = paintedBounds(drawing);
    expect([minX, minY, maxX, maxY]).toEqual(box.map((side) => expect.closeTo(side, 3)));
  }
});
