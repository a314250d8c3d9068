import { regionArea } from '../../geometry/ring.ts';
import { Arrangement } from '../arrangement/arrangement.ts';
import { readyPairs } from '../arrangement/ready-pairs.ts';
import { better, type Score, scoreOf } from '../arrangement/score.ts';
import { asksForBoxes, boxedProblem, coarseProblem } from '../problem/coarse.ts';
import { copiesByShape } from '../problem/copies-by-shape.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { type WholeBoard, wholeBoards } from '../problem/whole-boards.ts';
import type { Pulse } from '../running/pulse.ts';
import { FirstLayout } from './first-layout.ts';
import { firstOfEach } from './first-of-each.ts';

/** The constructive pass: several orders of copies and of boards, the best layout kept. */

/** Orders of copies and boards tried at most, whatever the size of the job. */
const MOST_TRIALS = 12;

/** Copies placed in all trials together, so that large jobs try fewer orders. */
const PLACEMENTS = 1500;

/**
 * A first arrangement as fast as possible: one order, coarse outlines where exact ones take their time. Where even those
 * do, boxes first: whoever stops meanwhile has a place for every copy.
 */
export async function constructQuickly(problem: NestingProblem, pulse: Pulse): Promise<Arrangement> {
  const quick = coarseProblem(problem) ?? problem;
  const isJagged = takesLong(quick);
  if (!isJagged && !asksForBoxes(quick)) return placedByArea(quick, pulse);
  const boxed = boxedProblem(quick);
  if (!isRoomy(boxed)) return placedByArea(quick, pulse);
  const inBoxes = await placedByArea(boxed, pulse);
  if (isJagged || pulse.stopped) return inBoxes;
  const fitted = await placedByArea(quick, pulse);
  return better(scoreOf(problem, fitted), scoreOf(problem, inBoxes)) ? fitted : inBoxes;
}

/** An arrangement in boxes of a few sizes, whatever else might be laid out quickly. */
export async function constructInBoxes(problem: NestingProblem, pulse: Pulse): Promise<Arrangement> {
  return placedByArea(boxedProblem(problem), pulse);
}

/**
 * The copies set after set, for where only whole sets count and not all may find room: in boxes of a few sizes, or in
 * outlines that are coarse where exact ones take their time.
 */
export async function constructBySets(
  problem: NestingProblem,
  outlines: 'boxes' | 'coarse',
  pulse: Pulse,
): Promise<Arrangement> {
  const quick = outlines === 'boxes' ? boxedProblem(problem) : (coarseProblem(problem) ?? problem);
  const arrangement = new Arrangement(quick.shapeOf.length);
  const sets = setsAskedFor(quick, quick.pinned);
  const order = Array.from({ length: sets }, (_, set) =>
    sortedBy(quick, copiesOfSets(quick, set, set + 1, quick.pinned), AREA),
  );
  const boards = allContainers(quick);
  await placeInOrder(
    quick,
    arrangement,
    Int32Array.from(order.flatMap((copies) => [...copies])),
    boards,
    pulse,
  );
  return arrangement;
}

/** Vertices of an outline from which on its no-fit polygons take seconds each. */
const JAGGED = 450;

/** True where the outlines are still so jagged that not even one copy beside another is found quickly. */
function takesLong({ shapes }: NestingProblem): boolean {
  return shapes.some(({ region }) => region.outline.length > JAGGED);
}

/** Share of the boards up to which boxes find room without trying hard. */
const ROOMY = 0.7;

/**
 * Hands over what stands in tenths of a second, in boxes or in coarse outlines, where exact ones take their time.
 *
 * @param boxesFirst false when an answer in boxes is at hand
 */
export async function constructMeanwhile(
  problem: NestingProblem,
  pulse: Pulse,
  boxesFirst: boolean,
  onBetter: (arrangement: Arrangement) => void,
): Promise<void> {
  const coarse = coarseProblem(problem);
  if (boxesFirst && asksForBoxes(coarse ?? problem)) {
    const boxed = boxedProblem(problem);
    if (isRoomy(boxed)) onBetter(await placedByArea(boxed, pulse));
  }
  if (coarse !== undefined && !pulse.stopped) onBetter(await placedByArea(coarse, pulse));
}

function isRoomy({ shapes, shapeOf, containers }: NestingProblem): boolean {
  const wanted = shapeOf.reduce((sum, s) => sum + regionArea(shapes[s].region), 0);
  return wanted <= ROOMY * containers.reduce((sum, { area }) => sum + area, 0);
}

async function placedByArea(problem: NestingProblem, pulse: Pulse): Promise<Arrangement> {
  const arrangement = new Arrangement(problem.shapeOf.length);
  await placeByArea(problem, arrangement, allCopies(problem), pulse);
  return arrangement;
}

/** The best constructive arrangement; copies that found no room lie nowhere. */
export async function construct(
  problem: NestingProblem,
  pulse: Pulse,
  onBetter: (arrangement: Arrangement) => void,
): Promise<Arrangement> {
  const boards = allContainers(problem);
  const whole = await bestOfOrders(problem, allCopies(problem), boards, pulse, onBetter);
  if (scoreOf(problem, whole).missing === 0 || pulse.stopped) return whole;
  return completeSetsFirst(problem, whole, pulse);
}

/** Numbers of all copies, largest first. */
export function copiesByArea(problem: NestingProblem): Int32Array {
  return sortedBy(problem, allCopies(problem), AREA);
}

/** Numbers of all containers. */
export function allContainers({ containers }: NestingProblem): number[] {
  return containers.map((_, k) => k);
}

/** Numbers of all copies. */
export function allCopies(problem: NestingProblem): Int32Array {
  return Int32Array.from(problem.shapeOf, (_, item) => item);
}

/**
 * The best of several orders for some copies on some containers.
 *
 * @param copies indices of the copies to lay
 * @param boards indices of the containers to lay them on
 */
export async function bestOfOrders(
  problem: NestingProblem,
  copies: Int32Array,
  boards: readonly number[],
  pulse: Pulse,
  onBetter?: (arrangement: Arrangement) => void,
): Promise<Arrangement> {
  let best = new Arrangement(problem.shapeOf.length);
  let bestScore: Score | undefined;
  const boardOrders = containerOrders(problem, boards);
  // Copies of few shapes often come in the same order by every measure.
  const byMeasure = MEASURES.map((measure) => sortedBy(problem, copies, measure));
  const copyOrders = firstOfEach(byMeasure, (order) => order.join(' '));
  const affordable = Math.floor(PLACEMENTS / Math.max(1, copies.length));
  const trials = Math.max(1, Math.min(MOST_TRIALS, affordable, boardOrders.length * copyOrders.length));
  for (let trial = 0; trial < trials && !(pulse.stopped && bestScore !== undefined); trial++) {
    const boardOrder = boardOrders[trial % boardOrders.length];
    const order = copyOrders[Math.floor(trial / boardOrders.length)];
    const arrangement = new Arrangement(problem.shapeOf.length);
    await placeInOrder(problem, arrangement, order, boardOrder, pulse);
    const score = scoreOf(problem, arrangement);
    if (bestScore === undefined || better(score, bestScore)) {
      best = arrangement;
      bestScore = score;
      onBetter?.(best);
    }
  }
  return best;
}

/** Places copies in the order given, each in the first of the boards that has room. */
export async function placeInOrder(
  problem: NestingProblem,
  arrangement: Arrangement,
  order: Int32Array,
  boards: readonly number[],
  pulse: Pulse,
): Promise<void> {
  const layout = new FirstLayout(problem, arrangement);
  for (const item of order) {
    await readyPairs(problem, arrangement, item, problem.shapes[problem.shapeOf[item]].orientations, pulse);
    if (pulse.stopped) break;
    await layout.place(item, boards, pulse);
  }
}

/**
 * When the stock is too small: the most sets that can be laid out completely (found by halving), then single
 * copies of further sets in the room that is left.
 *
 * @param whole what to go by when not one set is complete
 */
export async function completeSetsFirst(
  problem: NestingProblem,
  whole: Arrangement,
  pulse: Pulse,
): Promise<Arrangement> {
  const boards = allContainers(problem);
  const most = await mostThatFit(setsAskedFor(problem, problem.pinned), pulse, async (sets) => {
    const copies = copiesOfSets(problem, 0, sets, problem.pinned);
    const trial = await bestOfOrders(problem, copies, boards, pulse);
    return copies.every((item) => trial.container[item] >= 0) ? trial : undefined;
  });
  if (most === undefined) return whole;
  await placeRest(problem, most.layout, pulse);
  return most.layout;
}

/**
 * The most sets, fewer than a number, of which a layout is found, and that; looked for by halving until told to stop.
 * Undefined when there is none.
 */
export async function mostThatFit(
  tooMany: number,
  pulse: Pulse,
  layOut: (sets: number) => Promise<Arrangement | undefined>,
): Promise<{ readonly sets: number; readonly layout: Arrangement } | undefined> {
  let most: { readonly sets: number; readonly layout: Arrangement } | undefined;
  let fits = 0;
  let fails = tooMany;
  while (fails - fits > 1 && !pulse.stopped) {
    const sets = (fits + fails) >> 1;
    const layout = await layOut(sets);
    if (layout === undefined) fails = sets;
    else {
      fits = sets;
      most = { sets, layout };
    }
  }
  return most;
}

/** Places the copies that lie nowhere in the room that is left; another board is begun only for what has none on those in use. */
export async function placeRest(
  problem: NestingProblem,
  arrangement: Arrangement,
  pulse: Pulse,
): Promise<void> {
  await placeByArea(
    problem,
    arrangement,
    arrangement.lyingNowhere(),
    pulse,
    begunFirst(problem, arrangement),
  );
}

/** All containers: those to be filled first before others, of either those of boards in use, then cheap area. */
function begunFirst(problem: NestingProblem, arrangement: Arrangement): number[] {
  const inUse = new Set(arrangement.container);
  const turned = wholeBoards(problem).map((board) => {
    const isBegun = board.containers.some((k) => inUse.has(k));
    const perArea = isBegun ? 0 : board.cost / board.area;
    return { board, turn: (board.first ? 0 : 2) + (isBegun ? 0 : 1), perArea };
  });
  return turned
    .sort((a, b) => a.turn - b.turn || a.perArea - b.perArea)
    .flatMap(({ board }) => board.containers);
}

/**
 * Places copies into an arrangement as it stands, largest first.
 *
 * @param boards indices of the containers to place them on, in the order they are offered
 */
export async function placeByArea(
  problem: NestingProblem,
  arrangement: Arrangement,
  copies: Int32Array,
  pulse: Pulse,
  boards: readonly number[] = allContainers(problem),
): Promise<void> {
  await placeInOrder(problem, arrangement, sortedBy(problem, copies, AREA), boards, pulse);
}

/**
 * Sets that all copies to place make, the last of them perhaps not whole.
 *
 * @param lying copies of every shape that lie already and are the first ones of the sets; none when left out
 */
export function setsAskedFor(problem: NestingProblem, lying: readonly number[] = []): number {
  const sets = copiesByShape(problem).map(({ length }, s) =>
    Math.ceil(((lying[s] ?? 0) + length) / problem.perSet[s]),
  );
  return Math.max(...sets);
}

/**
 * Numbers of the copies to place that belong to the sets from index `first` (from 0) up to but not including `end`.
 *
 * @param lying see {@link setsAskedFor}
 */
export function copiesOfSets(
  problem: NestingProblem,
  first: number,
  end: number,
  lying: readonly number[] = [],
): Int32Array {
  const seen = problem.shapes.map((_, s) => lying[s] ?? 0);
  return allCopies(problem).filter((item) => {
    const shape = problem.shapeOf[item];
    const set = Math.floor(seen[shape]++ / problem.perSet[shape]);
    return set >= first && set < end;
  });
}

type Measure = (problem: NestingProblem, shape: number) => number;

const AREA: Measure = (problem, shape) => problem.shapes[shape].area;

/** Sizes by which copies are sorted, largest first. */
const MEASURES: readonly Measure[] = [
  AREA,
  (problem, shape) => width(problem, shape) * height(problem, shape),
  (problem, shape) => Math.max(width(problem, shape), height(problem, shape)),
  height,
  width,
];

function width(problem: NestingProblem, shape: number): number {
  const { box } = problem.orientations[problem.shapes[shape].orientations[0]];
  return box.maxX - box.minX;
}

function height(problem: NestingProblem, shape: number): number {
  const { box } = problem.orientations[problem.shapes[shape].orientations[0]];
  return box.maxY - box.minY;
}

function sortedBy(problem: NestingProblem, copies: Int32Array, measure: Measure): Int32Array {
  const size = problem.shapes.map((_, shape) => measure(problem, shape));
  return copies.toSorted((a, b) => size[problem.shapeOf[b]] - size[problem.shapeOf[a]] || a - b);
}

/**
 * Boards as given, large ones first, small ones first, cheap area first, in each those to be filled first before the
 * others; orders that are the same once. The sections of a board stay together: one that is opened is filled before another is.
 *
 * @param given indices of the containers in play
 */
export function containerOrders(
  problem: Pick<NestingProblem, 'containers'>,
  given: readonly number[],
): (readonly number[])[] {
  const { containers } = problem;
  const boardOf: WholeBoard[] = [];
  for (const board of wholeBoards(problem)) for (const k of board.containers) boardOf[k] = board;
  const turn = (k: number) => (boardOf[k].first ? 0 : 1);
  const by = (key: (k: number) => number) =>
    given.toSorted((a, b) => turn(a) - turn(b) || key(a) - key(b) || a - b);
  const orders: (readonly number[])[] = [
    given.toSorted((a, b) => turn(a) - turn(b)),
    by((k) => -boardOf[k].area),
    by((k) => boardOf[k].area),
    by((k) => boardOf[k].cost / boardOf[k].area),
  ];
  return firstOfEach(orders, (order) => order.map((k) => containers[k].kind).join(' '));
}
