import { traceEstimate } from '../costing/trace.ts';
import { optional, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { carriesParts } from '../model/carries-parts.ts';
import { foreignPattern } from '../model/pattern-checks.ts';
import { partKey } from '../model/same-part.ts';
import { findingIssue } from '../pattern/finding-issue.ts';
import { tracePlan } from '../sawing/trace-plan.ts';
import { PartDrawer } from '../sheet/board/part-marks.ts';
import { boardsToPdf, pagesToPdf } from '../sheet/page-files.ts';
import type { PagesOptions } from '../sheet/pages.ts';
import { partKinds } from '../sheet/part-kinds.ts';
import { partPages } from '../sheet/part-pages.ts';
import { drawPlacementSheets } from '../sheet/placement-sheet.ts';
import { drawReport } from '../sheet/report/report.ts';
import { cutsCsv, partsCsv } from '../sheet/tables.ts';
import { groupsOfPartsCut } from './cut-in-batch.ts';
import { jobCheck, jobResultCheck } from './job-check.ts';
import type { Job } from './job-schema.ts';
import { paperOf } from './paper-of-job.ts';
import { planWork, type WorkPlan } from './plan-work.ts';
import type { JobResult } from './run-job.ts';

/** Everything a job leaves on paper and in files. */
export interface JobDrawings {
  /** One true-scale SVG for each board that carries something. */
  readonly sheets: readonly Sheet[];
  /** PDFs to print, by what is on them. */
  readonly pdfs: readonly PrintedPages[];
  /** The report, one HTML file. */
  readonly report: string;
  /** Every placement, and every cut in its order, as a table for a spreadsheet. */
  readonly partsCsv: string;
  readonly cutsCsv: string;
  /** The plan of the work, as data. */
  readonly work: WorkPlan;
  /** How each figure of hours, costs and prices came about, as text. */
  readonly workings: string;
}

/** A placement sheet and the id of its board. */
export interface Sheet {
  readonly board: string;
  readonly svg: string;
}

/** Pages to print at true scale. */
export interface PrintedPages {
  /** Whole boards to join, or single parts to stick one by one. */
  readonly of: 'boards' | 'parts';
  /** Number of pages. */
  readonly pages: number;
  readonly pdf: Uint8Array;
}

/** What the drawings say about the run. */
export interface DrawJobOptions {
  /** Name of the job file (default `job.json`). */
  readonly file?: string | undefined;
  /** Date written on everything, as text; left out when undefined. */
  readonly date?: string | undefined;
}

const optionsCheck = recordByHand(
  { file: optional(words()), date: optional(words()) },
  'See `DrawJobOptions`.',
);

/**
 * Draws the sheets, the pages to print, the report and the tables of a job that has run.
 *
 * @throws FretlayError for what is no job as `readJob` gives it, no result of `runJob`, and options that make no sense
 */
export async function drawJob(
  job: Job,
  result: JobResult,
  options: DrawJobOptions = {},
): Promise<JobDrawings> {
  throwOnErrors([
    ...jobCheck('job', job),
    ...jobResultCheck('result', result),
    ...optionsCheck('options', options),
  ]);
  const { layout, check, pattern } = result;
  throwOnErrors(foreignPattern('result.pattern', pattern, layout.setContents));
  const work = await planWork(job, result);
  const plans = new Map(work.cutPlan.boards.map((plan) => [plan.board, plan]));
  const { line, print } = job.paper;
  const facts: PagesOptions = {
    job: options.file ?? 'job.json',
    design: job.design,
    date: options.date,
    unit: job.unit,
    kerf: layout.kerf,
    clearance: layout.clearance,
    drill: check.saw.hole,
    findings: check.findings,
    numbers: new Map(partKinds(layout).map((kind) => [partKey(kind), kind.number])),
    line,
    ...paperOf(job),
    plans,
  };
  const used = layout.boards.filter(carriesParts);
  // One drawer for sheets and pages: where labels find room is worked out once.
  const drawer = new PartDrawer(facts);
  const svgs = drawPlacementSheets(used, facts, plans, drawer);
  const findings = groupsOfPartsCut(check, layout).map((group) => findingIssue(group, pattern.file));
  const pdfs: PrintedPages[] = [];
  if (print !== 'parts')
    pdfs.push({ of: 'boards', ...(await boardsToPdf(layout, facts, job.design, drawer)) });
  if (print !== 'boards') {
    const pages = partPages(layout, facts, drawer);
    pdfs.push({ of: 'parts', pages: pages.length, pdf: await pagesToPdf(pages, job.design) });
  }
  return {
    sheets: used.map((board, i) => ({ board: board.id, svg: svgs[i] })),
    pdfs,
    report: drawReport(layout, {
      ...facts,
      material: result.material,
      issues: [...result.issues, ...findings, ...work.issues],
      breaches: result.verification.breaches.length,
      bounds: result.bounds,
      ...(result.purchase === undefined ? {} : { purchase: result.purchase }),
      work: { ...work, pattern },
    }),
    partsCsv: partsCsv(layout, job.unit),
    cutsCsv: cutsCsv(layout, work.cutPlan, job.unit),
    work,
    workings: `${tracePlan(work.cutPlan, job.unit)}\n\n${traceEstimate(work.estimate, job.unit)}\n`,
  };
}
