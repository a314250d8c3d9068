import type { Batch } from '../../model/batch.ts';
import { USUAL_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { SHORTEST, sectionReach } from '../../stock/sections.ts';
import type { Arrangement } from '../arrangement/arrangement.ts';
import { scoreOf } from '../arrangement/score.ts';
import { containerOrders, copiesByArea } from '../construct/construct.ts';
import { firstOfEach } from '../construct/first-of-each.ts';
import { boardNameOf, type Group, type StockKind, type StockPiece } from '../groups/group.ts';
import { containersOf, groupSpec } from '../groups/group-problem.ts';
import { filledLengths } from '../groups/partings.ts';
import { withPieces } from '../groups/pieces.ts';
import type { PinnedCopy } from '../groups/pinned.ts';
import { areaOfCopies } from '../problem/area-of-copies.ts';
import { boardChoices } from '../problem/board-choices.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { type Filled, fillSections, hazardsOf, KnownSections } from './fill-sections.ts';
import type { PartingTrials, TriedParting } from './tried-parting.ts';

/**
 * Partings that come of filling boards from the left: which boards, in which order, cut to sections of which length is
 * tried in several ways, for what fills one board best may leave the wrong parts for the next.
 */

/** Copies laid in all trials of a throat together, in each of their orientations: large batches try fewer ways. */
const PLACEMENTS = 1200;
const MOST_TRIALS = 16;

/** Cheapest choices of boards tried, and the share of the copies they have to hold when filled one by one. */
const CHOICES = 4;
const HELD_APART = 0.97;

/** Fields of hazards that may be built for trials; each takes milliseconds. */
const MOST_FIELDS = 120;

/** Neighbouring lengths of section tried differ by this ratio; the same ones whatever the throat. */
const LADDER = 1.1;

/** The shortest lengths tried, as a share of the longest. */
const SHORTEST_SHARE = 0.45;

/** Lengths tried where few ways are enough. */
const FEW_LENGTHS = 3;

/**
 * The group parted as its boards are filled, in several orders of the boards and with sections of several lengths (mm).
 * One after the other, so that whoever asks may stop when it has seen enough.
 */
export async function* filledPartings(
  batch: Batch,
  group: Group,
  { taken, builder, pulse, brief }: PartingTrials,
): AsyncGenerator<TriedParting> {
  const { reach, crosscutKerf: kerf = USUAL_CROSSCUT_KERF } = batch;
  if (reach === undefined) return;
  const problem = await builder.buildGivingWay(groupSpec(batch, group), pulse);
  const known = new KnownSections();
  const order = copiesByArea(problem);
  const lies = order.length * (problem.orientations.length / problem.shapes.length);
  let trials = Math.max(2, Math.min(MOST_TRIALS, Math.floor(PLACEMENTS / Math.max(1, lies))));
  const longest = Math.max(...group.pieces.map(({ kind }) => sectionReach(kind.usable, reach)));
  const lengths = lengthsToTry(batch, group, longest);
  const single = brief ? evenly(lengths, FEW_LENGTHS) : lengths;
  const pinned = pinnedByBoard(group);
  const fill = (boards: readonly StockPiece[], lengths: readonly number[]) =>
    fillSections(problem, { boards, pinned, order, lengths, reach, kerf, known, pulse });
  const all = boardOrders(group.pieces, problem);
  // Boards with pins carry something anyway: what they hold beside it costs nothing.
  const begun = all[0].filter((board) => pinned.has(boardNameOf(board)));
  const orders = all.map((boards) => boards.filter((board) => !pinned.has(boardNameOf(board))));
  const onBegun = areaOfCopies(problem, begun.length > 0 ? (await fill(begun, single)).homes.keys() : []);
  // On a board with knots or a waney edge every section tried has its own fields: there, fewer are tried.
  const worth = await roomsWhenFilled(problem, orders[0], (board) =>
    fill([board], board.usable.openings.length > 0 || board.usable.outline.length > 4 ? [] : single),
  );
  const choices = [...cheapestChoices(problem, group, orders[0], { rooms: worth, onBegun }), ...orders].map(
    (fresh) => [...begun, ...fresh],
  );
  // The best filled of all lengths first, then sections as long as may be, then each length by itself.
  for (const tried of [single, [], ...single.map((length) => [length])]) {
    for (const boards of choices) {
      const fields = hazardsOf(known) * problem.orientations.length;
      if (trials-- <= 0 || fields > MOST_FIELDS || pulse.stopped) return;
      const filled = await fill(boards, tried);
      const parted = withPieces(
        { ...group, parted: new Map([...(group.parted ?? []), ...filled.parted]) },
        taken,
      );
      const start = settled(parted, filled);
      const containers = containersOf(batch, parted);
      yield { group: parted, start, score: scoreOf({ ...problem, containers }, start) };
    }
  }
}

/** So many of some things in their order, the first one and the others as far apart as each other. */
function evenly<T>(all: readonly T[], count: number): T[] {
  if (all.length <= count) return [...all];
  return Array.from({ length: count }, (_, n) => all[Math.floor((n * all.length) / count)]);
}

/** What is pinned to the boards of a group, by the name of the board. */
function pinnedByBoard({ pieces }: Group): Map<string, readonly PinnedCopy[]> {
  const byBoard = new Map<string, readonly PinnedCopy[]>();
  for (const piece of pieces.filter(({ pinned }) => pinned.length > 0)) {
    const board = boardNameOf(piece);
    byBoard.set(board, [...(byBoard.get(board) ?? []), ...piece.pinned]);
  }
  return byBoard;
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
    const area = areaOfCopies(problem, homes.keys());
    rooms.set(board.kind, area);
  }
  return rooms;
}

/** How much dearer than boards taken by their value a choice may be, to be looked at. */
const DEARER = 1.25;

/**
 * The cheapest boards that hold all copies by what each held when it was filled by itself, those that hold most for
 * their cost in front; the others follow, for what was held together may not hold apart.
 *
 * @param held area in mm2 of what a board of each kind held, and of what boards with pins hold beside the pins
 */
function cheapestChoices(
  problem: NestingProblem,
  group: Group,
  boards: readonly StockPiece[],
  held: { readonly rooms: ReadonlyMap<StockKind, number>; readonly onBegun: number },
): StockPiece[][] {
  const { rooms, onBegun } = held;
  const names = new Set(boards.map(boardNameOf));
  const costs = new Map(
    group.pieces.flatMap((piece, k) =>
      names.has(boardNameOf(piece)) ? [[piece.kind, problem.containers[k].cost] as const] : [],
    ),
  );
  const value = ({ kind }: StockPiece) => costs.get(kind)! / Math.max(1, rooms.get(kind)!);
  const byValue = [...boards].sort((a, b) => value(a) - value(b));
  const kinds = [...new Set(byValue.map(({ kind }) => kind))].map((kind) => ({
    members: byValue.filter((board) => board.kind === kind),
    cost: costs.get(kind)!,
    room: rooms.get(kind)!,
  }));
  const need = problem.shapeOf.reduce((sum, shape) => sum + problem.shapes[shape].area, 0) - onBegun;
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
