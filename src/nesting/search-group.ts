import type { Batch } from '../model/batch.ts';
import type { SearchWorker } from '../model/laying-out.ts';
import { constructQuickly } from './construct.ts';
import { groupSpec } from './group-problem.ts';
import type { Group } from './groups.ts';
import { type LaidGroup, laidGroup } from './laid-group.ts';
import { type BuiltProblem, buildProblem } from './problem-spec.ts';
import { Pulse } from './pulse.ts';
import { type SearchSettings, searchTogether } from './search-pool.ts';
import { arrangementOf, type Found } from './search-task.ts';

/** One group of boards and parts laid out: at once, or with all the effort there is. */

/**
 * Lays a group out in one pass over its parts: what is at hand when a search is stopped early, and a trial of how its
 * stock is parted. The fields of the parts, the dear thing of a quick layout, are built once and serve the next call
 * too: they do not ask where the boards end.
 */
export function quickLayouts(
  batch: Batch,
  signal: AbortSignal | undefined,
): (group: Group) => Promise<LaidGroup> {
  let shared: BuiltProblem | undefined;
  let sharedCopies = '';
  return async (group) => {
    const spec = groupSpec(batch, group);
    const copies = spec.shapes.map((shape) => shape.copies).join(' ');
    if (shared === undefined || copies !== sharedCopies) shared = buildProblem(spec);
    sharedCopies = copies;
    const built = { ...shared, problem: { ...shared.problem, containers: spec.containers } };
    const arrangement = await constructQuickly(built.problem, new Pulse(signal));
    return laidGroup(batch, group, built, arrangement, signal?.aborted === true);
  };
}

/** How the searches of a layout are run. */
export interface GroupSearch {
  readonly settings: SearchSettings;
  readonly workers: readonly SearchWorker[];
  readonly signal: AbortSignal | undefined;
  /** Called with every better layout of the group and the share of its effort that is gone. */
  readonly onBetter: (laid: LaidGroup, done: number) => void;
}

/** The best layout of a group that the search finds before its effort is spent or its signal comes. */
export async function searchGroup(batch: Batch, group: Group, search: GroupSearch): Promise<LaidGroup> {
  const { settings, workers, signal } = search;
  const spec = groupSpec(batch, group);
  const built = buildProblem(spec);
  const put = (found: Found) =>
    laidGroup(batch, group, built, arrangementOf(found), signal?.aborted === true);
  const onBetter = throttled((found: Found) => search.onBetter(put(found), found.done));
  return put(await searchTogether(spec, settings, workers, signal, onBetter));
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
