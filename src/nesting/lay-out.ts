import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import { type LayOutOptions, type SearchWorker, USUAL_EFFORT } from '../model/laying-out.ts';
import type { LaidBoard, Layout, SetContent, Unplaced } from '../model/layout.ts';
import { unitName } from '../stock/units.ts';
import { takenNames } from '../stock/used-boards.ts';
import type { Group } from './groups/group.ts';
import { arePriced } from './groups/group-problem.ts';
import { boardlessIssues, type LaidAlready, stillToLay } from './groups/groups.ts';
import { sharedOutlineIssues } from './groups/shared-outlines.ts';
import { type StackWays, stackWays } from './groups/stack-ways.ts';
import { inputIssues } from './input-issues.ts';
import { figuresOf } from './laid/figures.ts';
import type { LaidGroup } from './laid/laid-group.ts';
import { pinsLeftOutIssues, spareIssues, unplacedIssues, unstackedIssues } from './laid/laid-issues.ts';
import { compareLosses, type Loss, leftOut, lossOf } from './laid/loss.ts';
import { withLowPiles } from './laid/lower-piles.ts';
import { type LayGroup, laySetsTogether } from './laid/sets-together.ts';
import { pinIssues } from './pin-issues.ts';
import { ProblemBuilder } from './problem/problem-spec.ts';
import { Pulse } from './running/pulse.ts';
import { layInBoxes, layQuickly, searchGroup } from './search-group.ts';
import { firstParting, wellParted } from './sections/choose-parting.ts';
import type { Parted } from './sections/tried-parting.ts';
import { endWorkers, startWorkers } from './workers/start-workers.ts';

/**
 * Lays out all copies of a batch on the boards of the right species and thickness. `withRemains` then tells what is
 * left of the boards.
 *
 * Same batch, seed and effort give the same layout. Stopped by the signal, it hands back the best layout so far;
 * what found no place is listed in `unplaced` with the reason, and told in the issues.
 *
 * @throws FretlayError when an option or a field of the batch is missing or makes no sense, an outline crosses itself or
 *   encloses nothing, two boards have one id or two parts of a layer one name, or a pin cannot be honoured, each told by
 *   its field; when a worker fails or ends by itself, or its script cannot be loaded
 */
export function layOut(
  batch: Batch,
  options: LayOutOptions = {},
): Promise<{ layout: Layout; issues: Issue[] }> {
  return layOutWith(new ProblemBuilder(), batch, options);
}

/**
 * As {@link layOut}; batches of the same parts laid out with one builder ask for their no-fit polygons once.
 *
 * @param already demands of the batch that are laid out and stay as they lie: the others do without their boards
 */
export async function layOutWith(
  builder: ProblemBuilder,
  given: Batch,
  options: LayOutOptions,
  already: LaidAlready = NOTHING_LAID,
): Promise<{ layout: Layout; issues: Issue[] }> {
  throwOnErrors(inputIssues(given, options));
  throwOnErrors(pinIssues(given, { field: 'batch.pins' }));
  const batch = inNewObjects(given);
  const stacks = stackWays({ ...batch, demands: stillToLay(batch, already) });
  const workers = startWorkers(options);
  try {
    const laying = new Laying(batch, stacks, builder, options.signal, already);
    const layout = await layOutStacks(laying, options, workers);
    const groups = stacks.flatMap(({ ways }) => ways[0]);
    return {
      layout,
      issues: [
        ...boardlessIssues(groups, layout),
        ...sharedOutlineIssues(groups),
        ...unplacedIssues(layout),
        ...pinsLeftOutIssues(layout, batch),
        ...spareIssues(layout),
        ...unstackedIssues(layout, batch),
      ],
    };
  } finally {
    endWorkers(workers);
  }
}

/** What is remembered of a batch and its outlines goes by the object, and the caller may change his and lay out again. */
function inNewObjects(batch: Batch): Batch {
  return { ...batch, demands: batch.demands.map((demand) => ({ ...demand, region: { ...demand.region } })) };
}

/**
 * Searches the groups one after the other; what one has taken of the stock the next ones do without. A search that
 * may be stopped, or is watched, starts with a quick layout of every group, so that no wood is left untried when it is,
 * and none is missing meanwhile.
 */
async function layOutStacks(
  laying: Laying,
  options: LayOutOptions,
  workers: readonly SearchWorker[],
): Promise<Layout> {
  const { batch, builder, signal } = laying;
  const isWatched = signal !== undefined || options.onProgress !== undefined;
  const given = isWatched ? await firstLayouts(laying, options.onProgress) : undefined;
  const quick = (await inCheaperOrder(laying, given)) ?? [];
  const { stacks } = laying;
  const moves = ((options.effort ?? USUAL_EFFORT) * 1000) / stacks.length;
  const settings = { seed: options.seed ?? 1, moves };
  let done = 0;
  // What stays whatever comes of the groups that are searched once more.
  let settled: readonly Taking[] | undefined;
  const wholeWith = (all: readonly Taking[]): readonly Taking[] => {
    const isWhole = all.length === stacks.length;
    const isLess =
      settled === undefined || (isWhole && compareLosses(leftOut(laidOf(all)), leftOut(laidOf(settled))) < 0);
    return atTheStop(isLess ? all : settled!, quick);
  };
  const search: LayWhole = async (whole, taken, { groups, place, parts, isLast }) => {
    const parted = await laying.partings(whole, taken);
    // Without a search the best of the quick layouts is as good as it gets.
    const tried = settings.moves > 0 ? parted : parted.slice(0, 1);
    let best: LaidParting | undefined;
    for (const [n, { group, start }] of tried.entries()) {
      if (best !== undefined && signal?.aborted) break;
      // Without a layout of all its sets the one before is shown.
      const report = (found: LaidGroup | undefined, share: number) => {
        const message = `${group.demands.length} parts in ${group.species.trim()}`;
        const next = found && lowered(group, found);
        const shown = best && next ? lesser(best, next) : (next ?? best);
        const own = shown !== undefined && isLast ? [takingOf([...parts, shown])] : [];
        const all = wholeWith(groups.toSpliced(place, 0, ...own));
        // Groups that go on to other wood are searched once more: what is done does not become less.
        const begun = groups.length + parts.length;
        done = Math.max(done, Math.min(1, (begun + (n + share) / tried.length) / stacks.length));
        options.onProgress?.({ done, message, best: laying.layoutOf(laidOf(all)) });
      };
      const lay = (part: Group, share: number) => {
        const onBetter =
          options.onProgress &&
          ((found: LaidGroup, spent: number) => report(part === group ? found : undefined, spent));
        const moves = (settings.moves * share) / tried.length;
        const search = { settings: { ...settings, moves }, workers, signal, builder, onBetter };
        return searchGroup(batch, part, search, part === group ? start : undefined);
      };
      const next = lowered(group, await layGroup(batch, group, lay));
      best = best === undefined ? next : lesser(best, next);
    }
    return best!;
  };
  const high = await layEach(stacks, signal, search, 'until stopped');
  if (signal?.aborted) return laying.layoutOf(laidOf(atTheStop(high, quick)));
  settled = high;
  const lower = await lowerStacks(laying, high);
  const low = lower === undefined ? high : await layEach(lower, signal, search, 'until stopped');
  const isBetter =
    low.length === high.length && compareLosses(leftOut(laidOf(low)), leftOut(laidOf(high))) < 0;
  settled = isBetter ? low : high;
  const last = await goneOn(stacks, settled, signal, search);
  return laying.layoutOf(laidOf(signal?.aborted ? atTheStop(last, quick) : last));
}

/**
 * Turns the order of the groups round where a quick layout then leaves less out or costs less: of groups that share
 * boards the first takes those that suit it best, and the others do with the rest.
 *
 * @param given quick layouts in the order of the batch, when there are any
 * @return the quick layouts in the order that is kept, when there are any
 */
async function inCheaperOrder(
  laying: Laying,
  given: readonly Taking[] | undefined,
): Promise<readonly Taking[] | undefined> {
  const { stacks, signal } = laying;
  const isShared = stacks.some(({ ways }, i) =>
    stacks.slice(0, i).some((before) => shareBoards(ways[0], before.ways[0])),
  );
  if (!isShared || signal?.aborted) return given;
  const turned = [...stacks].reverse();
  const [own, other] = [
    given ?? (await eachAndGoneOn(stacks, signal, quickly(laying), 'every group')),
    await eachAndGoneOn(turned, signal, quickly(laying), 'every group'),
  ];
  if (signal?.aborted) return given;
  const isPriced = [...own, ...other].every(({ parts }) =>
    parts.every(({ group }) => arePriced(group.pieces)),
  );
  if (compareLosses(outlay(other, isPriced), outlay(own, isPriced)) >= 0) return given;
  laying.stacks = turned;
  return given === undefined ? undefined : other;
}

/** What groups leave out together, and what their fresh boards and all their boards cost. */
function outlay(all: readonly Taking[], isPriced: boolean): Loss {
  const losses = all.flatMap(({ parts }) => parts.map(({ group, found }) => lossOf(group, found, isPriced)));
  const [, , fresh, , cost] = sumOf(losses);
  return [...leftOut(laidOf(all)), fresh, cost];
}

function sumOf(losses: readonly Loss[]): Loss {
  return losses.reduce((sum, one) => sum.map((value, i) => value + one[i]));
}

/**
 * The groups with lower stacks, where those leave less out: a stack that is as high as may be can take every board of a
 * wood and leave none for parts of that wood that are sawn by themselves or in other stacks. Told by quick layouts;
 * undefined when nothing is left out, or no lower stack helps.
 */
async function lowerStacks(
  laying: Laying,
  all: readonly Taking[],
): Promise<readonly StackWays[] | undefined> {
  let best: { stacks: readonly StackWays[]; loss: Loss } = {
    stacks: laying.stacks,
    loss: leftOut(laidOf(all)),
  };
  for (const [i, { ways }] of laying.stacks.entries()) {
    const wants = laying.stacks.some(
      (other, j) => j !== i && all[j].laid.unplaced.length > 0 && shareBoards(ways[0], other.ways[0]),
    );
    if (!wants) continue;
    for (let from = 1; from < ways.length && best.loss.some((value) => value > 0); from++) {
      if (laying.signal?.aborted) break;
      const [first, ...others] = ways.slice(from);
      const stacks = best.stacks.map((own, j) =>
        j === i ? { ...own, ways: [first, ...others] as const } : own,
      );
      const loss = leftOut(laidOf(await quickEach(laying, stacks)));
      if (compareLosses(loss, best.loss) < 0) best = { stacks, loss };
    }
  }
  return best.stacks === laying.stacks ? undefined : best.stacks;
}

/** True when some board entry serves groups of both. */
function shareBoards([a]: readonly Group[], [b]: readonly Group[]): boolean {
  const ids = new Set(a.stock.map(({ board }) => board.id));
  return b.stock.some(({ board }) => ids.has(board.id));
}

/** Lays out a group on what is not taken of the stock. */
type LayWhole = (whole: Group, taken: ReadonlySet<string>, beside: Beside) => Promise<LaidParting>;

/** The other groups that are laid out. */
interface Others {
  readonly groups: readonly Taking[];
  /** Where the group itself belongs among them. */
  readonly place: number;
}

/** What is laid out beside a group, and stays. */
interface Beside extends Others {
  /** Groups of the same way to saw in stacks. */
  readonly parts: readonly LaidParting[];
  /** True when no other group of the way comes after it. */
  readonly isLast: boolean;
}

/** A group laid out, with the names of the boards and strips it takes from the stock: of a slice, those of its board. */
interface Taking {
  readonly parts: readonly LaidParting[];
  readonly laid: LaidGroup;
  readonly takes: ReadonlySet<string>;
}

function laidOf(all: readonly Taking[]): LaidGroup[] {
  return all.map(({ laid }) => laid);
}

/**
 * Lays out every group on what those before it have left.
 *
 * @param extent whether the groups that have not had their turn when the signal is aborted are left out
 */
async function layEach(
  stacks: readonly StackWays[],
  signal: AbortSignal | undefined,
  lay: LayWhole,
  extent: 'every group' | 'until stopped',
): Promise<Taking[]> {
  const all: Taking[] = [];
  for (const { ways } of stacks) {
    if (extent === 'until stopped' && signal?.aborted) break;
    all.push(await firstWithRoom(ways, { groups: all, place: all.length }, signal, lay));
  }
  return all;
}

/**
 * The groups, with those of which copies find no place gone on to boards that ask for more work. Only when all have had
 * their turn: these boards may be the very wood of another group.
 */
async function goneOn(
  stacks: readonly StackWays[],
  own: readonly Taking[],
  signal: AbortSignal | undefined,
  lay: LayWhole,
): Promise<Taking[]> {
  const all = [...own];
  for (const [i, { laid }] of own.entries()) {
    const [first, ...others] = stacks[i].further;
    if (first === undefined || laid.unplaced.length === 0 || signal?.aborted) continue;
    const beside = { groups: all.toSpliced(i, 1), place: i };
    const wider = await firstWithRoom([first, ...others], beside, signal, lay);
    if (compareLosses(leftOut([wider.laid]), leftOut([laid])) < 0) all[i] = wider;
  }
  return all;
}

/**
 * The first way to saw in stacks that has room for all copies, or else the one that leaves least out, on what the groups
 * beside it have left.
 */
async function firstWithRoom(
  ways: StackWays['ways'],
  beside: Others,
  signal: AbortSignal | undefined,
  lay: LayWhole,
): Promise<Taking> {
  const gone = beside.groups.flatMap(({ takes }) => [...takes]);
  let best: (Taking & { readonly loss: Loss }) | undefined;
  for (const way of ways) {
    let parts: readonly LaidParting[] = [];
    for (const whole of way) {
      const taken = new Set([...gone, ...takingOf(parts).takes]);
      const isLast = parts.length === way.length - 1;
      parts = [...parts, await lay(whole, taken, { ...beside, parts, isLast })];
    }
    const taking = takingOf(parts);
    const loss = sumOf(parts.map(({ group, found }) => lossOf(group, found)));
    if (best === undefined || compareLosses(loss, best.loss) < 0) best = { ...taking, loss };
    if (taking.laid.unplaced.length === 0 || signal?.aborted) break;
  }
  return best!;
}

/** A group as its boards are parted, laid out. */
interface LaidParting {
  readonly group: Group;
  readonly found: LaidGroup;
}

function lowered(group: Group, found: LaidGroup): LaidParting {
  return { group, found: withLowPiles(group, found) };
}

/** Parts of a batch as they are laid out, with what they take of the stock. */
function takingOf(parts: readonly LaidParting[]): Taking {
  const takes = new Set<string>();
  for (const { group, found } of parts) takeFrom(group, found, takes);
  const boards = parts.flatMap(({ found }) => found.boards);
  return { parts, laid: { boards, unplaced: parts.flatMap(({ found }) => found.unplaced) }, takes };
}

/** The one that leaves less out, costs less, or takes up less; the first when they are alike. */
function lesser(a: LaidParting, b: LaidParting): LaidParting {
  return compareLosses(lossOf(b.group, b.found), lossOf(a.group, a.found)) < 0 ? b : a;
}

/** That every group is still to be laid out. */
const NOTHING_LAID: LaidAlready = { demands: [], boards: [] };

/** A batch being laid out: what the quick layouts and the searches of all its groups have in common. */
class Laying {
  readonly batch: Batch;
  /** In the order in which they are laid out. */
  stacks: readonly StackWays[];
  readonly builder: ProblemBuilder;
  readonly signal: AbortSignal | undefined;
  readonly #already: LaidAlready;
  /** Names of the boards that are taken before any group has its turn. */
  readonly #gone: readonly string[];
  readonly #parted = new Map<Group, Map<string, readonly Parted[]>>();

  constructor(
    batch: Batch,
    stacks: readonly StackWays[],
    builder: ProblemBuilder,
    signal: AbortSignal | undefined,
    already: LaidAlready,
  ) {
    this.batch = batch;
    this.stacks = stacks;
    this.builder = builder;
    this.signal = signal;
    this.#already = already;
    this.#gone = takenNames(already.boards);
  }

  /** The layout file of the groups laid out so far, beside what was laid out already. */
  layoutOf(laid: readonly LaidGroup[]): Layout {
    return assembled(this.batch, [{ boards: this.#already.boards, unplaced: [] }, ...laid]);
  }

  /**
   * Partings of a group on what is not taken of the stock. Found once: the search asks for the group that the quick
   * layout has asked for, mostly with the same boards taken.
   */
  async partings(group: Group, taken: ReadonlySet<string>): Promise<readonly Parted[]> {
    const { batch, builder, signal } = this;
    const ofGroup = this.#parted.get(group) ?? new Map<string, readonly Parted[]>();
    this.#parted.set(group, ofGroup);
    const key = [...taken].sort().join('\n');
    const gone = this.#goneWith(taken);
    const parted =
      ofGroup.get(key) ??
      (await wellParted(batch, group, { taken: gone, builder, pulse: new Pulse(signal) }));
    ofGroup.set(key, parted);
    return parted;
  }

  /** A group on what is not taken of the stock, its boards parted in the first way there is. */
  firstParting(group: Group, taken: ReadonlySet<string>): Group {
    return firstParting(this.batch, group, this.#goneWith(taken));
  }

  #goneWith(taken: ReadonlySet<string>): Set<string> {
    return new Set([...this.#gone, ...taken]);
  }
}

function layGroup(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  return batch.setsTogether === true ? laySetsTogether(batch, group, lay) : lay(group, 1);
}

/**
 * A quick layout of every group, as the search would lay it out. Before any of them comes one of everything in boxes, for
 * unlike outlines of one wood alone may take seconds; it is told where it holds all copies.
 */
async function firstLayouts(
  laying: Laying,
  onProgress: LayOutOptions['onProgress'],
): Promise<readonly Taking[]> {
  const { stacks, signal } = laying;
  const tell = (all: readonly Taking[], message: string) =>
    onProgress?.({ done: 0, message, best: laying.layoutOf(laidOf(all)) });
  const inBoxes = await eachAndGoneOn(stacks, signal, boxed(laying), 'every group');
  if (inBoxes.every(({ laid }) => laid.unplaced.length === 0)) tell(inBoxes, 'first layout in boxes');
  const own = await eachAndGoneOn(stacks, signal, quickly(laying), 'until stopped');
  const quick = signal?.aborted ? atTheStop(own, inBoxes) : own;
  tell(quick, 'first layout of everything');
  return quick;
}

/** Lays out every group on what those before it have left, and then goes on to boards that ask for more work. */
async function eachAndGoneOn(
  ...[stacks, signal, lay, extent]: Parameters<typeof layEach>
): Promise<Taking[]> {
  return goneOn(stacks, await layEach(stacks, signal, lay, extent), signal, lay);
}

function boxed(laying: Laying): LayWhole {
  return async (whole, taken) => {
    const group = laying.firstParting(whole, taken);
    const lay: LayGroup = (part) => layInBoxes(laying.batch, part, laying);
    return lowered(group, await layGroup(laying.batch, group, lay));
  };
}

/** A quick layout of every group, each on the boards that the ones before it have left. */
function quickEach(laying: Laying, stacks: readonly StackWays[]): Promise<Taking[]> {
  return layEach(stacks, laying.signal, quickly(laying), 'every group');
}

function quickly(laying: Laying): LayWhole {
  return async (whole, taken) => {
    const [{ group, start }] = await laying.partings(whole, taken);
    const lay: LayGroup = (part) =>
      layQuickly(laying.batch, part, laying, part === group ? start : undefined);
    return lowered(group, await layGroup(laying.batch, group, lay));
  };
}

/** Takes the boards that carry something of a group from the stock; what a pile was lowered by stays there. */
function takeFrom({ pieces }: Group, { boards }: LaidGroup, taken: Set<string>): void {
  const used = new Set(boards.flatMap(({ id, pieces: names = [id] }) => names));
  for (const { board, units } of pieces) {
    for (const unit of units)
      if (used.has(unitName(board, unit))) taken.add(unitName(board, { ...unit, slice: undefined }));
  }
}

/**
 * What a stopped search hands back: what it has found for the groups it came to, the quick layouts of the others.
 * Where both want one board, or the quick layouts leave less out, all groups keep their quick ones.
 */
function atTheStop(searched: readonly Taking[], quick: readonly Taking[]): readonly Taking[] {
  const last = searched.length - 1;
  const lastIsQuick =
    last >= 0 && compareLosses(leftOut([quick[last].laid]), leftOut([searched[last].laid])) < 0;
  const done = lastIsQuick ? searched.slice(0, last) : searched;
  const mixed = [...done, ...quick.slice(done.length)];
  // What is taken, not what is sawn: one group may saw a board whole, another slices of it that have names of their own.
  const taken = mixed.flatMap(({ takes }) => [...takes]);
  const isOneEach = new Set(taken).size === taken.length;
  return isOneEach && compareLosses(leftOut(laidOf(mixed)), leftOut(laidOf(quick))) <= 0 ? mixed : quick;
}

/** The layout file of what has been laid out. */
function assembled(batch: Batch, laid: readonly LaidGroup[]): Layout {
  const boards: LaidBoard[] = laid.flatMap((group) => group.boards);
  const unplaced: Unplaced[] = laid.flatMap((group) => group.unplaced);
  const setContents = batch.demands.map(
    ({ part, layer, copiesPerSet, rules, region }): SetContent => ({
      part,
      layer,
      copiesPerSet,
      grain: rules.grain,
      grainTolerance: rules.grainTolerance,
      turnOver: rules.turnOver,
      ...(rules.restEdge ? { restEdge: true } : {}),
      // Its rings alone: the caller's object may be wider, and a layout file has no fields but its own.
      region: { outline: region.outline, openings: region.openings },
    }),
  );
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: batch.kerf,
    clearance: batch.clearance,
    edgeMargin: batch.edgeMargin,
    sets: batch.sets,
    ...(batch.setsTogether === true ? { setsTogether: true } : {}),
    setContents,
    boards,
    unplaced,
    figures: figuresOf(boards, batch.boards, setContents, batch.sets),
  };
}
