import { regionArea } from '../../geometry/ring.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { Batch } from '../../model/batch.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { USUAL_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { SHORTEST, sectionReach } from '../../stock/sections.ts';
import type { Arrangement } from '../arrangement/arrangement.ts';
import { better, type Score, scoreOf } from '../arrangement/score.ts';
import { constructQuickly, containerOrders, copiesByArea } from '../construct/construct.ts';
import { firstOfEach } from '../construct/first-of-each.ts';
import { arePriced, groupSpec, wholeCost } from '../groups/group-problem.ts';
import {
  boardNameOf,
  filledLengths,
  type Group,
  type StockKind,
  type StockPiece,
  withPartings,
  withPieces,
} from '../groups/groups.ts';
import { pinnedOn } from '../groups/pinned.ts';
import type { LaidGroup } from '../laid/laid-group.ts';
import { boardChoices } from '../problem/board-choices.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { ProblemBuilder } from '../problem/problem-spec.ts';
import type { Pulse } from '../running/pulse.ts';
import { type Filled, fillSections, hazardsOf, type KnownSections } from './fill-sections.ts';

/**
 * Where to cross-cut the boards of a group: many ways to part them are laid out quickly, and the search goes on from
 * the best few. The search itself cannot move a part line, since it takes sections for containers.
 */

/** A group with its boards parted one way, and a quick layout to go on from. */
export interface Parted {
  readonly group: Group;
  /** Undefined for boards that stay whole. */
  readonly start: Arrangement | undefined;
}

/** How well a layout does; less is better, the first difference counts. */
export type Loss = readonly number[];

/** Partings that the search goes on from, and between which it shares its effort. */
const KEPT = 2;

/** Copies laid in all trials of a throat together, in each of their orientations: large batches try fewer ways. */
const PLACEMENTS = 1200;
const MOST_TRIALS = 16;

/**
 * Throats in mm whose partings are tried for every deeper one too: 16, 20, 24 and 30 in, common depths of scroll saws
 * (from memory, no source).
 */
const USUAL_THROATS = [406.4, 508, 609.6, 762];

/** Cheapest choices of boards tried, and the share of the copies they have to hold when filled one by one. */
const CHOICES = 4;
const HELD_APART = 0.97;

/** Fields of hazards that may be built for trials; each takes milliseconds. */
const MOST_FIELDS = 120;

/** Neighbouring lengths of section tried differ by this ratio; the same ones whatever the throat. */
const LADDER = 1.1;

/** The shortest lengths tried, as a share of the longest. */
const SHORTEST_SHARE = 0.45;

/**
 * The group in the ways to part its boards under which its parts leave least out and cost least, the best first.
 * Sections that swing in a shallow throat swing in a deep one: its partings are tried as well, so that the best first
 * layout of a deeper saw is never worse than that of the usual shallower ones.
 */
export async function wellParted(
  batch: Batch,
  whole: Group,
  taken: ReadonlySet<string>,
  builder: ProblemBuilder,
  pulse: Pulse,
): Promise<Parted[]> {
  const first = withPieces(partedBy(whole, 0), taken);
  const isParted = first.pieces.some(({ section }) => section !== undefined);
  if (!isParted || first.pieces.length === 0) return [{ group: first, start: undefined }];
  const found: Tried[] = [];
  for (const throat of throatsToTry(batch, whole)) {
    if (pulse.stopped && found.length > 0) break;
    const shallower = { ...batch, reach: { longest: undefined, ...batch.reach, throat } };
    const stock = withPartings(shallower, whole.demands, whole.stock);
    found.push(...(await partings(shallower, { ...whole, stock }, taken, builder, pulse)));
  }
  return different(bestFirst(found)).slice(0, KEPT);
}

/**
 * The throat of the saw and the usual ones that are shallower, mm, the deepest first. A board too wide for a shallow
 * throat is cut as if it need not turn there: that is no parting for a saw in which it does.
 */
function throatsToTry({ reach }: Batch, { stock }: Group): (number | undefined)[] {
  const throat = reach?.throat;
  if (reach === undefined || throat === undefined) return [undefined];
  const boards = stock.map(({ usable }) => usable).filter(({ outline }) => outline.length > 0);
  const isShorter = (usual: number) =>
    boards.every(
      (usable) => sectionReach(usable, { ...reach, throat: usual }) <= sectionReach(usable, reach),
    );
  return [throat, ...USUAL_THROATS.filter((usual) => usual < throat && isShorter(usual)).reverse()];
}

/** Ways to part the boards of a group for the throat of a batch, each with a quick layout. */
async function partings(
  batch: Batch,
  whole: Group,
  taken: ReadonlySet<string>,
  builder: ProblemBuilder,
  pulse: Pulse,
): Promise<Tried[]> {
  const ways = Math.max(1, ...whole.stock.map(({ partings }) => partings.length));
  const first = withPieces(partedBy(whole, 0), taken);
  const found: Tried[] = [];
  for (let way = 0; way < ways && !(pulse.stopped && found.length > 0); way++) {
    const group = way === 0 ? first : withPieces(partedBy(whole, way), taken);
    const { problem } = builder.build(groupSpec(batch, group));
    const start = await constructQuickly(problem, pulse);
    found.push({ group, start, score: scoreOf(problem, start) });
  }
  // What the maker has pinned fixes the lines around it: such boards are parted in one of the plain ways.
  if (first.pieces.every(({ pinned }) => pinned.length === 0))
    for await (const filled of fillings(batch, bestFirst(found)[0].group, taken, builder, pulse))
      found.push(filled);
  return found;
}

/** A parting that was tried, with how well its quick layout does. */
interface Tried extends Parted {
  readonly start: Arrangement;
  readonly score: Score;
}

function bestFirst(tried: readonly Tried[]): Tried[] {
  const before = (a: Tried, b: Tried) => Number(better(b.score, a.score)) - Number(better(a.score, b.score));
  return [...tried].sort(before);
}

/** The group parted as its boards are filled, in several orders of the boards and with sections of several lengths. */
async function* fillings(
  batch: Batch,
  group: Group,
  taken: ReadonlySet<string>,
  builder: ProblemBuilder,
  pulse: Pulse,
): AsyncGenerator<Tried> {
  const { reach, crosscutKerf: kerf = USUAL_CROSSCUT_KERF } = batch;
  if (reach === undefined) return;
  const { problem } = builder.build(groupSpec(batch, group));
  const known: KnownSections = new Map();
  const order = copiesByArea(problem);
  const lies = order.length * (problem.orientations.length / problem.shapes.length);
  let trials = Math.max(2, Math.min(MOST_TRIALS, Math.floor(PLACEMENTS / Math.max(1, lies))));
  const longest = Math.max(...group.pieces.map(({ kind }) => sectionReach(kind.usable, reach)));
  const single = lengthsToTry(batch, group, longest);
  const fill = (boards: readonly StockPiece[], lengths: readonly number[]) =>
    fillSections(problem, { boards, order, lengths, reach, kerf }, known, pulse);
  const orders = boardOrders(group.pieces, problem);
  // On a board with knots or a waney edge every section tried has its own fields: there, fewer are tried.
  const worth = await roomsWhenFilled(problem, orders[0], (board) =>
    fill([board], board.usable.openings.length > 0 || board.usable.outline.length > 4 ? [] : single),
  );
  const choices = [...cheapestChoices(batch, group, orders[0], worth, problem), ...orders];
  // The best filled of all lengths first, then sections as long as may be, then each length by itself.
  for (const lengths of [single, [], ...single.map((length) => [length])]) {
    for (const boards of choices) {
      const fields = hazardsOf(known) * problem.orientations.length;
      if (trials-- <= 0 || fields > MOST_FIELDS || pulse.stopped) return;
      const filled = await fill(boards, lengths);
      const parted = withPieces({ ...group, parted: filled.parted }, taken);
      const start = settled(parted, filled);
      const { containers } = groupSpec(batch, parted);
      yield { group: parted, start, score: scoreOf({ ...problem, containers }, start) };
    }
  }
}

/** Lengths that rows of the main parts fill, and a ladder of others; those beyond `longest` serve no board. */
function lengthsToTry(batch: Batch, group: Group, longest: number): number[] {
  const lengths = filledLengths(batch, group.demands, longest);
  for (let mm = SHORTEST; mm < longest; mm *= LADDER) if (mm >= SHORTEST_SHARE * longest) lengths.push(mm);
  return [...new Set(lengths)].sort((a, b) => b - a);
}

/** Area in mm2 of the copies that lie on a board when it is filled by itself, by board entry. */
async function roomsWhenFilled(
  problem: NestingProblem,
  boards: readonly StockPiece[],
  fill: (board: StockPiece) => Promise<Filled>,
): Promise<Map<StockKind, number>> {
  const rooms = new Map<StockKind, number>();
  for (const board of boards) {
    if (rooms.has(board.kind)) continue;
    const { homes } = await fill(board);
    const area = [...homes.keys()].reduce((sum, copy) => sum + problem.shapes[problem.shapeOf[copy]].area, 0);
    rooms.set(board.kind, area);
  }
  return rooms;
}

/** How much dearer than boards taken by their value a choice may be, to be looked at. */
const DEARER = 1.25;

/**
 * The cheapest boards that hold all copies by what each held when it was filled by itself, those that hold most for
 * their cost in front; the others follow, for what was held together may not hold apart.
 */
function cheapestChoices(
  batch: Batch,
  group: Group,
  boards: readonly StockPiece[],
  rooms: ReadonlyMap<StockKind, number>,
  problem: NestingProblem,
): StockPiece[][] {
  const { containers } = groupSpec(batch, group);
  const costs = new Map(group.pieces.map((piece, k) => [piece.kind, containers[k].cost]));
  const value = ({ kind }: StockPiece) => costs.get(kind)! / Math.max(1, rooms.get(kind)!);
  const byValue = [...boards].sort((a, b) => value(a) - value(b));
  const kinds = [...new Set(byValue.map(({ kind }) => kind))].map((kind) => ({
    members: byValue.filter((board) => board.kind === kind),
    cost: costs.get(kind)!,
    room: rooms.get(kind)!,
  }));
  const need = problem.shapeOf.reduce((sum, shape) => sum + problem.shapes[shape].area, 0);
  const cheapest = boardChoices(
    kinds,
    DEARER * costOfGreedy(byValue, costs, rooms, need),
    HELD_APART * need,
  ).sort((a, b) => a.cost - b.cost);
  return [
    byValue,
    ...cheapest
      .slice(0, CHOICES)
      .map(({ members }) => [...members, ...byValue.filter((board) => !members.includes(board))]),
  ];
}

/**
 * What it costs to take boards in this order until they hold `need` mm2; infinite when all together do not. No choice
 * much dearer is worth a look, and of a large stock not all can be looked at.
 */
function costOfGreedy(
  boards: readonly StockPiece[],
  costs: ReadonlyMap<StockKind, number>,
  rooms: ReadonlyMap<StockKind, number>,
  need: number,
): number {
  let cost = 0;
  let room = 0;
  for (const { kind } of boards) {
    cost += costs.get(kind)!;
    room += rooms.get(kind)!;
    if (room >= need) return cost;
  }
  return Number.POSITIVE_INFINITY;
}

/** One piece of every board, in the orders in which containers are filled. */
function boardOrders(pieces: readonly StockPiece[], problem: NestingProblem): StockPiece[][] {
  const numbers = pieces.map((_, k) => k);
  return containerOrders(problem, numbers).map((order) => {
    return firstOfEach(
      order.map((k) => pieces[k]),
      boardNameOf,
    );
  });
}

/** What was filled, as an arrangement on the pieces of the group parted that way. */
function settled({ pieces }: Group, { arrangement, homes }: Filled): Arrangement {
  const numbers = new Map(pieces.map((piece, k) => [`${piece.section?.number} ${boardNameOf(piece)}`, k]));
  const result = arrangement.clone();
  for (const [copy, { board, section }] of homes)
    result.container[copy] = numbers.get(`${section} ${board}`) ?? -1;
  return result;
}

/** The first of every parting: two layouts of one are no choice. */
function different<T extends Parted>(found: readonly T[]): T[] {
  return firstOfEach(found, ({ group }) =>
    group.pieces
      .map((piece) => `${boardNameOf(piece)} ${piece.section?.from} ${piece.section?.to}`)
      .join(', '),
  );
}

/** The group with its boards parted in one of their ways; a board with fewer ways, or with pins, in its first. */
function partedBy(group: Group, way: number): Group {
  return {
    ...group,
    stock: group.stock.map((kind): StockKind => {
      const free = kind.partings.filter((sections) => !cutsPins(group, kind, sections));
      const ways = free.length > 0 ? free : kind.partings;
      return { ...kind, sections: ways[Math.min(way, ways.length - 1)] };
    }),
  };
}

/** True when a line between two sections would run through a copy that the maker has put there. */
function cutsPins(group: Group, { board }: StockKind, sections: StockKind['sections']): boolean {
  const units = Array.from({ length: board.quantity }, (_, i) => ({ number: i + 1, slice: undefined }));
  return pinnedOn(group, board, units).some(({ region }) => {
    const { minX, maxX } = boundsOf(region.outline);
    return sections.length > 0 && !sections.some(({ from, to }) => minX >= from && maxX <= to);
  });
}

/**
 * What a layout of a group leaves out, costs, and takes up of its boards: the terms of a {@link Score}, for boards as
 * they will be cut.
 */
export function lossOf(group: Group, { boards, unplaced }: LaidGroup): Loss {
  const kinds = new Map(group.pieces.map((piece) => [boardNameOf(piece), piece.kind]));
  const areas = new Map(group.demands.map((demand) => [partKey(demand), regionArea(demand.region)]));
  const priced = arePriced(group.pieces);
  const areaOf = (copies: readonly { readonly part: string; readonly layer: string }[]) =>
    copies.reduce((sum, copy) => sum + (areas.get(partKey(copy)) ?? 0), 0);
  const costOf = (taken: readonly LaidBoard[]) =>
    taken.reduce((sum, { id, copies }) => {
      const kind = kinds.get(id);
      return kind === undefined ? sum : sum + copies * wholeCost(kind, priced);
    }, 0);
  const fresh = boards.filter(({ id }) => kinds.get(id)?.board.takenFirst !== true);
  return [
    areaOf(unplaced),
    costOf(fresh),
    fresh.reduce((sum, { copies, placements }) => sum + copies * areaOf(placements), 0),
    costOf(boards),
    // One big keeper is worth more than several that are larger together.
    -Math.max(0, ...boards.map(largestClear)),
    boards.reduce((sum, board) => sum + board.copies * lengthTaken(board), 0),
  ];
}

/** Largest piece of a board that one cross-cut parts off clear of copies, from the box around it, mm2. */
function largestClear({ sections, placements, usable }: LaidBoard): number {
  const { minX, maxX, minY, maxY } = boundsOf(usable.outline);
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const cells = sections === undefined || sections.length === 0 ? [{ from: minX, to: maxX }] : sections;
  const clear = cells.map(({ from, to }) => {
    const ends = boxes.filter((box) => box.minX < to && box.maxX > from).map((box) => box.maxX);
    return to - Math.max(from, ...ends);
  });
  return Math.max(...clear) * (maxY - minY);
}

/** Length of the sections of a board that carry something, or of the whole board, mm. */
function lengthTaken({ sections, placements, usable }: LaidBoard): number {
  const { minX, maxX } = boundsOf(usable.outline);
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const carrying = (sections ?? []).filter(({ from, to }) =>
    boxes.some((box) => box.minX < to && box.maxX > from),
  );
  return carrying.length === 0 ? maxX - minX : carrying.reduce((sum, { from, to }) => sum + to - from, 0);
}

/** Negative when `a` is the less, for sorting. */
export function compareLosses(a: Loss, b: Loss): number {
  const at = a.findIndex((value, i) => Math.abs(value - b[i]) > 1e-6 * Math.abs(b[i]));
  return at < 0 ? 0 : a[at] - b[at];
}
