/**
 * The clock of a search. Counted in moves it gives the same search on every machine; by the wall clock it serves
 * benchmarks and people in a hurry.
 */
export interface Budget {
  /** Counts moves of the search. */
  spend(moves: number): void;
  /** Share of the budget that is gone, 0 to 1 and beyond. */
  readonly done: number;
}

/** A budget of moves. */
export class MoveBudget implements Budget {
  private spent = 0;
  private readonly moves: number;

  constructor(moves: number) {
    this.moves = moves;
  }

  spend(moves: number): void {
    this.spent += moves;
  }

  get done(): number {
    return this.moves > 0 ? this.spent / this.moves : 1;
  }
}

/** A budget of seconds. */
export class ClockBudget implements Budget {
  private readonly start = performance.now();
  private readonly milliseconds: number;

  constructor(seconds: number) {
    this.milliseconds = seconds * 1000;
  }

  spend(): void {}

  get done(): number {
    return (performance.now() - this.start) / this.milliseconds;
  }
}

/** A part of another budget: full when the whole has reached `end`. */
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
}
