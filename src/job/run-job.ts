import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Layout } from '../model/layout.ts';
import type { Pattern } from '../model/pattern.ts';
import { layOut } from '../nesting/lay-out.ts';
import { type Verification, verifyLayout } from '../nesting/verify.ts';
import { drawPlacementSheet } from '../sheet/placement-sheet.ts';
import { drawReport } from '../sheet/report.ts';
import { batchFromJob } from './batch-from-job.ts';
import type { Job } from './job-schema.ts';
import { readPattern } from './read-pattern.ts';

/** What the whole job gives. */
export interface JobResult {
  readonly pattern: Pattern;
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
    batch,
    layout,
    verification,
    sheets: used.map((board) => ({ board: board.id, svg: drawPlacementSheet(board, drawing) })),
    report: drawReport(layout, { ...drawing, issues }),
    issues,
  };
}
