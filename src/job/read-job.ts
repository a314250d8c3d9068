import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { type Job, jobSchema } from './job-schema.ts';
import { parseJson } from './parse-json.ts';
import { schemaIssues } from './schema-issues.ts';
import { withUnit } from './unit-of-job.ts';

/**
 * Reads and checks the text of a job file.
 *
 * @throws FretlayError that names every wrong field
 */
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
  const json = parseJson(text, file, 'job');
  if (!json.ok) return { job: undefined, issues: [json.issue] };
  const checked = jobSchema.safeParse(withUnit(json.value), { reportInput: true });
  return checked.success
    ? { job: checked.data, issues: [] }
    : {
        job: undefined,
        issues: schemaIssues(checked.error, {
          schema: jobSchema,
          file,
          kind: 'job-field-invalid',
          remedy: 'See docs/job-file.md for every field.',
        }),
      };
}
