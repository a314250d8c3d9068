import { number, record } from '../../issues/checks.ts';
import { throwOnErrors } from '../../issues/fretlay-error.ts';
import type { AssemblyPlan } from '../../model/assembly.ts';
import type { Cut, CutPlan, Range } from '../../model/cut-plan.ts';
import type { WorkTime } from '../../model/estimate.ts';
import { assemblyPlanCheck, cutPlanCheck, range } from '../../model/plan-checks.ts';
import { partKey } from '../../model/same-part.ts';
import { hardnessOf } from '../wood-facts.ts';
import { paceMetres } from './blade-life.ts';
import { amounts as amountsCheck } from './time-checks.ts';
import {
  COMMON_TIMES,
  TIME_NAMES,
  type TimeConstants,
  type TimeName,
  timeConstants,
} from './time-constants.ts';

/** How much of each kind of work there is, in the units of {@link COMMON_TIMES}. */
export type WorkAmounts = Readonly<Partial<Record<TimeName, number>>>;

/**
 * Working time of a batch: every amount times its constant, as ranges. All lows are summed, and all highs, since
 * the constants of one maker are slow or quick together.
 *
 * @throws FretlayError when an amount, or a constant that is needed, is missing, negative or no number
 */
export function workTime(amounts: WorkAmounts, constants: TimeConstants = timeConstants()): WorkTime {
  // A constant counts only where there is work of its kind, so only those are asked for.
  throwOnErrors(amountsCheck('amounts', amounts));
  const named = TIME_NAMES.filter((name) => (amounts[name] ?? 0) !== 0);
  const needed = record(Object.fromEntries(named.map((name) => [name, range])));
  throwOnErrors(needed('constants', constants));
  const lines = TIME_NAMES.flatMap((name) => {
    const amount = amounts[name] ?? 0;
    if (amount === 0) return [];
    const { what, unit, units } = COMMON_TIMES[name];
    const each = constants[name];
    return [{ name: what, amount, unit, units, each, minutes: scaledRange(each, amount), constant: name }];
  });
  return {
    lines,
    total: lines.reduce((sum, { minutes }) => plus(sum, minutes), { low: 0, likely: 0, high: 0 }),
  };
}

/**
 * The amounts of work of a batch in the units of {@link COMMON_TIMES}, from its cut plan and the glue-up of one piece; what
 * is done to the boards before, `preparingAmounts` counts.
 *
 * @param pieces number of pieces the batch makes
 * @throws FretlayError when that is no whole number of 1 or more, and for what is no plan
 */
export function amountsOf(plan: CutPlan, assembly: AssemblyPlan, pieces: number): WorkAmounts {
  throwOnErrors([
    ...number({ least: 1, most: 1_000_000, whole: true })('pieces', pieces),
    ...cutPlanCheck('plan', plan),
    ...assemblyPlanCheck('assembly', assembly),
  ]);
  const { boards } = plan;
  const all = (measure: (board: CutPlan['boards'][number]) => number) =>
    boards.reduce((sum, board) => sum + board.copies * measure(board), 0);
  return {
    sawing: all(({ cutLength, leadInLength, thickness, species }) =>
      paceMetres(cutLength + leadInLength, thickness, hardnessOf(species)),
    ),
    turning: plan.sharpTurns,
    positioning: all(({ cuts }) => cuts.filter(({ entry }) => entry !== 'in passing').length),
    drilling: plan.holes,
    threading: plan.threadings,
    bladeChange: plan.bladeChangesGrouped + plan.blades.reduce((sum, { worn }) => sum + worn.likely, 0),
    sticking: all(() => 1),
    peeling: all(({ cuts }) => new Set(cuts.map(({ placement }) => placement)).size),
    edgeSanding: all(({ cuts, stack = 1 }) => (stack * edgeLength(cuts)) / 1000),
    faceSanding: (assembly.faces * pieces) / 1e6,
    gluing: jointsGlued(assembly) * pieces,
    finishing: (assembly.surface * pieces) / 1e6,
    setUp: 1,
  };
}

/**
 * Joints that are glued in a piece: those with room for glue kept back from the edges, and the others of a part that nothing
 * else holds, which is glued sparingly or pinned there.
 */
function jointsGlued({ joints }: AssemblyPlan): number {
  const held = new Set(
    joints
      .filter(({ glueArea }) => glueArea > 0)
      .flatMap(({ front, behind }) => [partKey(front), partKey(behind)]),
  );
  const glued = joints.filter(
    ({ glueArea, front, behind }) => glueArea > 0 || !held.has(partKey(front)) || !held.has(partKey(behind)),
  );
  return glued.reduce((sum, { copies }) => sum + copies, 0);
}

/** Sawn edges of the parts, mm: a vein is a line no wider than the blade, in which nothing can be sanded. */
function edgeLength(cuts: readonly Cut[]): number {
  return cuts.reduce((sum, { kind, length }) => sum + (kind === 'vein' ? 0 : length), 0);
}

/** What a batch differs in from the one whose amounts are known. */
export interface OtherBatch {
  /** How many times as many pieces. */
  readonly times: number;
  /** How many times as many cuts: a set that is not sawn in a stack takes as many as the whole stack. */
  readonly cuts: number;
  /** How many times as many blades are worn out: less where boards are sawn one by one that lay in a stack. */
  readonly worn: number;
  /** Boards, or stacks of them, that a pattern is stuck on. */
  readonly stuck: number;
  /** Changes of blade besides those of worn ones, as often in a batch of any size. */
  readonly changes: number;
  /** What is done to its own boards before the paper goes on. */
  readonly preparing: WorkAmounts;
}

/** Work that is done once for a stack, as often as it is sawn; sawing itself takes as long as the stack is thick. */
const BY_CUTS: readonly TimeName[] = ['turning', 'positioning', 'drilling', 'threading', 'peeling'];

/** The amounts of a larger or smaller batch: most grow with the pieces, some with the boards, some not at all. */
export function forPieces(
  amounts: WorkAmounts,
  { times, cuts, worn, stuck, changes, preparing }: OtherBatch,
): WorkAmounts {
  const ownWorn = Math.max(0, (amounts.bladeChange ?? 0) - changes);
  return {
    ...scaledAmounts(amounts, times),
    ...scaledAmounts(Object.fromEntries(BY_CUTS.map((name) => [name, amounts[name] ?? 0])), cuts),
    ...preparing,
    sticking: stuck,
    setUp: amounts.setUp ?? 0,
    bladeChange: changes + ownWorn * worn,
  };
}

/** So many times as much of each kind of work. */
export function scaledAmounts(amounts: WorkAmounts, factor: number): WorkAmounts {
  return Object.fromEntries(Object.entries(amounts).map(([name, amount]) => [name, amount * factor]));
}

/** A range so many times over, in its own unit. */
export function scaledRange({ low, likely, high }: Range, factor: number): Range {
  return { low: low * factor, likely: likely * factor, high: high * factor };
}

function plus(a: Range, b: Range): Range {
  return { low: a.low + b.low, likely: a.likely + b.likely, high: a.high + b.high };
}
