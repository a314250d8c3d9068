import { expect, test } from 'vitest';
import { UniqueNames } from '../../src/pattern/unique-names.ts';

test('a name that is taken gets the next free number behind it', () => {
  const names = new UniqueNames();
  const given = ['leaf 2', 'leaf', 'leaf', 'leaf 2', 'leaf'].map((name) => names.give(name));
  expect(given).toEqual(['leaf 2', 'leaf', 'leaf 3', 'leaf 2 2', 'leaf 4']);
});

test('a hundred thousand parts of one name are numbered one after the other', () => {
  const names = new UniqueNames();
  const given = Array.from({ length: 100_000 }, () => names.give('leaf'));
  expect(given.slice(-1)).toEqual(['leaf 100000']);
  expect(new Set(given).size).toBe(100_000);
});
