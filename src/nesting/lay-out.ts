import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { LaidBoard, Layout, SetContent, Unplaced } from '../model/layout.ts';
import { MoveBudget } from './budget.ts';
import { figuresOf } from './figures.ts';
import { groupProblem } from './group-problem.ts';
import { boardlessIssues, type Group, groupDemands } from './groups.ts';
import { type LaidGroup, laidGroup } from './laid-group.ts';
import { Pulse } from './pulse.ts';
import { solve } from './solve.ts';

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
  const laid: LaidGroup[] = groups.map(() => ({ boards: [], unplaced: [] }));
  const taken = new Set<string>();
  for (const [index, whole] of groups.entries()) {
    const group = withoutTaken(whole, taken);
    laid[index] = await layOutGroup(batch, group, options, groups.length, (partial, done) => {
      const message = `${group.demands.length} parts in ${group.species.trim()}`;
      const best = assembled(batch, [...laid.slice(0, index), partial]);
      options.onProgress?.({ done: (index + done) / groups.length, message, best });
    });
    for (const { id } of laid[index].boards) taken.add(id);
  }
  const layout = assembled(batch, laid);
  return { layout, issues: [...boardlessIssues(groups), ...unplacedIssues(layout)] };
}

/** The group without the boards that an earlier group has used. */
function withoutTaken(group: Group, taken: ReadonlySet<string>): Group {
  return {
    ...group,
    pieces: group.pieces.filter(({ board, number }) => !taken.has(`${board.id}-${number}`)),
  };
}

async function layOutGroup(
  batch: Batch,
  group: Group,
  options: LayOutOptions,
  groupCount: number,
  onBetter: (partial: LaidGroup, done: number) => void,
): Promise<LaidGroup> {
  const built = groupProblem(batch, group);
  const arrangement = await solve(built.problem, {
    perSet: group.demands.map(({ copiesPerSet }) => Math.max(1, copiesPerSet)),
    budget: new MoveBudget(((options.effort ?? DEFAULT_EFFORT) * 1000) / groupCount),
    seed: options.seed ?? 1,
    pulse: new Pulse(options.signal),
    onBetter: (better, done) => onBetter(laidGroup(batch, group, built, better), done),
  });
  return laidGroup(batch, group, built, arrangement);
}

/** The layout file of what has been laid out. */
function assembled(batch: Batch, laid: readonly LaidGroup[]): Layout {
  const boards: LaidBoard[] = laid.flatMap((group) => group.boards);
  const unplaced: Unplaced[] = laid.flatMap((group) => group.unplaced);
  const setContents = batch.demands.map(
    ({ part, layer, copiesPerSet, rules }): SetContent => ({
      part,
      layer,
      copiesPerSet,
      grain: rules.grain,
      grainTolerance: rules.grainTolerance,
      turnOver: rules.turnOver,
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
