import type { Batch } from '../../model/batch.ts';
import { sectionReach } from '../../stock/sections.ts';
import { scoreOf } from '../arrangement/score.ts';
import { constructQuickly } from '../construct/construct.ts';
import { firstOfEach } from '../construct/first-of-each.ts';
import { boardNameOf, type Group, type StockKind } from '../groups/group.ts';
import { groupSpec } from '../groups/group-problem.ts';
import { partingsAroundPins, withPartings } from '../groups/partings.ts';
import { withPieces } from '../groups/pieces.ts';
import { filledPartings } from './filled-partings.ts';
import { bestFirst, type Parted, type PartingTrials, type TriedParting } from './tried-parting.ts';

/**
 * Where to cross-cut the boards of a group: many ways to part them are laid out quickly, and the search goes on from
 * the best few. The search itself cannot move a part line, since it takes sections for containers.
 */

/** Partings that the search goes on from, and between which it shares its effort. */
const KEPT = 2;

/**
 * Throats in mm whose partings are tried for every deeper one too: 16, 20, 24 and 30 in, common depths of scroll saws
 * (from memory, no source).
 */
const USUAL_THROATS = [406.4, 508, 609.6, 762];

/**
 * The group in the ways to part its boards under which its parts leave least out and cost least, the best first.
 * Sections that swing in a shallow throat swing in a deep one: its partings are tried as well, so that the best first
 * layout of a deeper saw is never worse than that of the usual shallower ones.
 */
export async function wellParted(batch: Batch, whole: Group, trials: PartingTrials): Promise<Parted[]> {
  // Boards with pins are parted for the saw itself: in a shallower throat a pinned part may need more than a section.
  const aroundPins = partingsAroundPins(batch, whole, trials.taken);
  const first = firstParting(batch, whole, trials.taken, aroundPins);
  const isParted = first.pieces.some(({ section }) => section !== undefined);
  if (!isParted || first.pieces.length === 0) return [{ group: first, start: undefined }];
  const found: TriedParting[] = [];
  const throats = trials.brief ? [batch.reach?.throat] : throatsToTry(batch, whole);
  for (const throat of throats) {
    if (trials.pulse.stopped && found.length > 0) break;
    const shallower = { ...batch, reach: { longest: undefined, ...batch.reach, throat } };
    const stock = withPartings(shallower, whole.demands, whole.stock);
    const tried = await partings(shallower, { ...whole, stock }, aroundPins, trials);
    found.push(...tried);
    // What is pinned may need a longer section than a shallower throat takes.
    const areCut = [...aroundPins.values()].some(([sections]) => sections.length > 0);
    if (areCut && throat !== batch.reach?.throat) continue;
    for await (const filled of filledPartings(shallower, bestFirst(tried)[0].group, trials))
      found.push(filled);
  }
  return kept(different(bestFirst(found)));
}

/** The group with its boards parted in the first way that comes to mind, on what is not taken of the stock. */
export function firstParting(
  batch: Batch,
  whole: Group,
  taken: ReadonlySet<string>,
  aroundPins = partingsAroundPins(batch, whole, taken),
): Group {
  return withPieces(partedBy(whole, 0, aroundPins), taken);
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

/**
 * The best of the partings, the one with the longest sections among them: a quick layout hardly interlocks parts, so it
 * ranks what single rows fill above sections in which a search may lay twice as many.
 */
function kept(found: readonly TriedParting[]): TriedParting[] {
  const best = found.slice(0, KEPT);
  const longest = found.reduce((a, b) => (sumOfSquares(b) > (1 + 1e-6) * sumOfSquares(a) ? b : a));
  return best.includes(longest) ? best : [...best.slice(0, -1), longest];
}

/** Squared lengths of all sections, mm2: the greater, the fewer and longer they are. */
function sumOfSquares({ group }: Parted): number {
  const lengths = group.pieces.map(({ section }) => (section?.to ?? 0) - (section?.from ?? 0));
  return lengths.reduce((sum, length) => sum + length * length, 0);
}

/** Ways to part the boards that carry pinned copies, by the name of the board. */
type PinPartings = ReturnType<typeof partingsAroundPins>;

/** Ways to part the boards of a group for the throat of a batch, each with a quick layout. */
async function partings(
  batch: Batch,
  whole: Group,
  aroundPins: PinPartings,
  trials: PartingTrials,
): Promise<TriedParting[]> {
  const { taken, builder, pulse } = trials;
  const waysOfBoards = [...whole.stock.map(({ partings }) => partings), ...aroundPins.values()];
  const ways = Math.max(1, ...waysOfBoards.map(({ length }) => length));
  const first = withPieces(partedBy(whole, 0, aroundPins), taken);
  const found: TriedParting[] = [];
  for (let way = 0; way < ways && !(pulse.stopped && found.length > 0); way++) {
    const group = way === 0 ? first : withPieces(partedBy(whole, way, aroundPins), taken);
    const problem = await builder.buildGivingWay(groupSpec(batch, group), pulse);
    const start = await constructQuickly(problem, pulse);
    found.push({ group, start, score: scoreOf(problem, start) });
  }
  return found;
}

/** The first of every parting: two layouts of one are no choice. */
function different<T extends Parted>(found: readonly T[]): T[] {
  return firstOfEach(found, ({ group }) =>
    group.pieces
      .map((piece) => `${boardNameOf(piece)} ${piece.section?.from} ${piece.section?.to}`)
      .join(', '),
  );
}

/** The group with its boards parted in one of their ways; a board with fewer ways in its last. */
function partedBy(group: Group, way: number, aroundPins: PinPartings): Group {
  const at = <T>(ways: readonly T[]) => ways[Math.min(way, ways.length - 1)];
  return {
    ...group,
    stock: group.stock.map((kind): StockKind => ({ ...kind, sections: at(kind.partings) })),
    parted: new Map([...aroundPins].map(([board, ways]) => [board, at(ways)])),
  };
}
