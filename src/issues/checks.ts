import type { Issue } from './issue.ts';
import { type NumberLimits, numberIssue } from './number-issue.ts';
import { wrongValue } from './wrong-value.ts';

/**
 * What may be handed to the library, as checks that are put together the way the data are. The compiler sees to it in
 * TypeScript; from plain JavaScript, or past a type assertion, anything comes in, and a value that makes no sense is
 * better told by its field than met again as a layout or a price. Checked is what would be used, so a check stays
 * cheap; fields that nobody asks for are not looked at.
 */

/** Tells what is wrong with the value of a field; nothing when it can be used. */
export type Check = (field: string, value: unknown) => readonly Issue[];

const NONE: readonly Issue[] = [];
/** Faults of one list after which the rest of it is not looked at: points of another form are a hundred thousand of one fault. */
const MOST_TOLD = 100;
const FROM_MAP = 'Hand in `Object.fromEntries(map)`.';
const MAY_BE_LEFT_OUT = 'Leave it out to have the usual one.';

/** A number within limits. */
export function number(limits: NumberLimits, remedy?: string): Check {
  return (field, value) => {
    const issue = numberIssue(field, value, limits, remedy);
    return issue === undefined ? NONE : [issue];
  };
}

/** What passes a test of its own. */
export function that(isFit: (value: unknown) => boolean, expected: string, remedy?: string): Check {
  return (field, value) => (isFit(value) ? NONE : [wrongValue(field, value, expected, remedy)]);
}

/** A text that is more than blanks, as a name or a word has to be. */
export function text(remedy?: string): Check {
  return that(
    (value) => typeof value === 'string' && value.trim() !== '',
    'a text that is not empty',
    remedy,
  );
}

/** A text, an empty one too. */
export function words(remedy?: string): Check {
  return that((value) => typeof value === 'string', 'a text', remedy);
}

/** True or false. */
export function flag(): Check {
  return that((value) => typeof value === 'boolean', 'true or false');
}

/** One of the words. */
export function oneOf(words: readonly string[], remedy?: string): Check {
  const expected = `one of ${words.map((word) => `"${word}"`).join(', ')}`;
  return that((value) => typeof value === 'string' && words.includes(value), expected, remedy);
}

/** The unit a maker reads results in. */
export const displayUnit: Check = oneOf(['mm', 'in']);

/** A function. */
export function callable(): Check {
  return that((value) => typeof value === 'function', 'a function');
}

/** What may be left out; when it is there, it passes the check. */
export function optional(check: Check): Check {
  return (field, value) => (value === undefined ? NONE : withRemedy(check(field, value), MAY_BE_LEFT_OUT));
}

/** An object whose fields pass their checks; what `remedy` says holds for fields that say nothing of their own. */
export function record(checks: Readonly<Record<string, Check>>, remedy?: string): Check {
  const entries = Object.entries(checks);
  return (field, value) => {
    if (!isRecord(value)) return [wrongValue(field, value, 'an object', remedy)];
    const issues: Issue[] = [];
    for (const [name, check] of entries) {
      const place = `${field}.${name}`;
      if (isOnPrototype(value, name)) issues.push(onPrototype(place, value[name]));
      else issues.push(...check(place, value[name]));
    }
    return withRemedy(issues, remedy);
  };
}

/** A list whose every element passes the check. */
export function listOf(check: Check, remedy?: string): Check {
  return (field, value) => {
    if (!Array.isArray(value)) return [wrongValue(field, value, 'a list', remedy)];
    const issues: Issue[] = [];
    // By number, so that a gap in the list is looked at too.
    for (let i = 0; i < value.length && issues.length < MOST_TOLD; i++)
      issues.push(...check(`${field}[${i}]`, value[i]));
    return issues;
  };
}

/** An object that has whatever names as its fields, each value of which passes the check. */
export function mapOf(check: Check, remedy?: string): Check {
  return (field, value) => {
    if (!isRecord(value)) return [wrongValue(field, value, 'an object', remedy)];
    // It has no fields, and all that is in it would be passed over.
    if (value instanceof Map)
      return [{ ...wrongValue(field, value, 'a plain object', FROM_MAP), received: 'a Map' }];
    return Object.entries(value).flatMap(([name, each]) => check(`${field}.${name}`, each));
  };
}

/** A value that passes all of the checks; the later ones are asked only when the earlier have nothing to tell. */
export function both(first: Check, second: Check): Check {
  return (field, value) => {
    const issues = first(field, value);
    return issues.length > 0 ? issues : second(field, value);
  };
}

/** True for an object that is no list. */
export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Whether an object has a field that is lost where the object is copied: of its prototype, or hidden. */
function isOnPrototype(value: Readonly<Record<string, unknown>>, name: string): boolean {
  return value[name] !== undefined && !Object.prototype.propertyIsEnumerable.call(value, name);
}

function onPrototype(field: string, value: unknown): Issue {
  return {
    ...wrongValue(field, value, 'a field of the object itself', 'Hand in a plain object: `{ ...fields }`.'),
    message: 'this field is on the prototype of its object, or hidden, and would be lost',
  };
}

function withRemedy(issues: readonly Issue[], remedy: string | undefined): readonly Issue[] {
  if (remedy === undefined || issues.length === 0) return issues;
  return issues.map((issue) => (issue.remedy === undefined ? { ...issue, remedy } : issue));
}
