import type { z } from 'zod';
import { firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { fieldsNotBeside, knownFields, likeliestField } from './known-fields.ts';
import { faultOf, hasWords, likeliestValue } from './schema-words.ts';

/** Fields that a message names: of more it says how many more there are. */
const MOST_NAMED = 20;

/** The file that was checked, and how its issues are to be told. */
export interface CheckedFile {
  readonly schema: z.ZodType;
  readonly file: string;
  readonly kind: string;
  readonly remedy: string;
}

/** The issues of a failed check of a JSON file against its schema, each with its field. */
export function schemaIssues(error: z.ZodError, checked: CheckedFile): Issue[] {
  return error.issues.flatMap((issue) => fieldIssues(issue, [], checked));
}

/** The issues of one of the schema library; a failed union is reported by its likeliest branch. */
function fieldIssues(
  issue: z.core.$ZodIssue,
  parents: readonly PropertyKey[],
  checked: CheckedFile,
): Issue[] {
  const path = [...parents, ...issue.path];
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const branch =
      issue.errors.find((each) => isMisspeltWord(each, issue.input)) ??
      issue.errors.reduce((a, b) => (isNearer(b, a) ? b : a));
    const typed = branch.filter(({ code, path: at }) => !(code === 'invalid_type' && at.length === 0));
    // The values of one form are not all that the field may have: its own words name the others.
    const isValue = typed.every(({ code, path: at }) => code === 'invalid_value' && at.length === 0);
    if (!(isValue && hasWords(issue)) && typed.length > 0)
      return typed.flatMap((inner) => fieldIssues(inner, path, checked));
  }
  const { file, kind, remedy } = checked;
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      kind,
      severity: 'error',
      ...unknownField(checked, path, key, Object.keys(issue.input ?? {})),
      remedy,
      where: { file, field: fieldName([...path, key]) },
    }));
  }
  return [
    {
      kind,
      severity: 'error',
      ...faultOf(issue),
      ...(isNotAsWritten(issue) ? {} : { received: shortJson(issue.input) }),
      remedy,
      where: { file, field: fieldName(path) },
    },
  ];
}

function unknownField(
  { schema }: CheckedFile,
  path: readonly PropertyKey[],
  key: string,
  fields: readonly string[],
): Pick<Issue, 'message' | 'expected'> {
  const meant = likeliestField(schema, path, key);
  // A field of another form of the value: an offer by grade has no length.
  if (meant === key) {
    const others = fieldsNotBeside(schema, path, key, fields).map((field) => `"${field}"`);
    return {
      message: `this field does not go with ${others.join(' and ')}: leave out the one or the other`,
    };
  }
  if (meant !== undefined) return { message: `there is no such field; did you mean "${meant}"?` };
  const known = knownFields(schema, path).map((field) => `"${field}"`);
  return { message: 'there is no such field', expected: `one of ${firstFew(known, MOST_NAMED)}` };
}

/**
 * True for what the person did not write: a missing field, an empty default, or the fields that a rule of our own
 * is about, for such a rule sees them with every default filled in and every length in mm.
 */
function isNotAsWritten({ code, input }: z.core.$ZodIssue): boolean {
  if (input === undefined || (Array.isArray(input) && input.length === 0)) return true;
  return code === 'custom' && typeof input === 'object' && !Array.isArray(input);
}

/** True for a branch of words of which one was likely meant: `Blade` was to be no length. */
function isMisspeltWord(branch: readonly z.core.$ZodIssue[], input: unknown): boolean {
  return branch.every(
    (issue) =>
      issue.code === 'invalid_value' &&
      issue.path.length === 0 &&
      likeliestValue(input, issue.values) !== undefined,
  );
}

/** True when one branch came nearer to fitting than another. Of two forms of objects the one that knows more of the fields is meant. */
function isNearer(one: readonly z.core.$ZodIssue[], other: readonly z.core.$ZodIssue[]): boolean {
  const [unknown, unknownOfOther] = [unknownFields(one), unknownFields(other)];
  if (unknown !== undefined && unknownOfOther !== undefined && unknown !== unknownOfOther)
    return unknown < unknownOfOther;
  return nearness(one) > nearness(other);
}

/** How many of the fields a branch does not know; undefined where it is no form of objects. */
function unknownFields(branch: readonly z.core.$ZodIssue[]): number | undefined {
  if (branch.some(({ code, path }) => code === 'invalid_type' && path.length === 0)) return undefined;
  return branch.reduce(
    (sum, issue) =>
      sum + (issue.code === 'unrecognized_keys' && issue.path.length === 0 ? issue.keys.length : 0),
    0,
  );
}

/** How near a branch came to fitting: deep into the value first, then a message of our own. */
function nearness(branch: readonly z.core.$ZodIssue[]): number {
  return 2 * depth(branch) + (branch.some(({ code }) => code === 'custom') ? 1 : 0);
}

/** How far into the value the deepest fault of a branch lies: what is right so far was meant to be that. */
function depth(issues: readonly z.core.$ZodIssue[]): number {
  return Math.max(0, ...issues.map(({ path }) => path.length));
}

/** A value as the person wrote it, cut off where it would fill the screen. */
function shortJson(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** `boards[2].size` from its path; the whole file is `(top level)`. */
export function fieldName(path: readonly PropertyKey[]): string {
  if (path.length === 0) return '(top level)';
  return path
    .map((key, i) => (typeof key === 'number' ? `[${key}]` : `${i === 0 ? '' : '.'}${String(key)}`))
    .join('');
}
