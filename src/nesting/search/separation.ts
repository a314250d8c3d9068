import { Arrangement, type Field } from '../arrangement/arrangement.ts';
import { readyPairs } from '../arrangement/ready-pairs.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Budget } from '../running/budget.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Random } from '../running/random.ts';
import { Exchanges } from './exchange.ts';
import { Mover } from './mover.ts';
import { Overlaps } from './overlaps.ts';

/** How long a separation goes on without getting nearer. */
export interface Patience {
  /** Sweeps without a clearly lower overlap before a strike. */
  readonly sweeps: number;
  /** Strikes before giving up. */
  readonly strikes: number;
}

/** A drop of the total overlap below this share of the lowest counts as getting nearer. */
const CLEARLY = 0.98;

/** What the try of an exchange costs, in moves. */
const MOVES_OF_EXCHANGE = 0.7;

/**
 * Takes overlaps out of an arrangement: sweep after sweep the copies that overlap are moved to where their weighted
 * overlap is least, and the weights of the pairs that still overlap are raised.
 */
export class Separation {
  readonly arrangement: Arrangement;
  private readonly problem: NestingProblem;
  private readonly overlaps: Overlaps;
  private readonly mover: Mover;
  private readonly exchanges: Exchanges | undefined;
  private readonly random: Random;
  private readonly order: Int32Array;
  private readonly nearest: Arrangement;
  private readonly pulse: Pulse;
  /** Lowest total overlap of the last separation. */
  lowest = 0;

  /** @param exchanging whether copies that still overlap after a move also change places with others */
  constructor(problem: NestingProblem, random: Random, pulse: Pulse, exchanging: boolean) {
    const count = problem.shapeOf.length;
    this.problem = problem;
    this.arrangement = new Arrangement(count);
    this.nearest = new Arrangement(count);
    this.overlaps = new Overlaps(problem, this.arrangement);
    this.mover = new Mover(problem, this.arrangement, this.overlaps, random);
    this.random = random;
    if (exchanging) {
      this.exchanges = new Exchanges(problem, this.arrangement, this.overlaps, this.mover, random);
    }
    this.order = new Int32Array(count);
    this.pulse = pulse;
  }

  /**
   * True when all overlaps are gone; else the arrangement is the one with the lowest total overlap found.
   *
   * @param budget what it may spend
   */
  async separate(field: Field, patience: Patience, budget: Budget): Promise<boolean> {
    const { overlaps, arrangement, nearest } = this;
    // A try costs a move even when nothing overlaps, so that a search of easy tries comes to its end.
    budget.spend(1);
    // Of many copies even that takes milliseconds, and easy tries follow one another without a move between.
    if (this.pulse.due) await this.pulse.breathe();
    overlaps.resetWeights();
    for (const [item, container] of arrangement.container.entries()) {
      if (container < 0) continue;
      await readyPairs(this.problem, arrangement, item, [arrangement.orientation[item]], this.pulse);
    }
    if (this.pulse.stopped) return false;
    overlaps.measureAll();
    let lowest = overlaps.total();
    nearest.copyFrom(arrangement);
    let strikes = 0;
    while (lowest > 0 && strikes < patience.strikes && !this.over(budget)) {
      const before = lowest;
      lowest = await this.untilStuck(field, patience.sweeps, lowest, budget);
      strikes = lowest < CLEARLY * before ? 0 : strikes + 1;
      if (lowest > 0) {
        arrangement.copyFrom(nearest);
        overlaps.measureAll();
      }
    }
    this.lowest = lowest;
    return lowest === 0;
  }

  private over(budget: Budget): boolean {
    return this.pulse.stopped || budget.over;
  }

  private async untilStuck(field: Field, sweeps: number, start: number, budget: Budget): Promise<number> {
    const { overlaps, nearest, arrangement } = this;
    let lowest = start;
    for (let idle = 0; idle < sweeps && lowest > 0 && !this.over(budget); idle++) {
      await this.sweep(field, budget);
      const total = overlaps.total();
      if (total < lowest) {
        if (total < CLEARLY * lowest) idle = -1;
        lowest = total;
        nearest.copyFrom(arrangement);
      }
      overlaps.learn();
    }
    return lowest;
  }

  /** Moves every copy that overlaps, in random order. */
  private async sweep(field: Field, budget: Budget): Promise<void> {
    const { overlaps, order, mover, problem } = this;
    let length = 0;
    for (let i = 0; i < order.length; i++) if (overlaps.meets(i)) order[length++] = i;
    this.random.shuffle(order, length);
    for (let k = 0; k < length; k++) {
      if (!overlaps.meets(order[k])) continue;
      const { orientations } = problem.shapes[problem.shapeOf[order[k]]];
      await readyPairs(problem, this.arrangement, order[k], orientations, this.pulse);
      if (this.pulse.stopped) return;
      mover.move(order[k], field);
      budget.spend(1);
      if (overlaps.meets(order[k])) await this.exchange(order[k], field, budget);
      if (this.pulse.due) await this.pulse.breathe();
    }
  }

  /** Tries to exchange a copy that a move has not set free. */
  private async exchange(i: number, field: Field, budget: Budget): Promise<void> {
    const { exchanges, problem } = this;
    if (exchanges === undefined) return;
    const partner = exchanges.partnerOf(i);
    if (partner < 0) return;
    const { orientations } = problem.shapes[problem.shapeOf[partner]];
    await readyPairs(problem, this.arrangement, partner, orientations, this.pulse);
    if (this.pulse.stopped) return;
    exchanges.exchange(i, partner, field);
    budget.spend(MOVES_OF_EXCHANGE);
  }
}
