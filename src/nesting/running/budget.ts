/**
 * The clock of a search. Counted in moves it gives the same search on every machine; by the wall clock it serves
 * benchmarks and people in a hurry. A search may get only a part of the whole: the clock then runs from where the
 * part before ended.
 */
export interface Budget {
  /** Counts moves of the search. */
  spend(moves: number): void;
  /** Share of the whole that is gone, 0 to 1 and a little beyond. */
  readonly done: number;
  /** True when the search has to end. */
  readonly over: boolean;
}

/** Shares of the whole at which a part starts and ends. */
export interface PartOfEffort {
  readonly from: number;
  readonly to: number;
}

/** The whole as one part. */
export const WHOLE: PartOfEffort = { from: 0, to: 1 };

/** A budget of moves. */
export class MoveBudget implements Budget {
  private spent = 0;
  private readonly moves: number;
  private readonly part: PartOfEffort;

  /** @param moves number for the whole, of which only the part may be spent */
  constructor(moves: number, part: PartOfEffort = WHOLE) {
    this.moves = moves;
    this.part = part;
  }

  spend(moves: number): void {
    this.spent += moves;
  }

  get done(): number {
    return this.moves > 0 ? this.part.from + this.spent / this.moves : 1;
  }

  get over(): boolean {
    return this.done >= this.part.to;
  }
}

/** A budget of seconds. */
export class ClockBudget implements Budget {
  private readonly start = performance.now();
  private readonly milliseconds: number;
  private readonly part: PartOfEffort;

  /** @param seconds time for the whole, of which only the part may be spent */
  constructor(seconds: number, part: PartOfEffort = WHOLE) {
    this.milliseconds = seconds * 1000;
    this.part = part;
  }

  spend(): void {}

  get done(): number {
    return this.part.from + (performance.now() - this.start) / this.milliseconds;
  }

  get over(): boolean {
    return this.done >= this.part.to;
  }
}

/** A share of another budget: from now until the whole has reached `end`. */
export class ShareOfBudget implements Budget {
  private readonly whole: Budget;
  private readonly start: number;
  private readonly end: number;

  constructor(whole: Budget, end: number) {
    this.whole = whole;
    this.start = whole.done;
    this.end = end;
  }

  spend(moves: number): void {
    this.whole.spend(moves);
  }

  get done(): number {
    return this.end > this.start ? (this.whole.done - this.start) / (this.end - this.start) : 1;
  }

  get over(): boolean {
    return this.whole.over || this.done >= 1;
  }
}

/** Another budget until so much of the whole is gone: its shares are those of the whole. */
export class UntilShare implements Budget {
  private readonly whole: Budget;
  private readonly end: number;

  constructor(whole: Budget, end: number) {
    this.whole = whole;
    this.end = end;
  }

  spend(moves: number): void {
    this.whole.spend(moves);
  }

  get done(): number {
    return this.whole.done;
  }

  get over(): boolean {
    return this.whole.over || this.done >= this.end;
  }
}

/** So many moves of another budget, from now on, or what is left of it. */
export class MovesOfBudget implements Budget {
  private spent = 0;
  private readonly whole: Budget;
  private readonly moves: number;

  constructor(whole: Budget, moves: number) {
    this.whole = whole;
    this.moves = moves;
  }

  spend(moves: number): void {
    this.spent += moves;
    this.whole.spend(moves);
  }

  get done(): number {
    return Math.max(this.whole.done, this.spent / this.moves);
  }

  get over(): boolean {
    return this.whole.over || this.spent >= this.moves;
  }
}

/** A share of another budget, or so many moves where the share is less, as long as the other lasts. */
export class MovesAtLeast implements Budget {
  private spent = 0;
  private readonly whole: Budget;
  private readonly share: Budget;
  private readonly moves: number;

  /** @param share a share of `whole` */
  constructor(whole: Budget, share: Budget, moves: number) {
    this.whole = whole;
    this.share = share;
    this.moves = moves;
  }

  spend(moves: number): void {
    this.spent += moves;
    this.share.spend(moves);
  }

  get done(): number {
    return Math.max(this.whole.done, Math.min(this.share.done, this.spent / this.moves));
  }

  get over(): boolean {
    return this.whole.over || (this.share.over && this.spent >= this.moves);
  }
}

/** So much of what is left of a budget, as a fraction of it from 0 to 1. */
export function shareOfRest(whole: Budget, share: number): ShareOfBudget {
  return new ShareOfBudget(whole, whole.done + share * (1 - whole.done));
}
