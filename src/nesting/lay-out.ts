import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions, SearchWorker } from '../model/laying-out.ts';
import type { LaidBoard, Layout, SetContent, Unplaced } from '../model/layout.ts';
import { unitName } from '../stock/units.ts';
import { withOffcuts } from '../stock/with-offcuts.ts';
import { figuresOf } from './figures.ts';
import { groupSpec } from './group-problem.ts';
import { boardlessIssues, boardsTaken, type Group, groupDemands, withPieces } from './groups.ts';
import { type LaidGroup, laidGroup } from './laid-group.ts';
import { buildProblem } from './problem-spec.ts';
import { searchTogether } from './search-pool.ts';
import { arrangementOf, type Found } from './search-task.ts';

/** Moves of the search in thousands when the caller names none. */
const DEFAULT_EFFORT = 20;

/**
 * Lays out all copies of a batch on the boards of the right species and thickness.
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

async function layOutGroups(
  batch: Batch,
  groups: readonly Group[],
  options: LayOutOptions,
  workers: readonly SearchWorker[],
): Promise<Layout> {
  const laid: LaidGroup[] = groups.map(() => ({ boards: [], unplaced: [] }));
  const taken = new Set<string>();
  const moves = ((options.effort ?? DEFAULT_EFFORT) * 1000) / groups.length;
  for (const [index, whole] of groups.entries()) {
    const group = withPieces(whole, taken);
    const spec = groupSpec(batch, group);
    const put = (found: Found) => laidGroup(batch, group, buildProblem(spec), arrangementOf(found));
    const onBetter = throttled((found: Found) => {
      const message = `${group.demands.length} parts in ${group.species.trim()}`;
      const best = assembled(batch, [...laid.slice(0, index), put(found)]);
      options.onProgress?.({ done: (index + found.done) / groups.length, message, best });
    });
    const settings = { seed: options.seed ?? 1, moves };
    laid[index] = put(await searchTogether(spec, settings, workers, options.signal, onBetter));
    const used = new Set(laid[index].boards.map(({ id }) => id));
    for (const piece of group.pieces) {
      if (used.has(unitName(piece.board, piece.units[0])))
        for (const name of boardsTaken(piece)) taken.add(name);
    }
  }
  return assembled(
    batch,
    laid.map((group) => withRemains(batch, group)),
  );
}

/** The group with what is left of its boards. */
function withRemains(batch: Batch, { boards, unplaced }: LaidGroup): LaidGroup {
  const stock = new Map(batch.boards.map((board) => [board.id, board]));
  return { boards: boards.map((laid) => withOffcuts(laid, stock.get(laid.stock)!, batch)), unplaced };
}

/** Milliseconds between two progress reports at least. */
const REPORT_EVERY = 100;

/** Calls through at most ten times a second. */
function throttled(report: (found: Found) => void): (found: Found) => void {
  let last = Number.NEGATIVE_INFINITY;
  return (found) => {
    if (performance.now() - last < REPORT_EVERY) return;
    last = performance.now();
    report(found);
  };
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
    message: `${count} ${count === 1 ? 'copy' : 'copies'} found no place: ${first.why}`,
    remedy: 'Add stock, make fewer sets, or allow the part more freedom (grain, turning over).',
    where: { layer: first.layer, part: first.part },
  }));
}
