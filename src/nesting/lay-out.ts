import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions, SearchWorker } from '../model/laying-out.ts';
import type { LaidBoard, Layout, SetContent, Unplaced } from '../model/layout.ts';
import { compareLosses, lossOf, type Parted, wellParted } from './choose-parting.ts';
import { figuresOf } from './figures.ts';
import { boardlessIssues, boardNameOf, boardsTaken, type Group, groupDemands } from './groups.ts';
import type { LaidGroup } from './laid-group.ts';
import { ProblemBuilder } from './problem-spec.ts';
import { Pulse } from './pulse.ts';
import { layQuickly, searchGroup } from './search-group.ts';
import { type LayGroup, laySetsTogether } from './sets-together.ts';

/** Moves of the search in thousands when the caller names none. */
const DEFAULT_EFFORT = 20;

/**
 * Lays out all copies of a batch on the boards of the right species and thickness. `withRemains` then tells what is
 * left of the boards.
 *
 * Same batch, seed and effort give the same layout. Stopped by the signal, it hands back the best layout so far;
 * what found no place is listed in `unplaced` with the reason, and told in the issues.
 */
export async function layOut(
  batch: Batch,
  options: LayOutOptions = {},
): Promise<{ layout: Layout; issues: Issue[] }> {
  const groups = groupDemands(batch);
  const workers = startWorkers(options);
  try {
    const layout = await layOutGroups(batch, groups, options, workers);
    return { layout, issues: [...boardlessIssues(groups), ...unplacedIssues(layout)] };
  } finally {
    for (const worker of workers) worker.terminate();
  }
}

function startWorkers({ workers = 1, startWorker }: LayOutOptions): SearchWorker[] {
  return startWorker === undefined ? [] : Array.from({ length: Math.max(1, workers) }, startWorker);
}

/**
 * Searches the groups one after the other; what one has taken of the stock the next ones do without. A search that
 * may be stopped starts with a quick layout of every group, so that no wood is left untried when it is.
 */
async function layOutGroups(
  batch: Batch,
  groups: readonly Group[],
  options: LayOutOptions,
  workers: readonly SearchWorker[],
): Promise<Layout> {
  const { signal } = options;
  const partings = partingsOnce(batch, signal);
  const quick = signal === undefined ? undefined : await quickGroups(batch, groups, partings, signal);
  const moves = ((options.effort ?? DEFAULT_EFFORT) * 1000) / groups.length;
  const settings = { seed: options.seed ?? 1, moves };
  const laid: LaidGroup[] = [];
  const taken = new Set<string>();
  for (const whole of groups) {
    if (signal?.aborted) break;
    const parted = await partings(whole, taken);
    // Without a search the best of the quick layouts is as good as it gets.
    const tried = settings.moves > 0 ? parted : parted.slice(0, 1);
    const builder = new ProblemBuilder();
    let best: LaidParting | undefined;
    for (const [n, { group, start }] of tried.entries()) {
      if (best !== undefined && signal?.aborted) break;
      const onBetter = (found: LaidGroup, done: number) => {
        const message = `${group.demands.length} parts in ${group.species.trim()}`;
        const layout = assembled(batch, [
          ...laid,
          best === undefined ? found : lesser(best, { group, found }).found,
        ]);
        const share = (laid.length + (n + done) / tried.length) / groups.length;
        options.onProgress?.({ done: share, message, best: layout });
      };
      const lay = (part: Group, share: number) => {
        const moves = (settings.moves * share) / tried.length;
        const search = { settings: { ...settings, moves }, workers, signal, builder, onBetter };
        return searchGroup(batch, part, search, part === group ? start : undefined);
      };
      const next = { group, found: await layGroup(batch, group, lay) };
      best = best === undefined ? next : lesser(best, next);
    }
    laid.push(best!.found);
    takeFrom(best!.group, best!.found, taken);
  }
  return assembled(batch, signal?.aborted ? atTheStop(laid, quick ?? []) : laid);
}

/** A group as its boards are parted, laid out. */
interface LaidParting {
  readonly group: Group;
  readonly found: LaidGroup;
}

/** The one that leaves less out, costs less, or takes up less; the first when they are alike. */
function lesser(a: LaidParting, b: LaidParting): LaidParting {
  return compareLosses(lossOf(b.group, b.found), lossOf(a.group, a.found)) < 0 ? b : a;
}

/** Partings of groups, those asked for again with the same boards taken found once. */
type Partings = (group: Group, taken: ReadonlySet<string>) => Promise<readonly Parted[]>;

function partingsOnce(batch: Batch, signal: AbortSignal | undefined): Partings {
  const known = new Map<Group, Map<string, readonly Parted[]>>();
  return async (group, taken) => {
    const ofGroup = known.get(group) ?? new Map<string, readonly Parted[]>();
    known.set(group, ofGroup);
    const key = [...taken].sort().join('\n');
    const parted =
      ofGroup.get(key) ?? (await wellParted(batch, group, taken, new ProblemBuilder(), new Pulse(signal)));
    ofGroup.set(key, parted);
    return parted;
  };
}

function layGroup(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  return batch.setsTogether === true ? laySetsTogether(batch, group, lay) : lay(group, 1);
}

/** A quick layout of every group, each on the boards that the ones before it have left. */
async function quickGroups(
  batch: Batch,
  groups: readonly Group[],
  partings: Partings,
  signal: AbortSignal,
): Promise<LaidGroup[]> {
  const laid: LaidGroup[] = [];
  const taken = new Set<string>();
  for (const whole of groups) {
    const [{ group, start }] = await partings(whole, taken);
    const builder = new ProblemBuilder();
    const lay: LayGroup = (part) =>
      layQuickly(batch, part, builder, signal, part === group ? start : undefined);
    const found = await layGroup(batch, group, lay);
    laid.push(found);
    takeFrom(group, found, taken);
  }
  return laid;
}

/** Takes the boards that carry something of a group from the stock. */
function takeFrom(group: Group, laid: LaidGroup, taken: Set<string>): void {
  const used = new Set(laid.boards.map(({ id }) => id));
  for (const piece of group.pieces) {
    if (used.has(boardNameOf(piece))) for (const name of boardsTaken(piece)) taken.add(name);
  }
}

/**
 * What a stopped search hands back: what it has found for the groups it came to, the quick layouts of the others.
 * Where both want one board, or the quick layouts leave fewer copies out, all groups keep their quick ones.
 */
function atTheStop(searched: readonly LaidGroup[], quick: readonly LaidGroup[]): readonly LaidGroup[] {
  const last = searched.length - 1;
  const lastIsQuick = last >= 0 && missing([quick[last]]) < missing([searched[last]]);
  const done = lastIsQuick ? searched.slice(0, last) : searched;
  const mixed = [...done, ...quick.slice(done.length)];
  const ids = mixed.flatMap(({ boards }) => boards.flatMap(({ id, pieces }) => pieces ?? [id]));
  const isOneEach = new Set(ids).size === ids.length;
  return isOneEach && missing(mixed) <= missing(quick) ? mixed : quick;
}

function missing(laid: readonly LaidGroup[]): number {
  return laid.reduce((sum, { unplaced }) => sum + unplaced.length, 0);
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
      region,
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

/** One warning for every kind of part of which copies found no place. */
function unplacedIssues({ unplaced }: Layout): Issue[] {
  const counts = new Map<string, { first: Unplaced; count: number }>();
  for (const copy of unplaced) {
    const key = JSON.stringify([copy.layer, copy.part, copy.why]);
    const known = counts.get(key);
    if (known === undefined) counts.set(key, { first: copy, count: 1 });
    else known.count++;
  }
  return [...counts.values()].map(({ first, count }) => ({
    kind: 'copies-unplaced',
    severity: 'warning',
    message: `${counted(count, 'copy', 'copies')} found no place: ${first.why}`,
    remedy: 'Add stock, make fewer sets, or allow the part more freedom (grain, turning over).',
    where: { layer: first.layer, part: first.part },
  }));
}
