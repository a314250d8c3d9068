import type { z } from 'zod';
import { nearestName } from '../issues/nearest-name.ts';
import { unitNamed } from '../units/length.ts';

/** What is wrong with a field of a JSON file, in the words of a person instead of the schema library's. */

/** What the value is, and what it should have been. */
export interface FieldFault {
  readonly message: string;
  readonly expected?: string;
}

/** See the top of the file. Messages of our own fields pass as they are. */
export function faultOf(issue: z.core.$ZodIssue): FieldFault {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? { message: 'this field is missing', expected: typeWords(issue.expected) }
        : { message: 'this is of the wrong type', expected: typeWords(issue.expected) };
    case 'invalid_value':
      return { message: unknownValue(issue), expected: oneOf(issue.values) };
    case 'too_small':
      return limitFault('too small', issue.origin, least(issue));
    case 'too_big':
      return limitFault('too large', issue.origin, ownWords(issue) ?? most(issue));
    case 'not_multiple_of':
      return { message: 'this is not a whole number', expected: `a multiple of ${issue.divisor}` };
    case 'invalid_union':
      return unionFault(issue);
    case 'custom':
      return typeof issue.params?.expected === 'string'
        ? { message: issue.message, expected: issue.params.expected }
        : { message: issue.message };
    default:
      return { message: issue.message };
  }
}

/** With the word that is likely meant: capitals count, and are the commonest slip. */
function unknownValue({ input, values }: z.core.$ZodIssueInvalidValue): string {
  const meant = likeliestValue(input, values);
  return `this value is not known${meant === undefined ? '' : `; did you mean "${meant}"?`}`;
}

/** Which of the words that a field may have was likely meant: units by any name, sizes only with the same digits. */
export function likeliestValue(input: unknown, values: readonly unknown[]): string | undefined {
  if (typeof input !== 'string') return undefined;
  const words = values.filter((value) => typeof value === 'string');
  const unit = unitNamed(input);
  if (unit !== undefined && words.includes(unit)) return unit;
  return nearestName(
    input,
    words.filter((word) => digitsOf(word) === digitsOf(input)),
  );
}

function digitsOf(text: string): string {
  return text.replace(/\D/g, '').split('').sort().join('');
}

/** What the schema library says of a union that has no words of its own. */
const NO_WORDS = 'Invalid input';

/** True for a union of which its field says in words of its own what it may be. */
export function hasWords({ message }: z.core.$ZodIssueInvalidUnion): boolean {
  return message !== NO_WORDS;
}

/** A value in none of its forms: in the words of the field where it has some, else by the types it may have. */
function unionFault(union: z.core.$ZodIssueInvalidUnion): FieldFault {
  const { message, errors, input } = union;
  const listed = errors.flat().flatMap((issue) => (issue.code === 'invalid_value' ? issue.values : []));
  const meant = likeliestValue(input, listed);
  const guess = meant === undefined ? '' : `; did you mean "${meant}"?`;
  const unfit = listed.length > 0 ? `this value is not known${guess}` : 'this is of the wrong type';
  const wrong = input === undefined ? 'this field is missing' : unfit;
  if (hasWords(union)) return { message: wrong, expected: message };
  const types = errors.flatMap((branch) =>
    branch.flatMap((issue) => (issue.code === 'invalid_type' ? [typeWords(issue.expected)] : [])),
  );
  return types.length === 0
    ? { message: 'this is in none of the forms it may have' }
    : { message: wrong, expected: [...new Set(types)].join(' or ') };
}

/** How a text, a list or a number misses a limit. */
function limitFault(how: 'too small' | 'too large', origin: string, limit: string): FieldFault {
  if (origin === 'string')
    return how === 'too small' && limit === 'at least 1'
      ? { message: 'this text is empty' }
      : {
          message: `this text is too ${how === 'too small' ? 'short' : 'long'}`,
          expected: `${limit} characters`,
        };
  if (origin === 'array')
    return {
      message: `this list is too ${how === 'too small' ? 'short' : 'long'}`,
      expected: `${limit} entries`,
    };
  return { message: `this number is ${how}`, expected: limit };
}

/** What a field says in words of its own that it may be at most; the schema library's words begin with what is wrong. */
function ownWords({ message }: z.core.$ZodIssueTooBig): string | undefined {
  return message.startsWith('Too big') ? undefined : message;
}

function least({ minimum, inclusive }: z.core.$ZodIssueTooSmall): string {
  return inclusive === false ? `more than ${minimum}` : `at least ${minimum}`;
}

function most({ maximum, inclusive }: z.core.$ZodIssueTooBig): string {
  return inclusive === false ? `less than ${maximum}` : `at most ${maximum}`;
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in [ ]',
  tuple: 'a list in [ ]',
  object: 'fields in { }',
  record: 'fields in { }',
};

function typeWords(type: string): string {
  return TYPE_WORDS[type] ?? type;
}

function oneOf(values: readonly unknown[]): string {
  const list = values.map((value) => JSON.stringify(value));
  return list.length === 1 ? list[0] : `one of ${list.join(', ')}`;
}
