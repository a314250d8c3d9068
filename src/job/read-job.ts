import type { z } from 'zod';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { type Job, jobSchema } from './job-schema.ts';
import { parseJson } from './parse-json.ts';

/** Reads and checks the text of a job file. Throws a FretlayError that names every wrong field. */
export function readJob(text: string, file = 'job.json'): Job {
  const { job, issues } = tryReadJob(text, file);
  if (job === undefined) throw new FretlayError(issues);
  return job;
}

/** Like {@link readJob}, with every problem given back as an issue. */
export function tryReadJob(
  text: string,
  file = 'job.json',
): { readonly job: Job | undefined; readonly issues: readonly Issue[] } {
  const json = parseJson(text, file);
  if (!json.ok) return { job: undefined, issues: [json.issue] };
  const checked = jobSchema.safeParse(json.value, { reportInput: true });
  if (checked.success) return { job: checked.data, issues: [] };
  return { job: undefined, issues: checked.error.issues.flatMap((issue) => fieldIssues(issue, [], file)) };
}

/** An issue of the schema library as issues of ours; a failed union is reported by its likeliest branch. */
function fieldIssues(issue: z.core.$ZodIssue, parents: readonly PropertyKey[], file: string): Issue[] {
  const path = [...parents, ...issue.path];
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const branch = issue.errors.reduce((a, b) => (b.length < a.length || depth(b) > depth(a) ? b : a));
    const typed = branch.filter(({ code, path: at }) => !(code === 'invalid_type' && at.length === 0));
    if (typed.length > 0) return typed.flatMap((inner) => fieldIssues(inner, path, file));
  }
  return [
    {
      kind: 'job-field-invalid',
      severity: 'error',
      message:
        issue.code === 'unrecognized_keys'
          ? `unknown field ${issue.keys.map((key) => `"${key}"`).join(', ')}`
          : issue.message,
      ...('expected' in issue ? { expected: String(issue.expected) } : {}),
      ...(issue.input === undefined ? {} : { received: shortJson(issue.input) }),
      remedy: 'See docs/job-file.md for every field.',
      where: { file, field: fieldName(path) },
    },
  ];
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
