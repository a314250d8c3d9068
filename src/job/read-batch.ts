import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { Pattern } from '../model/pattern.ts';
import { batchFromJob, type JoinedJob } from './batch-from-job.ts';
import type { Job } from './job-schema.ts';
import { inJob, readPatternStated } from './read-pattern-stated.ts';
import { type FilesOfJob, stockOfJob } from './stock-of-job.ts';

/** The batch of a job, with the pattern it was read from and the warnings and notes of both. */
export interface JobBatch extends JoinedJob {
  readonly pattern: Pattern;
}

/**
 * Reads a job with the files it names to the batch that is laid out.
 *
 * @param svgText the pattern
 * @throws FretlayError when the pattern, the boards or the job cannot be used
 */
export function readBatch(job: Job, svgText: string, files: FilesOfJob, file: string): JobBatch {
  const { pattern, issues: patternIssues } = readPatternStated(svgText, job.pattern, inJob(file));
  const { boards, forSale, issues: stockIssues } = stockOfJob(job, files, file);
  throwOnErrors(stockIssues);
  const joined = batchFromJob({ ...job, boards, forSale }, pattern, file);
  const issues = inTheirFile(joined.issues, job, boards);
  throwOnErrors(issues);
  return { ...joined, pattern, issues: [...patternIssues, ...stockIssues, ...issues] };
}

/**
 * What is told of whole boards, each with the file that it stands in: nobody finds a board of the rack in the job.
 *
 * @param boards of the job and its rack
 */
function inTheirFile(
  issues: readonly Issue[],
  job: Job,
  boards: readonly { readonly id: string }[],
): readonly Issue[] {
  const own = new Set(job.boards.map(({ id }) => id));
  const ofRack = new Set(boards.flatMap(({ id }) => (own.has(id) ? [] : [id])));
  return issues.map((issue) => {
    const { where } = issue;
    return where?.board !== undefined && where.field === undefined && ofRack.has(where.board)
      ? { ...issue, where: { ...where, file: job.rack } }
      : issue;
  });
}
