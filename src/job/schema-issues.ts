import type { z } from 'zod';
import type { Issue } from '../issues/issue.ts';

/** The issues of a failed check of a JSON file against its schema, each with its field. */
export function schemaIssues(error: z.ZodError, file: string, kind: string, remedy: string): Issue[] {
  return error.issues.flatMap((issue) => fieldIssues(issue, [], { file, kind, remedy }));
}

interface Context {
  readonly file: string;
  readonly kind: string;
  readonly remedy: string;
}

/** One issue of the schema library; a failed union is reported by its likeliest branch. */
function fieldIssues(issue: z.core.$ZodIssue, parents: readonly PropertyKey[], context: Context): Issue[] {
  const path = [...parents, ...issue.path];
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const branch = issue.errors.reduce((a, b) => (nearness(b) > nearness(a) ? b : a));
    const typed = branch.filter(({ code, path: at }) => !(code === 'invalid_type' && at.length === 0));
    if (typed.length > 0) return typed.flatMap((inner) => fieldIssues(inner, path, context));
  }
  const { file, kind, remedy } = context;
  return [
    {
      kind,
      severity: 'error',
      message: messageOf(issue),
      ...('expected' in issue ? { expected: String(issue.expected) } : {}),
      ...(issue.input === undefined ? {} : { received: shortJson(issue.input) }),
      remedy,
      where: { file, field: fieldName(path) },
    },
  ];
}

function messageOf(issue: z.core.$ZodIssue): string {
  return issue.code === 'unrecognized_keys'
    ? `unknown field ${issue.keys.map((key) => `"${key}"`).join(', ')}`
    : issue.message;
}

/** How near a branch came to fitting: deep into the value first, then a message of our own. */
function nearness(branch: readonly z.core.$ZodIssue[]): number {
  return 2 * depth(branch) + (branch.some(({ code }) => code === 'custom') ? 1 : 0);
}

function depth(issues: readonly z.core.$ZodIssue[]): number {
  return Math.max(0, ...issues.map(({ path }) => path.length));
}

function shortJson(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** `boards[2].size` from its path; the whole file is `(top level)`. */
function fieldName(path: readonly PropertyKey[]): string {
  if (path.length === 0) return '(top level)';
  return path
    .map((key, i) => (typeof key === 'number' ? `[${key}]` : `${i === 0 ? '' : '.'}${String(key)}`))
    .join('');
}
