import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { withOutlines } from './board-drawings.ts';
import type { JobBoard } from './board-schema.ts';
import { defectIssues, partedIssues } from './defect-issues.ts';
import { entryField } from './entry-field.ts';
import { entriesCheck } from './job-check.ts';
import type { Job } from './job-schema.ts';
import { outlineIssues } from './outline-issues.ts';
import { priceIssues } from './price-issues.ts';
import { readRack } from './rack.ts';
import { repeatedIdIssues } from './repeated-ids.ts';
import { usedBeforeIssues } from './taken-of-jobs.ts';

/** Text of the other files a job names, by the name as written there. */
export type FilesOfJob = Readonly<Record<string, string>>;

/** The boards at hand, those for sale, and what reading them told. */
export interface StockOfJob {
  readonly boards: JobBoard[];
  readonly forSale: JobBoard[];
  readonly issues: Issue[];
}

/** All boards a job may take: those of its rack and its own, traced ones with their outline. */
export function stockOfJob(job: Job, files: FilesOfJob, file: string): StockOfJob {
  const own = listed(job.boards, files, file, 'boards');
  const forSale = listed(job.forSale, files, file, 'forSale');
  const issues = [...own.issues, ...forSale.issues, ...repeatedIdIssues(job, file)];
  if (job.rack === undefined) return { boards: own.boards, forSale: forSale.boards, issues };
  if (!Object.hasOwn(files, job.rack)) {
    const issue: Issue = {
      kind: 'rack-not-at-hand',
      severity: 'error',
      message: 'the job takes boards from a rack that is not at hand',
      expected: 'the text of the rack file',
      received: `"${job.rack}"`,
      remedy: 'Hand its text over with the other files of the job, by the name as written there.',
      where: { file, field: 'rack' },
    };
    return { boards: own.boards, forSale: forSale.boards, issues: [...issues, issue] };
  }
  const { boards: entries, takenOfJobs } = readRack(files[job.rack], job.rack);
  const rack = listed(entries, files, job.rack, 'boards');
  const isEmpty = [...rack.boards, ...own.boards, ...forSale.boards].length === 0;
  return {
    boards: [...rack.boards, ...own.boards],
    forSale: forSale.boards,
    issues: [
      ...(isEmpty ? [nothingAtHand(job.rack)] : []),
      ...rack.issues,
      ...issues,
      ...namedInRack(job.boards, rack.boards, file, 'boards'),
      ...namedInRack(job.forSale, rack.boards, file, 'forSale'),
      ...usedBeforeIssues(job.boards, takenOfJobs, file),
    ],
  };
}

/** A rack that is used up, of a job without boards of its own: told once, and not of every layer that its wood is missing. */
function nothingAtHand(rack: string): Issue {
  return {
    kind: 'rack-empty',
    severity: 'error',
    message: 'the rack holds no board, and the job names none',
    expected: 'at least one board',
    remedy:
      'Enter what you have in the rack, or under "boards" of the job; what may be bought stands under "forSale".',
    where: { file: rack, field: 'boards' },
  };
}

/** Entries of the job that have the id of one of its rack: both lists are one later, and their places no longer known. */
function namedInRack(
  entries: readonly JobBoard[],
  rack: readonly JobBoard[],
  file: string,
  field: string,
): Issue[] {
  const known = new Set(rack.map(({ id }) => id));
  return entries.flatMap(({ id }, i): Issue[] =>
    known.has(id)
      ? [
          {
            kind: 'board-id-repeated',
            severity: 'error',
            message: 'an entry of the rack has this id already',
            expected: 'an id of its own',
            received: `"${id}"`,
            remedy: 'Give this one another id: what the batch takes, buys and leaves is told by it.',
            where: { file, field: `${entryField(field, entries, i)}.id` },
          },
        ]
      : [],
  );
}

/** The boards of one list with their outlines, and what is wrong or odd about outlines, defects and prices. */
function listed(
  entries: readonly JobBoard[],
  files: FilesOfJob,
  file: string,
  field: string,
): Pick<StockOfJob, 'boards' | 'issues'> {
  const { boards, issues } = withOutlines(entries, files, file, field);
  const wrong = outlineIssues(entries, boards, file, field);
  // What covers nothing would be told as lying off its board too.
  const odd =
    wrong.length > 0 ? [] : [...defectIssues(boards, file, field), ...partedIssues(boards, file, field)];
  return { boards, issues: [...issues, ...wrong, ...odd, ...priceIssues(boards, file, field)] };
}

/**
 * Names of the drawings of boards in a list of entries.
 *
 * @throws FretlayError for what is no list of boards of a job or a rack
 */
export function drawingsOf(entries: readonly JobBoard[]): string[] {
  throwOnErrors(entriesCheck('entries', entries));
  return entries.flatMap(({ drawing }) => (drawing === undefined ? [] : [drawing.file]));
}
