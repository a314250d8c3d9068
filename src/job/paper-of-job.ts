import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { type PageOptions, pageSetups, ROLL_PAGE } from '../sheet/paper/page-setup.ts';
import type { Job } from './job-schema.ts';

/** What the sheets of a job are printed on: the paper it names, or the one of its unit. */
export function paperOf({ paper, unit }: Job): PageOptions {
  const { size, orientation, margin, overlap } = paper;
  return { paper: size ?? (unit === 'in' ? 'letter' : 'a4'), orientation, margin, overlap };
}

/** Says of paper on which nothing finds room what is wrong, before a long search whose layout could not be drawn. */
export function paperIssues(job: Job, file: string): Issue[] {
  try {
    pageSetups(paperOf(job), ROLL_PAGE);
    return [];
  } catch (error) {
    if (!(error instanceof FretlayError)) throw error;
    return error.issues.map((issue) => ({ ...issue, where: { ...issue.where, file } }));
  }
}
