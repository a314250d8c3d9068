import { line, place, rings } from '../geometry/point-checks.ts';
import { both, type Check, listOf, number, oneOf, optional, record, that, words } from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { FINITE, LENGTH, SOME_LENGTH } from '../issues/number-issue.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import type { Pattern } from './pattern.ts';
import { isSamePart, type PartName } from './same-part.ts';

/** Checks of a pattern, and of what its check found, that are handed in. */

const PATTERN = 'Hand in the pattern of `readPattern`.';

const part: Check = record({ name: words(), layer: words(), region: rings, veins: listOf(line) });

/** One part of a pattern. */
export const partCheck: Check = both(record({}, 'Hand in a part of the pattern of `readPattern`.'), part);

/** A layer of a pattern with its parts. */
export const layerCheck: Check = record(
  { name: words(), parts: listOf(part) },
  'Hand in a layer of the pattern of `readPattern`.',
);

/** A whole pattern. */
export const patternCheck: Check = record(
  {
    layers: listOf(layerCheck, PATTERN),
    leftOut: optional(listOf(record({ name: words(), why: oneOf(['switched off', 'no parts']) }))),
  },
  PATTERN,
);

/** What tells that a pattern, looked at already, is another one than these parts are of: it has no such part. */
export function foreignPattern(field: string, pattern: Pattern, parts: readonly PartName[]): Issue[] {
  const drawn = pattern.layers.flatMap(({ name: layer, parts }) =>
    parts.map(({ name: part }) => ({ layer, part })),
  );
  const missing = parts.find((part) => !drawn.some((each) => isSamePart(each, part)));
  if (missing === undefined) return [];
  const expected = `the pattern that was laid out, with a part "${missing.part}" in a layer "${missing.layer}"`;
  return [wrongValue(field, pattern, expected, 'Hand in the pattern that the layout was made of.')];
}

const FOUND = 'Hand in what `checkPattern` gave.';

/** The two sides of a neck. */
const span = both(
  that((value) => Array.isArray(value) && value.length === 2, 'a list of two points [x, y]'),
  listOf(place),
);

/** One place that the check of a pattern found. */
export const findingCheck: Check = record({
  kind: words(),
  severity: oneOf(['warning', 'note']),
  layer: words(),
  part: words(),
  at: place,
  span: optional(span),
  message: words(),
  size: number(FINITE),
});

const someFindings = both(
  that((value) => Array.isArray(value) && value.length > 0, 'a list of one finding or more'),
  listOf(findingCheck),
);

/** Findings that are told together. */
export const findingGroupCheck: Check = record(
  { findings: someFindings, parts: listOf(words()), message: words(), advice: words() },
  FOUND,
);

/** What the check of a pattern found. */
export const foundCheck: Check = record(
  {
    saw: record({ kerf: number(LENGTH), bladeWidth: number(SOME_LENGTH), hole: number(SOME_LENGTH) }),
    findings: listOf(findingCheck),
    groups: listOf(findingGroupCheck),
    parts: listOf(
      record({
        layer: words(),
        part: words(),
        sharpTurns: number({ ...FINITE, least: 0, whole: true }),
        thinnestNeck: optional(number(LENGTH)),
      }),
    ),
  },
  FOUND,
);
