import { both, number, record, words } from '../issues/checks.ts';
import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { LENGTH } from '../issues/number-issue.ts';
import type { Batch, Demand } from '../model/batch.ts';
import { MOST_COPIES } from '../model/limits.ts';
import type { Pattern } from '../model/pattern.ts';
import { patternCheck } from '../model/pattern-checks.ts';
import type { Board } from '../model/stock.ts';
import { pinIssues } from '../nesting/pin-issues.ts';
import { withTakingCosts } from '../stock/taking.ts';
import { boardFromEntry } from './board-from-entry.ts';
import { cutIssues } from './cut-in-batch.ts';
import { demandsOfJob } from './demands-of-job.ts';
import { jobCheck } from './job-check.ts';
import type { Job } from './job-schema.ts';
import { keepIssues } from './keep-issues.ts';
import { kerfIssues } from './kerf-issues.ts';
import { logIssues } from './log-issues.ts';
import { pinsOfJob } from './pins.ts';
import { datesOf } from './rack.ts';
import { reachIssues } from './reach-issues.ts';
import { repeatedIdIssues } from './repeated-ids.ts';
import { restEdgeIssues } from './rest-edge-issues.ts';
import { roomIssues } from './room-issues.ts';
import { shareIssues } from './share-issues.ts';
import { finishedSizeIssues, sizeIssues } from './size-issues.ts';
import { speciesIssues } from './species-issues.ts';
import { stackIssues } from './stack-issues.ts';
import { smallBlankIssues, stockInBlanks } from './stock-in-blanks.ts';
import { thicknessIssues } from './thickness-issues.ts';
import { topEdgeIssues } from './top-edge-issues.ts';
import { unknownLayerIssues } from './unknown-layer-issues.ts';

/** What a job and its pattern make together. */
export interface JoinedJob {
  readonly batch: Batch;
  /** The boards for sale, ripped for the saw as those at hand are. */
  readonly offers: readonly Board[];
  /** Ids of the boards and offers whose entries say how many strips they are ripped into: the throat asks for the others. */
  readonly stripsStated: readonly string[];
  /** What does not fit together. */
  readonly issues: readonly Issue[];
}

/** The pattern, and how far its outlines may be off the curves: so much is added to every gap. */
const toleranceCheck = record({ tolerance: number(LENGTH) }, 'Hand in the pattern of `readPattern`.');

/**
 * Joins a job and its pattern into the batch to lay out; what does not fit together comes back as issues.
 *
 * @throws FretlayError for what is no job as `readJob` gives it, or no pattern
 */
export function batchFromJob(job: Job, pattern: Pattern, file: string): JoinedJob {
  throwOnErrors([
    ...jobCheck('job', job),
    ...both(patternCheck, toleranceCheck)('pattern', pattern),
    ...words('Name the job file, for messages.')('file', file),
  ]);
  const entries = [...job.boards, ...job.forSale];
  const known = entries.map(boardFromEntry);
  const { demands, issues: inDoubt } = demandsOfJob(job, pattern, known, file);
  const issues = [...repeatedIdIssues(job, file), ...unknownLayerIssues(job, pattern, file), ...inDoubt];
  // A layer whose wood is in doubt is in no demand either: that has been told.
  if (isUsable(issues)) issues.push(...cutIssues(job, pattern, demands, file));
  const boards = takenInOrder(job, stockInBlanks(job, job.boards, demands));
  const offers = stockInBlanks(job, job.forSale, demands);
  issues.push(...smallBlankIssues([...boards, ...offers], job.unit, file));
  const batch = batchOf(job, pattern, demands, boards);
  // Where the wood of a layer is in doubt its parts are not in the batch yet, and every pin of them would be told too.
  if (isUsable(issues)) issues.push(...pinIssues(batch, { file, field: 'pinned' }));
  // Boards for sale count here: a part that only one of those holds is no mistake, but a reason to buy it.
  const withForSale = { ...batch, boards: known };
  const woods = demands.map(({ species }) => species);
  issues.push(
    ...roomIssues(withForSale, job.unit, file),
    ...kerfIssues(job, file),
    ...reachIssues(job, file),
    ...stackIssues(job, demands, file),
    ...restEdgeIssues(demands, file),
    ...topEdgeIssues([...boards, ...offers], demands, file),
    ...batchSizeIssues(batch, file),
    ...speciesIssues(known, woods, file),
    ...keepIssues(job, boards, woods, file),
    ...shareIssues(job, file),
    ...logIssues(job, file),
    ...thicknessIssues(entries, demands, job, file),
  );
  // A board too small for anything is told as an error already: one message for one slip.
  if (isUsable(issues)) issues.push(...sizeIssues(known, job, file));
  // Of a refusal only errors are told, and this is the one to mend: before all the parts that it makes too large.
  if (issues.some(({ kind }) => kind === 'part-larger-than-boards'))
    issues.unshift(
      ...finishedSizeIssues(job, file).map((issue) => ({ ...issue, severity: 'error' as const })),
    );
  const stripsStated = entries.flatMap(({ id, strips }) => (strips === undefined ? [] : [id]));
  return { batch, offers, stripsStated, issues };
}

/** True as long as nothing has been told that keeps the batch from being laid out. */
function isUsable(issues: readonly Issue[]): boolean {
  return issues.every(({ severity }) => severity !== 'error');
}

function batchOf(job: Job, pattern: Pattern, demands: readonly Demand[], boards: readonly Board[]): Batch {
  const { throat, longest } = job.saw;
  const pins = pinsOfJob(job, demands, boards);
  return {
    sets: job.sets,
    demands,
    boards,
    kerf: job.kerf,
    clearance: job.clearance,
    edgeMargin: job.edgeMargin,
    thicknessTolerance: job.thicknessTolerance,
    outlineTolerance: pattern.tolerance,
    keep: job.keep,
    ...(pins.length === 0 ? {} : { pins }),
    ...(job.setsTogether ? { setsTogether: true } : {}),
    crosscutKerf: job.crosscutKerf,
    ...(throat === undefined && longest === undefined ? {} : { reach: { throat, longest } }),
  };
}

/** Refuses a batch of more copies than can be laid out in a reasonable time. */
function batchSizeIssues({ demands, sets }: Batch, file: string): Issue[] {
  const perSet = demands.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
  if (perSet * sets <= MOST_COPIES) return [];
  return [
    {
      kind: 'batch-too-large',
      severity: 'error',
      message: `the batch has more copies than are laid out at once`,
      expected: `at most ${MOST_COPIES} copies`,
      received: `${counted(sets, 'set')} of ${counted(perSet, 'copy', 'copies')}`,
      remedy:
        perSet > MOST_COPIES
          ? 'Leave layers out, or lower "copiesPerSet".'
          : `Split it into batches of at most ${counted(Math.floor(MOST_COPIES / perSet), 'set')}.`,
      where: { file, field: 'sets' },
    },
  ];
}

/** Boards at hand with what taking each counts: keepers first when there is a rack, else the cheapest. */
function takenInOrder({ boards: entries, rack, take }: Job, boards: readonly Board[]): Board[] {
  const order = take ?? (rack === undefined ? 'cheapest' : 'keepers first');
  return withTakingCosts(boards, order, datesOf(entries));
}
