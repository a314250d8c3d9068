import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions, SearchWorker } from '../model/laying-out.ts';
import type { LaidBoard, Layout, SetContent, Unplaced } from '../model/layout.ts';
import { unitName } from '../stock/units.ts';
import { wellParted } from './choose-parting.ts';
import { figuresOf } from './figures.ts';
import { boardlessIssues, boardsTaken, type Group, groupDemands, withPieces } from './groups.ts';
import type { LaidGroup } from './laid-group.ts';
import { quickLayouts, searchGroup } from './search-group.ts';
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
  const quick = signal === undefined ? undefined : await quickGroups(batch, groups, signal);
  const moves = ((options.effort ?? DEFAULT_EFFORT) * 1000) / groups.length;
  const settings = { seed: options.seed ?? 1, moves };
  const laid: LaidGroup[] = [];
  const taken = new Set<string>();
  for (const whole of groups) {
    if (signal?.aborted) break;
    const group = await wellParted(whole, taken, quickLayouts(batch, signal));
    const onBetter = (found: LaidGroup, done: number) => {
      const message = `${group.demands.length} parts in ${group.species.trim()}`;
      const best = assembled(batch, [...laid, found]);
      options.onProgress?.({ done: (laid.length + done) / groups.length, message, best });
    };
    const lay = (part: Group, share: number) =>
      searchGroup(batch, part, {
        settings: { ...settings, moves: settings.moves * share },
        workers,
        signal,
        onBetter,
      });
    const found = await layGroup(batch, group, lay);
    laid.push(found);
    takeFrom(group, found, taken);
  }
  return assembled(batch, signal?.aborted ? atTheStop(laid, quick ?? []) : laid);
}

function layGroup(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  return batch.setsTogether === true ? laySetsTogether(batch, group, lay) : lay(group, 1);
}

/** A quick layout of every group, each on the boards that the ones before it have left. */
async function quickGroups(
  batch: Batch,
  groups: readonly Group[],
  signal: AbortSignal,
): Promise<LaidGroup[]> {
  const laid: LaidGroup[] = [];
  const taken = new Set<string>();
  for (const whole of groups) {
    const group = withPieces(whole, taken);
    const found = await layGroup(batch, group, quickLayouts(batch, signal));
    laid.push(found);
    takeFrom(group, found, taken);
  }
  return laid;
}

/** Takes the boards that carry something of a group from the stock. */
function takeFrom(group: Group, laid: LaidGroup, taken: Set<string>): void {
  const used = new Set(laid.boards.map(({ id }) => id));
  for (const piece of group.pieces) {
    if (used.has(unitName(piece.board, piece.units[0])))
      for (const name of boardsTaken(piece)) taken.add(name);
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
