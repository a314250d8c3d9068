import type { Run } from '../running/run.ts';

/**
 * A small linear program with bounds on every variable, solved by the dual simplex method on a dense table (Lemke
 * 1954; bounded variables after Koberstein 2005): minimise c x with low <= x <= high and rows of A x >= b.
 *
 * Kernel: one flat table, no allocation while pivoting. Made for the few variables of a lattice and the few hundred
 * of a compaction, where starting at the cheapest corner of the box is already dual feasible.
 */

/** Violations below this are none, in the unit of the rows. */
const FEASIBLE = 1e-11;

/** Pivots smaller than this are not trusted. */
const LEAST_PIVOT = 1e-9;

/**
 * Numbers of the table that are changed in the time of one move of a single copy: moves take 30 to 60 microseconds,
 * and a number less than a nanosecond. So a search spends its effort alike on both, whatever its copies may do.
 */
const CHANGES_A_MOVE = 50_000;

/** Pivots between two looks at the clock. */
const PIVOTS_AT_ONCE = 16;

/** See the top of the file. Set `cost`, `low`, `high`, add rows, solve, read `value`. */
export class LinearProgram {
  readonly variables: number;
  readonly cost: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** The solution after {@link solve}. */
  readonly value: Float64Array;
  private rows = 0;
  private pivots = 0;
  /** Numbers of the table changed and not paid for yet. */
  private changes = 0;
  private table: Float64Array;
  private readonly reduced: Float64Array;
  /** Variable of every column and row; variables come first, then the slacks of the rows. */
  private readonly columnVariable: Int32Array;
  private rowVariable: Int32Array;
  /** Current value of every row's variable and, for columns, of the bound they sit at. */
  private rowValue: Float64Array;
  private readonly columnValue: Float64Array;

  constructor(variables: number) {
    this.variables = variables;
    this.cost = new Float64Array(variables);
    this.low = new Float64Array(variables);
    this.high = new Float64Array(variables);
    this.value = new Float64Array(variables);
    this.table = new Float64Array(variables * 64);
    this.reduced = new Float64Array(variables);
    this.columnVariable = new Int32Array(variables);
    this.columnValue = new Float64Array(variables);
    this.rowVariable = new Int32Array(64);
    this.rowValue = new Float64Array(64);
  }

  /** Forgets all rows. */
  clear(): void {
    this.rows = 0;
  }

  /** Adds a row `A x >= bound` with all coefficients 0; returns where its coefficients start in {@link coefficients}. */
  addRow(bound: number): number {
    const row = this.rows++;
    if (this.rows > this.rowVariable.length) this.grow();
    const start = row * this.variables;
    this.table.fill(0, start, start + this.variables);
    this.rowValue[row] = -bound;
    return start;
  }

  /** Coefficients of the rows, to be written after {@link addRow}. */
  get coefficients(): Float64Array {
    return this.table;
  }

  private grow(): void {
    const size = this.rowVariable.length * 2;
    const table = new Float64Array(size * this.variables);
    table.set(this.table);
    this.table = table;
    const values = new Float64Array(size);
    values.set(this.rowValue);
    this.rowValue = values;
    this.rowVariable = new Int32Array(size);
  }

  /** Solves; false when the rows contradict each other inside the bounds, or the pivots run out. */
  solve(): boolean {
    this.start();
    for (;;) {
      const solved = this.advance(Number.POSITIVE_INFINITY);
      if (solved !== undefined) return solved;
    }
  }

  /** As {@link solve}, giving way from time to time, for a large program takes a tenth of a second; the budget pays. */
  async solveGivingWay({ pulse, budget }: Run): Promise<boolean> {
    this.start();
    while (!pulse.stopped) {
      const solved = this.advance(PIVOTS_AT_ONCE);
      budget.spend(this.changes / CHANGES_A_MOVE);
      this.changes = 0;
      if (solved !== undefined) return solved;
      if (pulse.due) await pulse.breathe();
    }
    return false;
  }

  /** Makes up to `most` pivots; undefined while there are more to make. */
  private advance(most: number): boolean | undefined {
    const last = 50 + 10 * (this.rows + this.variables);
    for (let n = 0; n < most && this.pivots < last; n++, this.pivots++) {
      const row = this.worstRow();
      if (row < 0) {
        this.readSolution();
        return true;
      }
      const rise = this.rowValue[row] < this.lowOf(this.rowVariable[row]);
      const column = this.enteringColumn(row, rise);
      if (column < 0) return false;
      this.pivot(row, column, rise);
    }
    return this.pivots < last ? undefined : false;
  }

  /** Every variable at its cheap bound, every slack in the base. */
  private start(): void {
    this.pivots = 0;
    this.changes = 0;
    const { variables, cost } = this;
    for (let j = 0; j < variables; j++) {
      this.columnVariable[j] = j;
      this.reduced[j] = cost[j];
      this.columnValue[j] = cost[j] < 0 ? this.high[j] : this.low[j];
    }
    for (let i = 0; i < this.rows; i++) {
      this.rowVariable[i] = variables + i;
      let value = this.rowValue[i];
      for (let j = 0; j < variables; j++) value += this.table[i * variables + j] * this.columnValue[j];
      this.rowValue[i] = value;
    }
  }

  private lowOf(variable: number): number {
    return variable < this.variables ? this.low[variable] : 0;
  }

  private highOf(variable: number): number {
    return variable < this.variables ? this.high[variable] : Number.POSITIVE_INFINITY;
  }

  /** The row farthest outside its bounds, -1 when none is. */
  private worstRow(): number {
    let worst = FEASIBLE;
    let found = -1;
    for (let i = 0; i < this.rows; i++) {
      const variable = this.rowVariable[i];
      const value = this.rowValue[i];
      const outside = Math.max(this.lowOf(variable) - value, value - this.highOf(variable));
      if (outside > worst) {
        worst = outside;
        found = i;
      }
    }
    return found;
  }

  /** Column that brings the row back at the least cost; the larger pivot where costs tie. */
  private enteringColumn(row: number, rise: boolean): number {
    const { table, variables, reduced } = this;
    let best = Number.POSITIVE_INFINITY;
    let size = 0;
    let found = -1;
    for (let j = 0; j < variables; j++) {
      const entry = rise ? table[row * variables + j] : -table[row * variables + j];
      const atLow = this.columnValue[j] === this.lowOf(this.columnVariable[j]);
      const usable = atLow ? entry > LEAST_PIVOT : entry < -LEAST_PIVOT;
      if (!usable) continue;
      const ratio = Math.abs(reduced[j] / entry);
      if (ratio < best - 1e-12 || (ratio < best + 1e-12 && Math.abs(entry) > size)) {
        best = ratio;
        size = Math.abs(entry);
        found = j;
      }
    }
    return found;
  }

  private pivot(row: number, column: number, rise: boolean): void {
    const { table, variables, reduced } = this;
    const leaving = this.rowVariable[row];
    const bound = rise ? this.lowOf(leaving) : this.highOf(leaving);
    const at = row * variables;
    const inverse = 1 / table[at + column];
    const move = (bound - this.rowValue[row]) * inverse;
    for (let i = 0; i < this.rows; i++) this.rowValue[i] += table[i * variables + column] * move;
    this.rowValue[row] = this.columnValue[column] + move;
    this.rowVariable[row] = this.columnVariable[column];
    this.columnVariable[column] = leaving;
    this.columnValue[column] = bound;
    for (let j = 0; j < variables; j++) table[at + j] *= -inverse;
    table[at + column] = inverse;
    for (let i = 0; i < this.rows; i++) {
      if (i === row) continue;
      const factor = table[i * variables + column];
      if (factor === 0) continue;
      this.changes += variables;
      table[i * variables + column] = 0;
      for (let j = 0; j < variables; j++) table[i * variables + j] += factor * table[at + j];
    }
    const factor = reduced[column];
    reduced[column] = 0;
    for (let j = 0; j < variables; j++) reduced[j] += factor * table[at + j];
  }

  private readSolution(): void {
    for (let j = 0; j < this.variables; j++) {
      const variable = this.columnVariable[j];
      if (variable < this.variables) this.value[variable] = this.columnValue[j];
    }
    for (let i = 0; i < this.rows; i++) {
      const variable = this.rowVariable[i];
      if (variable < this.variables) this.value[variable] = this.rowValue[i];
    }
  }
}
