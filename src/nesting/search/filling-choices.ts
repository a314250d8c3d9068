import { costOfChoice } from '../problem/whole-boards.ts';
import { shareOfRest } from '../running/budget.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import type { Filling, Fillings } from './fillings.ts';

/**
 * Boards that cost less than the present ones, each with what is known to fit on it, and how much of the batch then has
 * no place. Where nothing lacks, a cheaper layout is found.
 */

/** Choices put together when there is none, and when one more filling is known or the present layout has become cheaper. */
const AT_FIRST = 60;
const WITH_ONE_MORE = 12;

/** Share of what is left of the budget that this may take at once: of hundreds of unlike parts each choice costs hundreds of moves. */
const SHARE_OF_REST = 0.05;

/** Boards that cost nothing count for this much of the cheapest of the others, so that what they hold counts too. */
const FREE = 1e-3;

/** How far chance may lift or lower what a filling is worth for its cost: that of all fillings of a kind, and of each. */
const KIND_BY_CHANCE = 0.5;
const EACH_BY_CHANCE = 0.1;

/** Numbers looked at in the time of one move of a single copy: see `sliding/linear-program.ts`. */
const LOOKS_A_MOVE = 50_000;

/** Some boards, each with a filling. */
export interface FillingChoice {
  readonly fillings: readonly Filling[];
  readonly cost: number;
  /** Copies of every shape that it has more than are wanted; below 0 those that have no place in it. */
  readonly surplus: Int32Array;
  /** Area of the copies that have no place in it, mm2. */
  readonly lack: number;
}

/** See the top of the file. */
export class FillingChoices {
  readonly #fillings: Fillings;
  readonly #wanted: Int32Array;
  /** Area of every shape, mm2. */
  readonly #areas: Float64Array;
  /** What a board counts for more than its cost. */
  readonly #more: number;
  readonly #random: Random;
  /** Boards that are not to be offered again, by {@link #boardsOf}. */
  readonly #refused = new Set<string>();
  /**
   * The choice of least lack for every number of boards of every kind and of fillings that differ: a change of one that lies on
   * many boards is made on all of them.
   */
  readonly #known = new Map<string, FillingChoice>();

  /** @param wanted copies of every shape that are to have a place */
  constructor(fillings: Fillings, wanted: Int32Array, random: Random) {
    this.#fillings = fillings;
    this.#wanted = wanted;
    this.#areas = Float64Array.from(fillings.problem.shapes, ({ area }) => area);
    const costs = fillings.kinds.map(([board]) => costOfChoice(board)).filter((cost) => cost > 0);
    this.#more = FREE * Math.min(...costs);
    this.#random = random;
  }

  /** Puts choices together that cost less than `below`, and forgets those that do not. */
  async putTogether(below: number, { pulse, budget: whole }: Run): Promise<void> {
    const budget = shareOfRest(whole, SHARE_OF_REST);
    for (const [key, { cost }] of this.#known) if (cost >= below) this.#known.delete(key);
    const rounds = this.#known.size === 0 ? AT_FIRST : WITH_ONE_MORE;
    const known = this.#fillings.all;
    for (let round = 0; round < rounds && !isOver({ pulse, budget }); round++) {
      const chosen = await this.#cheapest(known, below, pulse);
      if (chosen.length > 0) this.#keep(this.#measured(chosen));
      budget.spend((known.length * this.#wanted.length * (chosen.length + 1)) / LOOKS_A_MOVE);
    }
  }

  get all(): readonly FillingChoice[] {
    return [...this.#known.values()];
  }

  /** The boards of the choice are of no use, whatever lies on them. */
  refused({ fillings }: FillingChoice): void {
    const boards = this.#boardsOf(fillings);
    this.#refused.add(boards);
    for (const [key, choice] of this.#known) {
      if (this.#boardsOf(choice.fillings) === boards) this.#known.delete(key);
    }
  }

  /**
   * The choice with another filling of the same kind in one place after the other, where less lacks then; false when choices that
   * lack no more are known.
   */
  refilled(choice: FillingChoice, filling: Filling): boolean {
    let best = choice;
    let isOfUse = false;
    for (const [place, before] of choice.fillings.entries()) {
      if (before.kind !== filling.kind) continue;
      const next = this.#withAnother(best, place, filling);
      if (next.lack >= best.lack) continue;
      best = next;
      if (this.#keep(best)) isOfUse = true;
    }
    return isOfUse;
  }

  /** The choice with any known filling in one place, however much then lacks: of it as it is no change is found. */
  disturbed(choice: FillingChoice): void {
    const { fillings } = choice;
    const place = this.#random.below(fillings.length);
    const alike = this.#fillings.all.filter(({ kind }) => kind === fillings[place].kind);
    for (const [key, known] of this.#known) if (known === choice) this.#known.delete(key);
    this.#keep(this.#measured(fillings.with(place, alike[this.#random.below(alike.length)])));
  }

  /** Keeps a choice unless one that lacks no more is known; false when it does not. */
  #keep(choice: FillingChoice): boolean {
    const boards = this.#boardsOf(choice.fillings);
    if (this.#refused.has(boards)) return false;
    const key = `${boards} in ${new Set(choice.fillings).size}`;
    const known = this.#known.get(key);
    if (known !== undefined && known.lack <= choice.lack) return false;
    this.#known.set(key, choice);
    return true;
  }

  #measured(fillings: readonly Filling[]): FillingChoice {
    const cost = fillings.reduce((sum, one) => sum + one.cost, 0);
    const surplus = this.#wanted.map((wanted) => -wanted);
    for (const { counts } of fillings) for (let s = 0; s < surplus.length; s++) surplus[s] += counts[s];
    return { fillings, cost, surplus, lack: this.#lackOf(surplus) };
  }

  /** The choice with another filling of the same kind in one place: the same boards, so only their copies are counted anew. */
  #withAnother({ fillings, cost, surplus }: FillingChoice, place: number, filling: Filling): FillingChoice {
    const { counts } = fillings[place];
    const changed = surplus.map((copies, s) => copies + filling.counts[s] - counts[s]);
    return { fillings: fillings.with(place, filling), cost, surplus: changed, lack: this.#lackOf(changed) };
  }

  /** Area of the copies that have no place, mm2, by what there is more of every shape than is wanted. */
  #lackOf(surplus: Int32Array): number {
    let lack = 0;
    for (let s = 0; s < surplus.length; s++) if (surplus[s] < 0) lack -= surplus[s] * this.#areas[s];
    return lack;
  }

  #boardsOf(fillings: readonly Filling[]): string {
    const numbers = this.#fillings.kinds.map(() => 0);
    for (const { kind } of fillings) numbers[kind]++;
    return numbers.join(' ');
  }

  /**
   * Fillings one after the other, each of which gives a place to the most area for its cost, and to some extent by chance. Of
   * hundreds of unlike parts on hundreds of boards one choice takes a tenth of a second: an abort is heard meanwhile.
   */
  async #cheapest(known: readonly Filling[], below: number, pulse: Pulse): Promise<Filling[]> {
    const { kinds } = this.#fillings;
    const lacking = this.#wanted.slice();
    const left = kinds.map(({ length }) => length);
    const liking = kinds.map(() => this.#about(KIND_BY_CHANCE));
    const chosen: Filling[] = [];
    let cost = 0;
    for (;;) {
      if (pulse.due) await pulse.breathe();
      if (pulse.stopped) return chosen;
      let next: Filling | undefined;
      let most = 0;
      for (const filling of known) {
        if (left[filling.kind] === 0 || cost + filling.cost >= below) continue;
        let area = 0;
        for (let s = 0; s < lacking.length; s++) {
          area += Math.min(lacking[s], filling.counts[s]) * this.#areas[s];
        }
        const worth = area / (filling.cost + this.#more);
        const liked = worth * liking[filling.kind] * this.#about(EACH_BY_CHANCE);
        if (liked <= most) continue;
        most = liked;
        next = filling;
      }
      next ??= this.#emptyBoard(lacking, left, below - cost);
      if (next === undefined) return chosen;
      chosen.push(next);
      cost += next.cost;
      left[next.kind]--;
      for (let s = 0; s < lacking.length; s++) lacking[s] = Math.max(0, lacking[s] - next.counts[s]);
    }
  }

  /** A board by chance for what still lacks and no filling holds, so that some can be put on it; undefined when there is none. */
  #emptyBoard(lacking: Int32Array, left: readonly number[], below: number): Filling | undefined {
    if (lacking.every((copies) => copies === 0)) return undefined;
    const boards = this.#fillings.empty.filter(({ kind, cost }) => left[kind] > 0 && cost < below);
    return boards.length === 0 ? undefined : boards[this.#random.below(boards.length)];
  }

  #about(chance: number): number {
    return this.#random.between(1 - chance, 1 + chance);
  }
}
