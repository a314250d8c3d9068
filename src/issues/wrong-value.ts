import type { Issue } from './issue.ts';

/** Elements of a short list, such as a point, that are shown one by one. */
const MOST_SHOWN = 3;

/** Letters of a text that are shown: a whole file handed over as something else would hide what is said of it. */
const LONGEST_SHOWN = 100;

/** The issue of a value handed to the library that cannot be used, told by its field. */
export function wrongValue(field: string, value: unknown, expected: string, remedy?: string): Issue {
  return {
    kind: 'option-invalid',
    severity: 'error',
    message: value === undefined ? 'this field is missing' : 'this value makes no sense',
    expected,
    received: foundWords(value),
    ...(remedy === undefined ? {} : { remedy }),
    where: { field },
  };
}

/** A value in words for a message: as it would be typed where that is short, else what it is. */
export function foundWords(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string')
    return value.length <= LONGEST_SHOWN
      ? JSON.stringify(value)
      : `${JSON.stringify(value.slice(0, LONGEST_SHOWN))} and on, ${value.length} letters`;
  if (Array.isArray(value)) {
    const isShort = value.length <= MOST_SHOWN && value.every((each) => !Array.isArray(each));
    return isShort ? `[${Array.from(value, foundWords).join(', ')}]` : `a list of ${value.length}`;
  }
  // An object would be written "[object Object]", which says less than its type does.
  return typeof value === 'number' || typeof value === 'boolean' || value === null
    ? `${value}`
    : typeof value;
}
