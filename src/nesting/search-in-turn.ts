import {
  type LayOutOptions,
  type LayOutProgress,
  type SearchWorker,
  USUAL_EFFORT,
} from '../model/laying-out.ts';
import { inCheaperOrder } from './cheaper-order.ts';
import { firstLayouts, lowerStacks, quickly } from './first-layouts.ts';
import type { Group } from './groups/group.ts';
import { type Beside, goneOn, type LayWhole, layEach, layGroup } from './in-turn.ts';
import type { LaidGroup } from './laid/laid-group.ts';
import { leftOut } from './laid/loss.ts';
import type { Laying } from './laying.ts';
import { compareLosses } from './problem/compare-losses.ts';
import { searchGroup } from './search-group.ts';
import type { Parted } from './sections/tried-parting.ts';
import { sharesOfMoves } from './shares-of-moves.ts';
import { atTheStop, type LaidParting, laidOf, lesser, lowered, type Taking, takingOf } from './taking.ts';

/**
 * Searches the groups one after the other; what one has taken of the stock the next ones do without. A search that
 * may be stopped, or is watched, starts with a quick layout of every group, so that no wood is left untried when it is,
 * and none is missing meanwhile.
 */
export async function searchInTurn(
  laying: Laying,
  options: LayOutOptions,
  workers: readonly SearchWorker[],
): Promise<readonly Taking[]> {
  const { signal } = laying;
  const moves = (options.effort ?? USUAL_EFFORT) * 1000;
  const seed = options.seed ?? 1;
  const quick = await quickLayouts(laying, { seed, moves }, options.onProgress);
  const { stacks } = laying;
  const search = new SearchInTurn(laying, workers, { seed, moves, quick, onProgress: options.onProgress });
  const high = await layEach(stacks, signal, search.lay, 'until stopped');
  if (signal?.aborted) return atTheStop(high, quick);
  search.settled = high;
  const lower = await lowerStacks(laying, stacks, high, quickly(laying));
  const low = lower === undefined ? high : await layEach(lower.stacks, signal, search.lay, 'until stopped');
  const settled = low.length === high.length && leavesLessOut(low, high) ? low : high;
  search.settled = settled;
  const last = await goneOn(stacks, settled, signal, search.lay);
  return signal?.aborted ? atTheStop(last, quick) : last;
}

/** Effort for all groups together. */
interface WholeEffort {
  readonly seed: number;
  readonly moves: number;
}

/** Puts the groups in their order, and lays them out quickly where that may be asked for; empty where it may not. */
async function quickLayouts(
  laying: Laying,
  { seed, moves }: WholeEffort,
  onProgress: LayOutOptions['onProgress'],
): Promise<readonly Taking[]> {
  if (laying.brief) return [];
  const isWatched = laying.signal !== undefined || onProgress !== undefined;
  const given = isWatched ? await firstLayouts(laying, onProgress) : undefined;
  return (await inCheaperOrder(laying, { seed, moves: moves / laying.stacks.length }, given)) ?? [];
}

function leavesLessOut(all: readonly Taking[], others: readonly Taking[]): boolean {
  return compareLosses(leftOut(laidOf(all)), leftOut(laidOf(others))) < 0;
}

interface SearchTerms extends WholeEffort {
  /** Quick layouts of the groups in their order, or none. */
  readonly quick: readonly Taking[];
  readonly onProgress: LayOutOptions['onProgress'];
}

/** A group as its boards are parted for a search, and where that search belongs. */
interface Trial {
  readonly parting: Parted;
  /** Which of the partings of its group that are tried, from 0, and how many these are. */
  readonly number: number;
  readonly count: number;
  /** The best of those tried before it. */
  readonly best: LaidParting | undefined;
  readonly beside: Beside;
}

/** Groups searched with their shares of the effort, each told of in a layout of everything. */
class SearchInTurn {
  /** Groups laid out that stay, whatever comes of those that are searched once more. */
  settled: readonly Taking[] | undefined;
  readonly #laying: Laying;
  readonly #workers: readonly SearchWorker[];
  readonly #terms: SearchTerms;
  /** Share of the effort for each group. */
  readonly #shares: readonly number[];
  /** Share of the effort that is gone: groups that go on to other wood are searched once more, and it does not become less. */
  #done = 0;

  constructor(laying: Laying, workers: readonly SearchWorker[], terms: SearchTerms) {
    this.#laying = laying;
    this.#workers = workers;
    this.#terms = terms;
    this.#shares = sharesOfMoves(laying.stacks);
  }

  /** Searches a group on its boards as they are parted in each of the ways that are worth it. */
  readonly lay: LayWhole = async (whole, taken, beside) => {
    const parted = await this.#laying.partings(whole, taken);
    // Without a search the best of the quick layouts is as good as it gets.
    const tried = this.#terms.moves > 0 ? parted : parted.slice(0, 1);
    let best: LaidParting | undefined;
    for (const [number, parting] of tried.entries()) {
      if (best !== undefined && this.#laying.signal?.aborted) break;
      const next = await this.#search({ parting, number, count: tried.length, best, beside });
      best = best === undefined ? next : lesser(best, next);
    }
    return best!;
  };

  async #search(trial: Trial): Promise<LaidParting> {
    const { batch, builder, signal } = this.#laying;
    const { seed, moves, onProgress } = this.#terms;
    const { group, start } = trial.parting;
    const own = (moves * this.#shares[trial.beside.place]) / trial.count;
    const lay = (part: Group, share: number): Promise<LaidGroup> => {
      const isWhole = part === group;
      // Without a layout of all its sets the one before is shown.
      const onBetter =
        onProgress &&
        ((found: LaidGroup, spent: number) =>
          onProgress(this.#progress(trial, isWhole ? found : undefined, spent)));
      const settings = { seed, moves: own * share };
      const search = { settings, workers: this.#workers, signal, builder, onBetter };
      return searchGroup(batch, part, search, isWhole ? start : undefined);
    };
    return lowered(group, await layGroup(batch, group, lay));
  }

  /**
   * What is told of a search that goes on.
   *
   * @param found the group as it is laid out so far; what was found before is shown when left out
   * @param spent share of the effort of the search that is gone
   */
  #progress(
    { parting: { group }, number, count, best, beside }: Trial,
    found: LaidGroup | undefined,
    spent: number,
  ): LayOutProgress {
    const { groups, place, parts, isLast } = beside;
    const next = found && lowered(group, found);
    const shown = best && next ? lesser(best, next) : (next ?? best);
    const inPlace = shown !== undefined && isLast ? [takingOf([...parts, shown])] : [];
    const all = this.#shown(groups.toSpliced(place, 0, ...inPlace));
    const before = this.#shares.slice(0, groups.length).reduce((sum, one) => sum + one, 0);
    const own = this.#shares[place] * (parts.length + (number + spent) / count);
    this.#done = Math.max(this.#done, Math.min(1, before + own));
    return {
      done: this.#done,
      message: `${group.demands.length} parts in ${group.species.trim()}`,
      best: this.#laying.layoutOf(laidOf(all)),
    };
  }

  /** The groups as a search that were stopped now would hand them back. */
  #shown(all: readonly Taking[]): readonly Taking[] {
    const { settled } = this;
    const isWhole = all.length === this.#laying.stacks.length;
    const counts = settled === undefined || (isWhole && leavesLessOut(all, settled));
    return atTheStop(counts ? all : settled, this.#terms.quick);
  }
}
