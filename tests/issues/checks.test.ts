import { describe, expect, it } from 'vitest';
import { listOf, mapOf, number, words } from '../../src/issues/checks.ts';
import { LENGTH } from '../../src/issues/number-issue.ts';
import { wrongValue } from '../../src/issues/wrong-value.ts';

describe('listOf', () => {
  it('tells a hundred faults of a list, however long it is', () => {
    const points = new Array(200_000).fill('3 mm');
    const told = listOf(listOf(number(LENGTH)))('outlines', [points, [1], points]);
    expect(told.map(({ where }) => where?.field)).toEqual(
      Array.from({ length: 100 }, (_, i) => `outlines[0][${i}]`),
    );
  });
});

describe('mapOf', () => {
  it('refuses a Map, of which no field would be seen', () => {
    const files = mapOf(words());
    expect(files('files', { 'rack.json': '{}' })).toEqual([]);
    expect(files('files', new Map([['rack.json', '{}']]))).toMatchObject([
      { received: 'a Map', remedy: 'Hand in `Object.fromEntries(map)`.', where: { field: 'files' } },
    ]);
  });
});

describe('wrongValue', () => {
  it('shows how a long text begins', () => {
    const { received } = wrongValue('options', `<svg>${'x'.repeat(5000)}`, 'an object');
    expect(received).toBe(`"<svg>${'x'.repeat(95)}" and on, 5005 letters`);
    expect(wrongValue('unit', 'cm', 'mm').received).toBe('"cm"');
  });
});
