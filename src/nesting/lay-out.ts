import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions, SearchWorker } from '../model/laying-out.ts';
import type { Layout } from '../model/layout.ts';
import { quickly } from './first-layouts.ts';
import { arePriced } from './groups/group-problem.ts';
import { boardlessIssues, type LaidAlready, stillToLay } from './groups/groups.ts';
import { sharedOutlineIssues } from './groups/shared-outlines.ts';
import { groupsOf, stackWays } from './groups/stack-ways.ts';
import { idleStacks } from './idle-stacks.ts';
import { eachAndGoneOn } from './in-turn.ts';
import { inputIssues } from './input-issues.ts';
import { withFewerFaceDown } from './laid/fewer-face-down.ts';
import { pinsLeftOutIssues, spareIssues, unplacedIssues, unstackedIssues } from './laid/laid-issues.ts';
import { leftOut } from './laid/loss.ts';
import { Laying } from './laying.ts';
import type { LayingTerms } from './laying-terms.ts';
import { pinIssues } from './pin-issues.ts';
import { compareLosses } from './problem/compare-losses.ts';
import { ProblemBuilder } from './problem/problem-spec.ts';
import { searchInTurn } from './search-in-turn.ts';
import { laidOf, outlay, type Taking } from './taking.ts';
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
 * @param terms those that only a part of this project asks for
 */
export async function layOutWith(
  builder: ProblemBuilder,
  given: Batch,
  options: LayOutOptions,
  terms: Partial<LayingTerms> = {},
): Promise<{ layout: Layout; issues: Issue[] }> {
  throwOnErrors(inputIssues(given, options));
  throwOnErrors(pinIssues(given, { field: 'batch.pins' }));
  const batch = inNewObjects(given);
  const { already = NOTHING_LAID, brief = false } = terms;
  const stacks = stackWays({ ...batch, demands: stillToLay(batch, already) });
  const workers = startWorkers(options);
  try {
    const laying = new Laying(batch, stacks, builder, options.signal, { already, brief });
    const inStacks = await searchInTurn(laying, options, workers);
    const found = laidOf(await orSingly(laying, inStacks, already, options, workers));
    const layout = laying.layoutOf(found.map((laid) => withFewerFaceDown(batch, laid)));
    // A search that was stopped has not come to its end.
    if (!options.signal?.aborted) options.onProgress?.({ done: 1, message: 'search ended', best: layout });
    const groups = stacks.flatMap(({ ways }) => ways[0]);
    return {
      layout,
      issues: [
        ...boardlessIssues(groups, layout),
        ...sharedOutlineIssues(groups),
        ...unplacedIssues(layout, options.effort !== 0),
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
 * The groups as they are laid out, or those of them whose stacks gain nothing laid out anew without, where that leaves less out or,
 * if no stack came about anyway, costs less. A quick layout tells whether it is worth a search.
 *
 * @param all the groups in the order of the laying
 */
async function orSingly(
  { batch, builder, signal, stacks, brief }: Laying,
  all: readonly Taking[],
  already: LaidAlready,
  options: LayOutOptions,
  workers: readonly SearchWorker[],
): Promise<readonly Taking[]> {
  const idle = signal?.aborted ? undefined : idleStacks(stacks, all);
  if (idle === undefined) return all;
  const [own, others] = [true, false].map((isOwn) => all.filter((_, i) => idle.places.has(i) === isOwn));
  const boards = [...already.boards, ...laidOf(others).flatMap((laid) => laid.boards)];
  const single = { ...batch, demands: idle.demands };
  const ways = stackWays(single);
  const laying = new Laying(single, ways, builder, signal, { already: { demands: [], boards }, brief });
  const isPriced = [...stacks, ...ways].flatMap(groupsOf).every(({ pieces }) => arePriced(pieces));
  const lossOf = (found: readonly Taking[]) =>
    idle.areMade ? leftOut(laidOf(found)) : outlay(found, isPriced);
  const compared = (found: readonly Taking[]) => compareLosses(lossOf(found), lossOf(own));
  const quick = await eachAndGoneOn(ways, signal, quickly(laying), 'every group');
  const mayBeBetter = idle.areMade ? compared(quick) < 0 : compared(quick) <= 0;
  if (!mayBeBetter || signal?.aborted) return all;
  const found = await searchInTurn(laying, { ...options, onProgress: undefined }, workers);
  return compared(found) < 0 ? [...others, ...found] : all;
}

/** That every group is still to be laid out. */
const NOTHING_LAID: LaidAlready = { demands: [], boards: [] };
