import { describe, expect, it } from 'vitest';
import { namelessTypes, publicNames } from './documented-exports.ts';

/** Words that tell what a number counts or is measured in. */
const UNIT =
  /\b(mm[23]?|degrees?|inch(es)?|feet|foot|kg|grams|minutes?|hours?|cents|money|currency|unit|share|ratio|factor|number of|how many|counted|from 1|thousands|index|points|copies|sets|boards|version|seed)\b|%/i;

/** A name tells its unit too: `boardFeet`, `copiesPerSet`. */
const inWords = (name: string) => name.replace(/.*\./, '').replace(/([A-Z])/g, ' $1');

describe('the reference', () => {
  const names = publicNames();

  it('documents every export', () => {
    expect(names.length).toBeGreaterThan(150);
    expect(names.filter(({ doc }) => doc.length < 10).map(({ name }) => name)).toEqual([]);
  });

  it('says what every function that refuses bad input throws', () => {
    const refusing = names.filter(({ refuses }) => refuses);
    expect(refusing.length).toBeGreaterThan(5);
    expect(
      refusing
        .filter(({ name, doc }) => !name.startsWith('try') && !/throws/i.test(doc))
        .map(({ name }) => name),
    ).toEqual([]);
  });

  it('has every type that an export names', () => {
    expect(namelessTypes()).toEqual([]);
  });

  it('says the unit of every numeric field', () => {
    const numeric = names.filter(({ isNumeric }) => isNumeric);
    expect(numeric.length).toBeGreaterThan(100);
    expect(
      numeric
        .filter(({ name, doc }) => !UNIT.test(`${inWords(name)} ${doc}`))
        .map(({ name, doc }) => `${name}: ${doc}`),
    ).toEqual([]);
  });
});
