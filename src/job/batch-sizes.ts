import { estimate } from '../costing/estimate.ts';
import type { Region } from '../geometry/shapes.ts';
import { simplifyRegion } from '../geometry/simplify-ring.ts';
import { faultOf } from '../geometry/sound-region.ts';
import type { AssemblyPlan } from '../model/assembly.ts';
import type { Batch } from '../model/batch.ts';
import { boardsToTake } from '../model/boards-to-take.ts';
import { carriesParts } from '../model/carries-parts.ts';
import { cutLength } from '../model/cut-length.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { BatchSize, Estimate } from '../model/estimate.ts';
import type { Layout } from '../model/layout.ts';
import { partKey } from '../model/same-part.ts';
import { sameSpecies } from '../model/same-wood.ts';
import { timesSawn } from '../model/stack-of.ts';
import type { Board } from '../model/stock.ts';
import { unpricedWood } from '../model/unpriced-wood.ts';
import { boardsIn } from '../model/whole-board.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import { sawnThickness } from '../sawing/sawn-thickness.ts';
import { bladesWorn } from '../sawing/time/blade-life.ts';
import { preparingAmounts } from '../sawing/time/preparing-amounts.ts';
import type { TimeConstants } from '../sawing/time/time-constants.ts';
import { amountsOf, forPieces, scaledAmounts, scaledRange, workTime } from '../sawing/time/work-time.ts';
import { hardnessOf } from '../sawing/wood-facts.ts';
import { withRemains } from '../stock/with-offcuts.ts';
import type { Job } from './job-schema.ts';

/**
 * How coarsely outlines are taken for these layouts, mm. Parts are kept so much farther apart on either side, that
 * the true outlines would fit too: the wood is never made out to be less than it is.
 */
const COARSE = 0.5;

/**
 * Larger batches are taken to be so many times a batch of this many sets, or the own batch when that is as large: by
 * then the wood of a piece hardly falls.
 */
const LAID_OUT_UP_TO = 10;

/** The batch of the job itself: what the sizes are compared with and scaled from. */
export interface OwnBatch {
  readonly batch: Batch;
  readonly layout: Layout;
  readonly cutPlan: CutPlan;
  readonly assembly: AssemblyPlan;
  readonly estimate: Estimate;
  readonly constants: TimeConstants;
}

/**
 * What a piece costs (cents, hundredths of the unit of money) and takes (minutes) in batches of the sizes, numbers of
 * sets, a job asks for, its own batch among them, the smallest first. A size that boards like those at hand do not do
 * for is left out.
 */
export async function batchSizes(job: Job, own: OwnBatch): Promise<BatchSize[]> {
  if (job.costs.batchSizes.length === 0) return [];
  const ownSize = sizeOf(own.estimate, own.layout, 1, 'this batch');
  const asked = [...new Set(job.costs.batchSizes)].filter((sets) => sets !== ownSize.sets);
  const hasKeepers = own.batch.boards.some(({ keeper }) => keeper);
  // A keeper is there once: what is repeated has to do without.
  const once = new Map<number, Base>();
  const repeated = hasKeepers ? new Map<number, Base>() : once;
  const repeatsOwn = isWhole(own.layout) && !takesKeepers(own);
  if (repeatsOwn) repeated.set(own.batch.sets, { layout: own.layout, how: 'this batch repeated' });
  const baseOf = (sets: number): number =>
    sets > own.batch.sets && own.batch.sets >= LAID_OUT_UP_TO && repeatsOwn
      ? own.batch.sets
      : Math.min(sets, LAID_OUT_UP_TO);
  const others: BatchSize[] = [];
  const builder = new ProblemBuilder();
  for (const sets of asked) {
    const size = baseOf(sets);
    const isFresh = hasKeepers && sets > size;
    const known = sets > size ? repeated : once;
    const base = known.get(size) ?? (await laidOutQuickly(builder, size, job, own.batch, isFresh));
    known.set(size, base);
    if (isWhole(base.layout)) others.push(costedAt(sets, base, job, own));
  }
  return [ownSize, ...others].sort((a, b) => a.sets - b.sets);
}

/** A layout that others are scaled from, and how a multiple of it is named. */
interface Base {
  readonly layout: Layout;
  readonly how: 'this batch repeated' | 'repeated' | 'repeated on fresh boards';
}

/** True when something of the batch lies on a keeper. */
function takesKeepers({ batch, layout }: OwnBatch): boolean {
  const keepers = new Set(batch.boards.filter(({ keeper }) => keeper).map(({ id }) => id));
  return layout.boards.some((board) => carriesParts(board) && keepers.has(board.stock));
}

/** The boards of a batch and, of the fresh ones, as many more as so many sets may need: a keeper is there once, or not. */
function boardsFor(sets: number, { boards, sets: own }: Batch, isFresh: boolean): Board[] {
  const times = Math.ceil(sets / own);
  const fresh = boards.filter(({ keeper }) => !keeper);
  const keepers = boards.filter(({ keeper }) => keeper);
  const missing = isFresh ? times : times - 1;
  const more = fresh.map((board) => {
    const alike = keepers.filter(({ species }) => sameSpecies(species, board.species));
    const standIns = missing * alike.reduce((sum, { quantity }) => sum + quantity, 0);
    return { ...board, quantity: board.quantity * times + standIns };
  });
  return isFresh ? more : [...keepers, ...more];
}

function isWhole({ unplaced, figures, sets }: Layout): boolean {
  return unplaced.length === 0 && figures.completeSets === sets;
}

/** The job's parts on as many more of its boards as they may need, from coarse outlines and without a search. */
async function laidOutQuickly(
  builder: ProblemBuilder,
  sets: number,
  job: Job,
  batch: Batch,
  isFresh: boolean,
): Promise<Base> {
  const coarse: Batch = {
    ...batch,
    sets,
    // What is pinned to a board is pinned for this batch only.
    pins: [],
    clearance: batch.clearance + 2 * COARSE,
    boards: boardsFor(sets, batch, isFresh),
    demands: batch.demands.map((demand) => ({
      ...demand,
      region: coarsely(demand.region),
      veins: [],
    })),
  };
  const { layout } = await layOutWith(builder, coarse, { effort: 0, seed: job.seed });
  return { layout: withRemains(layout, coarse), how: isFresh ? 'repeated on fresh boards' : 'repeated' };
}

/** The outline with fewer corners; as it is where those left would cross, as in a narrow spiral. */
function coarsely({ outline }: Region): Region {
  const own = { outline, openings: [] };
  const coarse = simplifyRegion(own, COARSE);
  return faultOf(coarse) === undefined ? coarse : own;
}

/**
 * The work on a piece is that of the own batch, what is done once for a batch or a board shared by more or fewer
 * pieces; the wood is that of the quick layout.
 */
function costedAt(sets: number, { layout, how }: Base, job: Job, own: OwnBatch): BatchSize {
  const { cutPlan: plan, assembly } = own;
  const pieces = Math.max(1, layout.figures.completeSets);
  const times = sets / pieces;
  const ofOwn = (pieces * times) / own.estimate.pieces;
  const ownCuts = cutsIn(own.layout, own.batch);
  // Where nothing has found a place there is no work to go by, for a batch of any size.
  const cuts = ownCuts === 0 ? 0 : (times * cutsIn(layout, own.batch)) / ownCuts;
  const ownWear = wearIn(own.layout, own.batch);
  const worn = ownWear === 0 ? 0 : (times * wearIn(layout, own.batch)) / ownWear;
  const amounts = forPieces(amountsOf(plan, assembly, own.estimate.pieces), {
    times: ofOwn,
    cuts,
    worn,
    stuck: times * layout.boards.reduce((sum, board) => sum + timesSawn(board), 0),
    changes: plan.bladeChangesGrouped,
    preparing: scaledAmounts(preparingAmounts(layout), times),
  });
  const time = workTime(amounts, own.constants);
  // The estimate shares its total by the pieces of the layout; the batch has so many times as many. What is handed to it
  // is therefore the work on one such layout, and not that of the whole batch.
  const shared = {
    lines: time.lines.map((line) => ({
      ...line,
      amount: line.amount / times,
      minutes: scaledRange(line.minutes, 1 / times),
    })),
    total: scaledRange(time.total, 1 / times),
  };
  const scaled: CutPlan = {
    ...plan,
    holes: (plan.holes * cuts) / times,
    blades: plan.blades.map((use) => ({ ...use, worn: scaledRange(use.worn, worn / times) })),
  };
  const costs = estimate(
    { layout, stock: own.batch.boards, plan: scaled, assembly, time: shared },
    job.costs,
  );
  return sizeOf(costs, layout, times, times > 1 ? how : 'laid out quickly');
}

/** Lines of the parts as often as they are sawn: those of a stack once. Quick layouts have lost openings and veins. */
function cutsIn({ boards }: Layout, { demands }: Batch): number {
  const lines = new Map(
    demands.map((demand) => [partKey(demand), 1 + demand.region.openings.length + demand.veins.length]),
  );
  return boards.reduce(
    (sum, board) =>
      sum +
      timesSawn(board) * board.placements.reduce((all, each) => all + (lines.get(partKey(each)) ?? 1), 0),
    0,
  );
}

/** Blades that the lines of the parts wear out: those of a stack last shorter than in its boards sawn one by one. */
function wearIn({ boards }: Layout, { demands }: Batch): number {
  const lengths = new Map(demands.map((demand) => [partKey(demand), cutLength(demand)]));
  return boards.reduce((sum, board) => {
    const length = board.placements.reduce((all, each) => all + (lengths.get(partKey(each)) ?? 0), 0);
    const { likely } = bladesWorn(length, sawnThickness(board), hardnessOf(board.species));
    return sum + timesSawn(board) * likely;
  }, 0);
}

/** Whole boards for so many times a layout: strips, lengths and slices that are left of one serve the next time. */
function wholeBoards(layout: Layout, times: number): number {
  const sum = boardsToTake(layout).reduce((all, { boards, laid }) => {
    const filled = laid.reduce((shares, board) => shares + boardsIn(board), 0);
    return all + Math.max(boards, times * filled);
  }, 0);
  // Thirds and sixths do not add up exactly.
  return Math.ceil(sum - 1e-9);
}

function sizeOf(costs: Estimate, layout: Layout, times: number, how: BatchSize['how']): BatchSize {
  const wood = costs.lines.filter(({ inputs }) => inputs.some(({ from }) => from.startsWith('boards:')));
  return {
    sets: costs.pieces * times,
    how,
    boards: wholeBoards(layout, times),
    piece: costs.piece,
    // The boards with a price alone would look like the wood of a piece, and none like wood for nothing.
    wood:
      unpricedWood(costs) === undefined
        ? Math.round(wood.reduce((sum, { cents }) => sum + cents.likely, 0) / costs.pieces)
        : undefined,
    minutes: scaledRange(costs.time.total, 1 / costs.pieces),
  };
}
