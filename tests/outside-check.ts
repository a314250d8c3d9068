import { expect, TestRunner } from 'vitest';

/** Checks against what others have published: asserted in the test, and listed in docs/checks.md. */

type Value = number | string | readonly number[] | readonly string[];

export interface OutsideCheck {
  /** What is checked, with its unit. */
  readonly what: string;
  /** Where the expected value stands, or the closed form, or the library that gives it. */
  readonly source: string;
  readonly expected: Value;
  readonly found: Value;
  /** Greatest difference of a number; 0, the default, where they have to be the same. */
  readonly tolerance?: number;
}

/** A check as the page shows it. */
export interface CheckRow {
  readonly what: string;
  readonly source: string;
  readonly expected: string;
  readonly found: string;
  readonly tolerance: string;
}

declare module 'vitest' {
  interface TaskMeta {
    outsideChecks?: CheckRow[];
  }
}

/** Asserts that `found` is `expected` within the tolerance, and records the check for the page. */
export function outsideCheck({ what, source, expected, found, tolerance = 0 }: OutsideCheck): void {
  const wanted = [expected].flat();
  const got = [found].flat();
  expect(got.length, what).toBe(wanted.length);
  wanted.forEach((value, i) => {
    const other = got[i];
    if (typeof value === 'number' && typeof other === 'number') {
      // Written so that NaN fails.
      expect(Math.abs(other - value) <= tolerance, `${what}: ${other}, not ${value}`).toBe(true);
    } else {
      expect(other, what).toBe(value);
    }
  });
  const test = TestRunner.getCurrentTest();
  if (test === undefined) throw new Error('an outside check belongs inside a test');
  test.meta.outsideChecks ??= [];
  test.meta.outsideChecks.push({
    what,
    source,
    expected: inWords(wanted),
    found: inWords(got),
    tolerance: tolerance === 0 ? 'exact' : inWords([tolerance]),
  });
}

function inWords(values: readonly (number | string)[]): string {
  return values
    .map((value) => (typeof value === 'number' ? String(Number(value.toPrecision(7))) : value))
    .join(', ');
}
