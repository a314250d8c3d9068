import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch, GrainRule } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Layout } from '../model/layout.ts';
import type { Pattern } from '../model/pattern.ts';
import type { PatternCheck, PatternCheckOptions } from '../model/pattern-check.ts';
import { layOut } from '../nesting/lay-out.ts';
import { type Verification, verifyLayout } from '../nesting/verify.ts';
import { checkPattern } from '../pattern/check-pattern.ts';
import { findingIssue } from '../pattern/finding-issue.ts';
import { drawPlacementSheet } from '../sheet/placement-sheet.ts';
import { drawReport } from '../sheet/report.ts';
import { batchFromJob } from './batch-from-job.ts';
import type { Job } from './job-schema.ts';
import { readPattern } from './read-pattern.ts';

/** What the whole job gives. */
export interface JobResult {
  readonly pattern: Pattern;
  /** What the saw will have trouble with. */
  readonly check: PatternCheck;
  readonly batch: Batch;
  readonly layout: Layout;
  readonly verification: Verification;
  /** One true-scale SVG for each board that carries something. */
  readonly sheets: readonly Sheet[];
  /** The report, one HTML file. */
  readonly report: string;
  /** Warnings and notes of every step, in order. */
  readonly issues: readonly Issue[];
}

/** A placement sheet and the id of its board. */
export interface Sheet {
  readonly board: string;
  readonly svg: string;
}

/** Settings of a run besides the job itself. */
export interface RunJobOptions extends LayOutOptions {
  /** Name of the job file in messages (default `job.json`). */
  readonly file?: string;
  /** Date written on sheets and report, as text; left out when undefined. */
  readonly date?: string;
}

/**
 * Runs the whole job: reads the pattern, lays the batch out, verifies the layout independently, draws the sheets
 * and the report. Throws a FretlayError when the job or the pattern cannot be used; a layout that breaks a rule or
 * leaves copies unplaced is returned, with issues that say so.
 */
export async function runJob(job: Job, svgText: string, options: RunJobOptions = {}): Promise<JobResult> {
  const file = options.file ?? 'job.json';
  const { pattern, issues: patternIssues } = readPattern(svgText, job.pattern);
  const check = checkPattern(pattern, checkOptions(job));
  const { batch, issues: batchIssues } = batchFromJob(job, pattern, file);
  throwOnErrors(batchIssues);
  const { layout, issues: layoutIssues } = await layOut(batch, {
    effort: job.effort,
    seed: job.seed,
    ...options,
  });
  const verification = verifyLayout(layout);
  const issues = [...patternIssues, ...batchIssues, ...layoutIssues, ...verification.breaches];
  const drawing = { job: file, design: job.design, unit: job.unit, kerf: layout.kerf, date: options.date };
  const used = layout.boards.filter(({ placements }) => placements.length > 0);
  return {
    pattern,
    check,
    batch,
    layout,
    verification,
    sheets: used.map((board) => ({ board: board.id, svg: drawPlacementSheet(board, drawing) })),
    report: drawReport(layout, {
      ...drawing,
      issues: [...issues, ...check.findings.map((finding) => findingIssue(finding, pattern.file))],
    }),
    issues,
  };
}

/** How the pattern of a job is to be checked. */
export function checkOptions({ kerf, saw, necks, layers }: Job): PatternCheckOptions {
  const grain: Record<string, GrainRule> = {};
  for (const [name, rules] of Object.entries(layers)) grain[name] = rules.grain;
  return { saw: { ...stated(saw), kerf }, grain, neckAlong: necks.along, neckAcross: necks.across };
}

/** The fields that are stated, so that an unstated one does not hide a default. */
function stated<T extends object>(fields: T): Partial<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<T>;
}
