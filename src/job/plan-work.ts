import { estimate } from '../costing/estimate.ts';
import { tightestCurve } from '../geometry/tightest-curve.ts';
import type { AssemblyPlan } from '../model/assembly.ts';
import type { Batch } from '../model/batch.ts';
import type { CutPlan, SawnPart } from '../model/cut-plan.ts';
import type { BatchSize, Estimate } from '../model/estimate.ts';
import type { Layout } from '../model/layout.ts';
import type { Pattern } from '../model/pattern.ts';
import type { PatternCheck } from '../model/pattern-check.ts';
import { layOut } from '../nesting/lay-out.ts';
import { paceMetres } from '../sawing/blade-life.ts';
import { type Calibration, calibrate, type LoggedWork } from '../sawing/calibrate.ts';
import { planAssembly } from '../sawing/plan-assembly.ts';
import { planCuts } from '../sawing/plan-cuts.ts';
import { type TimeConstants, timeConstants } from '../sawing/time-constants.ts';
import { hardnessOf } from '../sawing/wood-facts.ts';
import { amountsOf, workTime } from '../sawing/work-time.ts';
import { withRemains } from '../stock/with-offcuts.ts';
import type { Job } from './job-schema.ts';
import { namedBlade } from './sawing-fields.ts';
import { sawnParts } from './sawn-parts.ts';

/** What follows from a layout: how to saw it, how it goes together, how long it takes and what it costs. */
export interface WorkPlan {
  readonly cutPlan: CutPlan;
  readonly assembly: AssemblyPlan;
  readonly estimate: Estimate;
  /** How the times were fitted to the maker's log; undefined without one. */
  readonly calibration: Calibration | undefined;
  /** Cost of a piece by size of batch; empty when the job does not ask. */
  readonly batchSizes: readonly BatchSize[];
}

/** What the work is planned from: the results of the steps before it. */
export interface LaidJob {
  readonly pattern: Pattern;
  readonly check: PatternCheck;
  readonly batch: Batch;
  readonly layout: Layout;
}

/** Plans the work on a layout, and compares sizes of batch when the job asks for them. */
export async function planWork(job: Job, laid: LaidJob): Promise<WorkPlan> {
  const calibration = job.work.log.length === 0 ? undefined : calibrate(loggedWork(job), ownTimes(job));
  const constants = calibration?.constants ?? ownTimes(job);
  const assembly = assemblyOf(job, laid);
  const parts = sawnParts(laid.pattern, laid.check, widestCurve(job));
  const worked = { constants, assembly, parts };
  const batchSizes: BatchSize[] = [];
  for (const sets of job.costs.batchSizes) batchSizes.push(await batchOf(sets, job, laid, worked));
  return { ...costed(job, laid, worked), assembly, calibration, batchSizes };
}

/** What does not change with the layout. */
interface Worked {
  readonly constants: TimeConstants;
  readonly assembly: AssemblyPlan;
  readonly parts: readonly SawnPart[];
}

function costed(
  job: Job,
  { layout, batch }: Pick<LaidJob, 'layout' | 'batch'>,
  { constants, assembly, parts }: Worked,
): { cutPlan: CutPlan; estimate: Estimate } {
  const blade = namedBlade(job.work);
  const own = blade === undefined ? job.work.blades : [blade];
  const plan = planCuts(layout, {
    ...(own.length === 0 ? {} : { blades: own }),
    ...(job.saw.throat === undefined ? {} : { throat: job.saw.throat }),
    parts,
    holdSize: job.work.holdSize,
    pace: constants.sawing,
  });
  const pieces = Math.max(1, layout.figures.completeSets);
  const time = workTime(amountsOf(plan, assembly, pieces), constants);
  return {
    cutPlan: plan,
    estimate: estimate({ layout, stock: batch.boards, plan, assembly, time }, job.costs),
  };
}

/** The same job for another number of sets, laid out quickly, with as many more boards as it may need. */
async function batchOf(sets: number, job: Job, laid: LaidJob, worked: Worked): Promise<BatchSize> {
  const times = Math.ceil(sets / laid.batch.sets);
  const boards = laid.batch.boards.map((board) => ({ ...board, quantity: board.quantity * times }));
  const batch = { ...laid.batch, sets, boards };
  const layout = withRemains((await layOut(batch, { effort: 0, seed: job.seed })).layout, batch);
  const { estimate: each } = costed(job, { layout, batch }, worked);
  const { low, likely, high } = each.time.total;
  const wood = each.lines.filter(({ inputs }) => inputs.some(({ from }) => from.startsWith('boards:')));
  return {
    sets: each.pieces,
    boards: layout.figures.boards,
    yield: layout.figures.yield,
    piece: each.piece,
    wood: Math.round(wood.reduce((sum, { cents }) => sum + cents.likely, 0) / each.pieces),
    minutes: { low: low / each.pieces, likely: likely / each.pieces, high: high / each.pieces },
  };
}

function assemblyOf(job: Job, { pattern, batch }: LaidJob): AssemblyPlan {
  const layers = Object.fromEntries(
    batch.demands.map(({ layer, species, thickness, rules }) => [
      layer,
      { species, thickness, grain: rules.grain },
    ]),
  );
  const { restTolerance, glueMargin, moistureChange } = job.work;
  return planAssembly(pattern, { layers, restTolerance, glueMargin, moistureChange });
}

function ownTimes(job: Job): TimeConstants {
  return timeConstants(job.work.times);
}

/** The maker's log in the amounts of the time model. */
function loggedWork({ work }: Job): LoggedWork[] {
  return work.log.map(({ minutes, cutLength = 0, species = '', thickness = 19.05, amounts }) => ({
    minutes,
    amounts: {
      ...amounts,
      sawing: (amounts.sawing ?? 0) + paceMetres(cutLength, thickness, hardnessOf(species)),
    },
  }));
}

/** Radius beyond which no blade of the job minds a bend, mm. */
function widestCurve({ work }: Job): number {
  const widths = work.blades.map(({ width }) => tightestCurve(width));
  return Math.max(10, ...widths);
}
