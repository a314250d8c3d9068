import { number, optional, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import type { Batch, GrainRule } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Layout } from '../model/layout.ts';
import type { MaterialAccount } from '../model/material-account.ts';
import type { Pattern } from '../model/pattern.ts';
import type { PatternCheck, PatternCheckOptions } from '../model/pattern-check.ts';
import type { Purchase } from '../model/purchase.ts';
import { stated } from '../model/stated.ts';
import type { WoodBound } from '../model/wood-bound.ts';
import { inputIssues, searchChecks } from '../nesting/input-issues.ts';
import { layOut } from '../nesting/lay-out.ts';
import { type Verification, verifyLayout } from '../nesting/verify.ts';
import { woodBounds } from '../nesting/wood-bounds.ts';
import { checkPattern } from '../pattern/check-pattern.ts';
import { materialAccount } from '../stock/material-account.ts';
import { stockToBuyFrom } from '../stock/offers.ts';
import { withRemains } from '../stock/with-offcuts.ts';
import { filesCheck, jobCheck } from './job-check.ts';
import type { Job } from './job-schema.ts';
import { marginIssues } from './margin-issues.ts';
import { nameIssues } from './name-issues.ts';
import { ownThickerIssues } from './own-thicker-boards.ts';
import { paperIssues } from './paper-of-job.ts';
import { purchaseIssues } from './purchase-issues.ts';
import { readBatch } from './read-batch.ts';
import { SEARCH_LIMITS } from './search-limits.ts';
import { SearchTime } from './search-time.ts';
import { stackWoodIssues } from './stack-wood-issues.ts';
import { rippingIssues } from './stock-in-blanks.ts';
import type { FilesOfJob } from './stock-of-job.ts';
import { stripIssues } from './strip-issues.ts';
import { thinningIssues } from './thinning-issues.ts';
import { throatIssues } from './throat-issues.ts';
import { nothingToBuy, purchaseBeside } from './what-to-buy.ts';

/** What the whole job gives. */
export interface JobResult {
  readonly pattern: Pattern;
  /** What the saw will have trouble with. */
  readonly check: PatternCheck;
  readonly batch: Batch;
  readonly layout: Layout;
  /** Where the wood goes, species by species. */
  readonly material: readonly MaterialAccount[];
  /** What has to be bought; undefined when the boards at hand do, or nothing is for sale. */
  readonly purchase: Purchase | undefined;
  readonly verification: Verification;
  /** How far the layout is from what no layout can beat, by wood. */
  readonly bounds: readonly WoodBound[];
  /** Warnings and notes of every step, in order. */
  readonly issues: readonly Issue[];
  /** True when the search was stopped before its end, by the signal or because the minutes were over. */
  readonly isStopped: boolean;
}

/** Settings of a run besides the job itself. */
export interface RunJobOptions extends LayOutOptions {
  /** Name of the job file in messages (default `job.json`). */
  readonly file?: string | undefined;
  /** Text of the other files that the job names (its rack, drawings of boards), by the name as written there. */
  readonly files?: FilesOfJob | undefined;
  /**
   * Minutes of the clock after which the search stops, though never before there is a first layout; without end when
   * left out. Where boards are for sale and those at hand prove too few, half of them is kept for what to buy.
   */
  readonly minutes?: number | undefined;
}

// How to search is asked here already: for what a misspelt effort was to say, the job has its own.
const optionsCheck = recordByHand(
  {
    ...searchChecks,
    file: optional(words()),
    files: optional(filesCheck),
    minutes: optional(number(SEARCH_LIMITS.minutes)),
  },
  'See `RunJobOptions`.',
);

/** Share of the time for the boards at hand where there are others to look at, as long as they leave copies out. */
const AT_HAND_SHARE = 0.5;

/**
 * Runs the whole job: reads the pattern, checks it for the saw, lays the batch out, verifies the layout
 * independently; `drawJob` then draws it. A layout that breaks a rule or leaves copies unplaced is returned, with issues
 * that say so.
 *
 * @throws FretlayError when the job or the pattern cannot be used
 */
export async function runJob(job: Job, svgText: string, options: RunJobOptions = {}): Promise<JobResult> {
  throwOnErrors([...jobCheck('job', job), ...optionsCheck('options', options)]);
  const file = options.file ?? 'job.json';
  throwOnErrors(paperIssues(job, file));
  const read = readBatch(job, svgText, options.files ?? {}, file);
  const { pattern, batch, offers, stripsStated, issues: readIssues } = read;
  const check = checkPattern(pattern, checkOptions(job));
  const search = { effort: job.effort, seed: job.seed, ...options };
  // Before a clock listens to the signal and to what is told of the search.
  throwOnErrors(inputIssues(batch, search));
  const time = new SearchTime(search, options.minutes);
  const share = offers.length > 0 ? AT_HAND_SHARE : 1;
  const own = await time.search(share, (timed) => layOut(batch, timed));
  // Nothing is bought, and no purchase searched for, when the boards at hand do.
  const isShort = own.layout.unplaced.length > 0 && offers.length > 0;
  const buy = () =>
    time.isCalledOff
      ? nothingToBuy(own, true)
      : time.search(1, (timed) => purchaseBeside(batch, offers, own, timed));
  const toBuy = isShort ? await buy() : undefined;
  const sawn = toBuy === undefined ? batch : { ...batch, boards: [...batch.boards, ...offers] };
  const layout = withRemains(toBuy?.layout ?? own.layout, sawn);
  const layoutIssues =
    toBuy === undefined
      ? own.issues
      : [
          ...toBuy.issues,
          ...purchaseIssues(toBuy, job.costs.currency, job.unit),
          ...ownThickerIssues(batch, toBuy, job.unit),
        ];
  // The clock may be over, and whoever has stopped the search waits for its results.
  const stackIssues = await time.notes((signal) =>
    stackWoodIssues(
      toBuy === undefined ? batch : { ...batch, boards: stockToBuyFrom(batch, offers) },
      { layout, stock: sawn.boards },
      job.costs.currency,
      file,
      signal,
    ),
  );
  const ofStrips = await time.notes((signal) =>
    stripIssues(
      batch,
      { layout, offers: toBuy === undefined ? [] : offers },
      { kerf: job.crosscutKerf, currency: job.costs.currency, stripsStated },
      signal,
    ),
  );
  const verification = verifyLayout(layout, sawn);
  const issues = [
    ...readIssues,
    ...layoutIssues,
    ...stackIssues,
    ...ofStrips,
    ...rippingIssues(layout.boards, stripsStated, job.unit),
    ...thinningIssues(layout.boards, job.unit),
    ...marginIssues(layout),
    ...throatIssues(layout, job.saw, job.unit, sawn),
    ...nameIssues(layout, job.design),
    ...verification.breaches,
  ];
  return {
    pattern,
    check,
    batch: sawn,
    layout,
    material: materialAccount(layout, sawn.boards),
    purchase: toBuy,
    verification,
    bounds: woodBounds(sawn, layout),
    issues,
    isStopped: time.isStopped,
  };
}

/**
 * How the pattern of a job is to be checked.
 *
 * @throws FretlayError for what is no job as `readJob` gives it
 */
export function checkOptions(job: Job): PatternCheckOptions {
  throwOnErrors(jobCheck('job', job));
  const { kerf, saw, necks, layers, work } = job;
  const grain: Record<string, GrainRule> = {};
  for (const [name, rules] of Object.entries(layers)) grain[name] = rules.grain;
  return {
    saw: { ...stated(saw), kerf },
    grain,
    neckAlong: necks.along,
    neckAcross: necks.across,
    holdSize: work.holdSize,
  };
}
