import { Arrangement, fullEnds, untwist } from '../arrangement/arrangement.ts';
import { allContainers, allCopies, copiesByArea, placeInOrder } from '../construct/construct.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { byCostOfArea, type WholeBoard } from '../problem/whole-boards.ts';
import { MovesOfBudget, shareOfRest } from '../running/budget.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { changeOfFilling, type TriedFilling } from './change-of-filling.ts';
import { FailedTries } from './failed-tries.ts';
import type { FillingChoice, FillingChoices } from './filling-choices.ts';
import { type Filling, Fillings, keyOf, type Wanted } from './fillings.ts';
import { Fitting, fittingTools } from './fitting.ts';
import { scatter } from './scatter.ts';

/** Kinds of boards that are filled copy by copy to begin with, beside those in use: of those for nothing and of the others. */
const KINDS_FILLED = 12;

/** Moves a copy that they get together the first time; the second time twice as many, and so on. */
const MOVES_OF_COPY = 15;

/** Every so many times a filling is begun anew, and not from what came nearest. */
const ANEW = 4;

/** Choices changed or disturbed to no purpose before the search ends without another try. */
const PATIENCE = 1000;

/** Moves that looking for a change takes, for every shape and for every filling that is known or was tried. */
const MOVES_OF_LOOKING = 0.005;

/** Share of the budget for filling boards copy by copy, each copy a move. */
const COPY_BY_COPY = 0.25;

/** Copies on one board at most: a try makes tables of all their pairs, which take up to 16 MB then. */
const MOST_ON_BOARD = 1000;

/** Tries to fill boards otherwise, and what came of them. */
export class FillingTrials {
  readonly fillings: Fillings;
  readonly tried = new Map<string, TriedFilling>();
  readonly #random: Random;
  #firstTries = 0;
  #overlapOfFirst = 0;

  private constructor(fillings: Fillings, random: Random) {
    this.fillings = fillings;
    this.#random = random;
  }

  /** With what boards of the problem hold that are filled at once; undefined when they hold too much for tries. */
  static async begun(
    problem: NestingProblem,
    start: Arrangement,
    random: Random,
    run: Run,
  ): Promise<FillingTrials | undefined> {
    const fillings = new Fillings(problem);
    fillings.addFrom(start);
    await addFilled(fillings, { pulse: run.pulse, budget: shareOfRest(run.budget, COPY_BY_COPY) });
    const isSmall = fillings.all.every(({ layout }) => layout.count <= MOST_ON_BOARD);
    return isSmall ? new FillingTrials(fillings, random) : undefined;
  }

  get usualOverlap(): number {
    return this.#overlapOfFirst / Math.max(1, this.#firstTries);
  }

  /** Changes fillings until one of the choices that cost less than `limit` lacks nothing; undefined when none comes to it. */
  async complete(choices: FillingChoices, limit: number, run: Run): Promise<FillingChoice | undefined> {
    const { fillings } = this;
    const { problem } = fillings;
    const random = this.#random;
    await choices.putTogether(limit, run);
    for (let idle = 0; idle < PATIENCE && !isOver(run); ) {
      if (run.pulse.due) await run.pulse.breathe();
      const { all } = choices;
      if (all.length === 0) return undefined;
      const complete = all.find(({ lack }) => lack === 0);
      if (complete !== undefined) return complete;
      run.budget.spend(MOVES_OF_LOOKING * (problem.shapes.length + fillings.known + this.tried.size));
      const change = changeOfFilling(all, this, random);
      if (change === undefined) {
        choices.disturbed(all[random.below(all.length)]);
        idle++;
        continue;
      }
      const { choice, before, wanted } = change;
      const known = fillings.find(wanted);
      if (known !== undefined) {
        if (!choices.refilled(choice, known)) idle++;
        continue;
      }
      idle = 0;
      const found = await this.#tryOnce(before, wanted, run);
      if (found === undefined) continue;
      choices.refilled(choice, found);
      await choices.putTogether(limit, run);
    }
    return undefined;
  }

  /** Tries to change a filling into another one; undefined when that fails. */
  async #tryOnce(before: Filling, wanted: Wanted, run: Run): Promise<Filling | undefined> {
    const key = keyOf(wanted);
    const known = this.tried.get(key);
    const times = (known?.times ?? 0) + 1;
    const excerpt = this.fillings.asProblem(wanted);
    const failed = known?.failed ?? new FailedTries();
    const tools = fittingTools(excerpt, this.#random, run.pulse);
    const fitting = new Fitting(tools, allContainers(excerpt), failed);
    const budget = new MovesOfBudget(run.budget, MOVES_OF_COPY * times * excerpt.shapeOf.length);
    const isAnew = failed.isEmpty || times % ANEW === 0;
    let layout: Arrangement | undefined;
    if (isAnew) layout = await fitting.tryFrom(changed(before, wanted, excerpt, this.#random), budget);
    // What does not come nearer by going on lies in a hollow, and would come back to it again and again.
    else if (known?.cameNearer) layout = await fitting.goOn(budget);
    layout ??= await fitting.tryMore(Number.POSITIVE_INFINITY, () => budget);
    if (layout !== undefined) {
      this.tried.delete(key);
      return this.fillings.add(wanted, layout);
    }
    // What is set apart and then refused leaves none: nobody knows why more of it should do worse.
    const overlap = failed.isEmpty ? 0 : failed.nearest;
    if (times === 1 && !failed.isEmpty) {
      this.#firstTries++;
      this.#overlapOfFirst += overlap;
    }
    const cameNearer = known === undefined || overlap < known.overlap;
    this.tried.set(key, { wanted, times, overlap, failed, cameNearer });
    return undefined;
  }
}

/** Adds what boards of some kinds hold when they are filled copy by copy, the largest first, or set by set. */
async function addFilled(fillings: Fillings, run: Run): Promise<void> {
  const { problem, kinds } = fillings;
  const orders = [copiesByArea(problem), allCopies(problem)];
  for (const [{ containers }] of kindsToFill(kinds)) {
    for (const order of orders) {
      if (isOver(run)) return;
      const filled = new Arrangement(problem.shapeOf.length);
      run.budget.spend(order.length);
      await placeInOrder(problem, filled, order, containers, run.pulse);
      if (!run.pulse.stopped) fillings.addFrom(filled);
    }
  }
}

/**
 * Kinds of boards of cheapest area, by turns one that has to be paid for and one that is filled first or costs nothing: beside a
 * rack full of offcuts no other would be filled, and what is bought could only be what is bought already.
 */
function kindsToFill(kinds: readonly (readonly WholeBoard[])[]): (readonly WholeBoard[])[] {
  const byCost = byCostOfArea(kinds);
  const isForNothing = ([{ cost, first }]: readonly WholeBoard[]) => first || cost === 0;
  const paidFor = byCost.filter((members) => !isForNothing(members));
  const forNothing = byCost.filter(isForNothing);
  return Array.from({ length: KINDS_FILLED }).flatMap((_, n) => [
    ...paidFor.slice(n, n + 1),
    ...forNothing.slice(n, n + 1),
  ]);
}

/** The copies of another filling as this one has them, those that it has not anywhere. */
function changed(
  { counts, layout }: Filling,
  wanted: Wanted,
  excerpt: NestingProblem,
  random: Random,
): Arrangement {
  const begun = new Arrangement(excerpt.shapeOf.length);
  let from = 0;
  let to = 0;
  for (const [s, count] of wanted.counts.entries()) {
    const present = Int32Array.from({ length: counts[s] }, (_, n) => from + n);
    random.shuffle(present, present.length);
    for (let n = 0; n < Math.min(count, counts[s]); n++) {
      begun.layAs(to + n, layout, present[n]);
      begun.container[to + n] = layout.container[present[n]];
    }
    from += counts[s];
    to += count;
  }
  scatter(excerpt, begun, begun.lyingNowhere(), allContainers(excerpt), random);
  untwist(excerpt, begun, fullEnds(excerpt));
  return begun;
}
