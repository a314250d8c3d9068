import { estimate } from '../costing/estimate.ts';
import { tightestCurve } from '../geometry/tightest-curve.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { AssemblyPlan } from '../model/assembly.ts';
import type { Batch } from '../model/batch.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { BatchSize, Estimate } from '../model/estimate.ts';
import type { Layout } from '../model/layout.ts';
import type { Pattern } from '../model/pattern.ts';
import type { PatternCheck } from '../model/pattern-check.ts';
import { foreignPattern } from '../model/pattern-checks.ts';
import { planAssembly } from '../sawing/assembly/plan-assembly.ts';
import { planCuts } from '../sawing/plan-cuts.ts';
import { type Calibration, calibrate } from '../sawing/time/calibrate.ts';
import { preparingAmounts } from '../sawing/time/preparing-amounts.ts';
import { type TimeConstants, timeConstants } from '../sawing/time/time-constants.ts';
import { amountsOf, workTime } from '../sawing/time/work-time.ts';
import { batchSizes } from './batch-sizes.ts';
import { jobCheck, laidJobCheck } from './job-check.ts';
import type { Job } from './job-schema.ts';
import { loggedWork } from './logged-work.ts';
import { namedBlade } from './sawing-fields.ts';
import { sawnParts, WIDE_CURVE } from './sawn-parts.ts';

/** What follows from a layout: how to saw it, how it goes together, how long it takes and what it costs. */
export interface WorkPlan {
  readonly cutPlan: CutPlan;
  readonly assembly: AssemblyPlan;
  readonly estimate: Estimate;
  /** How the times were fitted to the maker's log; undefined without one. */
  readonly calibration: Calibration | undefined;
  /** Cost of a piece by size of batch; empty when the job asks for none. */
  readonly batchSizes: readonly BatchSize[];
  /** Warnings and notes of the cuts, the glue-up and the estimate, in this order. */
  readonly issues: readonly Issue[];
}

/** What the work is planned from: the results of the steps before it. */
export interface LaidJob {
  readonly pattern: Pattern;
  readonly check: PatternCheck;
  readonly batch: Batch;
  readonly layout: Layout;
}

/**
 * Plans the work on a layout, and compares sizes of batch unless the job asks for none.
 *
 * @throws FretlayError for what is no job as `readJob` gives it, or not laid out
 */
export async function planWork(job: Job, laid: LaidJob): Promise<WorkPlan> {
  throwOnErrors([...jobCheck('job', job), ...laidJobCheck('laid', laid)]);
  const { batch, layout } = laid;
  throwOnErrors(foreignPattern('laid.pattern', laid.pattern, layout.setContents));
  const calibration = job.work.log.length === 0 ? undefined : calibrate(loggedWork(job), ownTimes(job));
  const constants = calibration?.constants ?? ownTimes(job);
  const assembly = assemblyOf(job, laid);
  const cutPlan = cutsOf(job, laid, constants);
  const pieces = Math.max(1, layout.figures.completeSets);
  const amounts = { ...preparingAmounts(layout), ...amountsOf(cutPlan, assembly, pieces) };
  const time = workTime(amounts, constants);
  const costs = estimate({ layout, stock: batch.boards, plan: cutPlan, assembly, time }, job.costs);
  const sizes = await batchSizes(job, { batch, layout, cutPlan, assembly, estimate: costs, constants });
  const issues = [...cutPlan.issues, ...assembly.issues, ...costs.issues];
  return { cutPlan, assembly, estimate: costs, calibration, batchSizes: sizes, issues };
}

function cutsOf(job: Job, { layout, pattern, check }: LaidJob, constants: TimeConstants): CutPlan {
  const { blades, holdSize, tab } = job.work;
  const named = namedBlade(job.work);
  const own = named === undefined ? blades : [named];
  return planCuts(layout, {
    ...(own.length === 0 ? {} : { blades: own }),
    ...(job.saw.throat === undefined ? {} : { throat: job.saw.throat }),
    ...(tab === undefined ? {} : { tab }),
    parts: sawnParts(pattern, check, widestCurve(job)),
    holdSize,
    pace: constants.sawing,
  });
}

function assemblyOf(job: Job, { pattern, batch }: LaidJob): AssemblyPlan {
  const layers = Object.fromEntries(
    batch.demands.map(({ layer, species, thickness, rules }) => [
      layer,
      { species, thickness, grain: rules.grain },
    ]),
  );
  const { restTolerance, glueMargin, moistureChange } = job.work;
  return planAssembly(pattern, { layers, restTolerance, glueMargin, moistureChange, only: batch.demands });
}

function ownTimes(job: Job): TimeConstants {
  return timeConstants(job.work.times);
}

/** Radius beyond which no blade of the job minds a bend, mm. */
function widestCurve({ work }: Job): number {
  const widths = work.blades.map(({ width }) => tightestCurve(width));
  return Math.max(WIDE_CURVE, ...widths);
}
