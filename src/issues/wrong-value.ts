import type { Issue } from './issue.ts';

/** Elements of a short list, such as a point, that are shown one by one. */
const MOST_SHOWN = 3;

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
  if (typeof value === 'string') return JSON.stringify(value);
  if (Array.isArray(value)) {
    const isShort = value.length <= MOST_SHOWN && value.every((each) => !Array.isArray(each));
    return isShort ? `[${Array.from(value, foundWords).join(', ')}]` : `a list of ${value.length}`;
  }
  // An object would be written "[object Object]", which says less than its type does.
  return typeof value === 'number' || typeof value === 'boolean' || value === null
    ? `${value}`
    : typeof value;
}
