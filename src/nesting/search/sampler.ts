import type { Arrangement, Range } from '../arrangement/arrangement.ts';
import type { DepthField } from '../no-fit/depth-field.ts';
import type { Pair } from '../problem/pair-table.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';
import type { Overlaps } from './overlaps.ts';

/**
 * Rough overlaps of one copy at many places of an area. The places lie one by one in the cells of a grid, at random
 * in each, so a neighbour knows by their rows and columns which of them it can matter to, and adds its share to those
 * alone: a share costs a few nanoseconds, and the rest of the area nothing.
 */
export class Sampler {
  /** Number of the samples: their places in mm and their weighted overlaps are found in the arrays below. */
  count = 0;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly overlap: Float64Array;
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly overlaps: Overlaps;
  private readonly random: Random;
  private readonly area: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  private columns = 0;
  private rows = 0;
  /** Columns and rows per mm. */
  private perColumn = 0;
  private perRow = 0;
  private firstColumn = 0;
  private lastColumn = 0;
  private firstRow = 0;
  private lastRow = 0;

  /** @param most samples that will be asked for at once */
  constructor(
    problem: NestingProblem,
    arrangement: Arrangement,
    overlaps: Overlaps,
    random: Random,
    most: number,
  ) {
    // Whole rows of whole columns may be half as many again as were asked for.
    this.x = new Float64Array(2 * most);
    this.y = new Float64Array(2 * most);
    this.overlap = new Float64Array(2 * most);
    this.problem = problem;
    this.arrangement = arrangement;
    this.overlaps = overlaps;
    this.random = random;
  }

  /**
   * Spreads about so many samples (one at least) over an area for a copy in an orientation. The cells have the
   * proportions of the copy: that is what overlaps change with.
   */
  spread(area: Range, wanted: number, orientation: number): void {
    const { box } = this.problem.orientations[orientation];
    const width = area.maxX - area.minX;
    const height = area.maxY - area.minY;
    const across = width / (box.maxX - box.minX);
    const down = height / (box.maxY - box.minY);
    const columns = down > 0 ? Math.round(Math.sqrt((wanted * across) / down)) : wanted;
    this.columns = Math.max(1, Math.min(wanted, columns));
    this.rows = height > 0 ? Math.max(1, Math.round(wanted / this.columns)) : 1;
    this.count = this.columns * this.rows;
    Object.assign(this.area, area);
    this.perColumn = width > 0 ? this.columns / width : 0;
    this.perRow = height > 0 ? this.rows / height : 0;
    const { random, x, y } = this;
    for (let row = 0, at = 0; row < this.rows; row++) {
      for (let column = 0; column < this.columns; column++, at++) {
        x[at] = area.minX + ((column + random.unit()) * width) / this.columns;
        y[at] = area.minY + ((row + random.unit()) * height) / this.rows;
      }
    }
  }

  /** Puts a place of the area in place of the sample of its cell. */
  include(x: number, y: number): void {
    const at = this.rowOf(y) * this.columns + this.columnOf(x);
    this.x[at] = x;
    this.y[at] = y;
  }

  private columnOf(x: number): number {
    return within((x - this.area.minX) * this.perColumn, this.columns);
  }

  private rowOf(y: number): number {
    return within((y - this.area.minY) * this.perRow, this.rows);
  }

  /**
   * Measures copy `i` in an orientation at all samples; false when it cannot lie in that container at all. What is
   * above `limit` already is not added to any further: most samples of a whole board soon are.
   */
  measure(i: number, orientation: number, container: number, limit: number): boolean {
    const { problem, arrangement, overlaps, area } = this;
    const { pairs, gap } = problem;
    const { left, right, top, bottom, count } = overlaps;
    const { box } = problem.orientations[orientation];
    const fromX = area.minX + box.minX - gap;
    const toX = area.maxX + box.maxX + gap;
    const fromY = area.minY + box.minY - gap;
    const toY = area.maxY + box.maxY + gap;
    this.overlap.fill(0, 0, this.count);
    for (const hazard of problem.containers[container].hazards) {
      const field = pairs.hazard(hazard, orientation);
      if (field === null) return false;
      if (!field.covers(area.minX, area.minY, area.maxX, area.maxY)) continue;
      this.chooseColumns(field.minX, field.maxX);
      this.chooseRows(field.minY, field.maxY);
      this.addHazard(field, overlaps.weightOf(i, i));
    }
    for (let j = 0; j < count; j++) {
      if (left[j] >= toX || right[j] <= fromX || top[j] >= toY || bottom[j] <= fromY) continue;
      if (j === i || arrangement.container[j] !== container) continue;
      const pair = pairs.pair(arrangement.orientation[j], orientation);
      this.chooseColumns(left[j] - gap - box.maxX, right[j] + gap - box.minX);
      this.chooseRows(top[j] - gap - box.maxY, bottom[j] + gap - box.minY);
      this.addCopy(pair, arrangement.x[j], arrangement.y[j], overlaps.weightOf(i, j), limit);
    }
    return true;
  }

  /** Chooses the columns of cells that a part of the area meets. */
  private chooseColumns(minX: number, maxX: number): void {
    this.firstColumn = this.columnOf(minX);
    this.lastColumn = this.columnOf(maxX);
  }

  private chooseRows(minY: number, maxY: number): void {
    this.firstRow = this.rowOf(minY);
    this.lastRow = this.rowOf(maxY);
  }

  /**
   * Adds the weighted depths of a hazard to the samples of the chosen cells, exactly: the cells of a frame are as large
   * as a whole board divided by a few dozens, and hazards are few.
   */
  private addHazard(field: DepthField, weight: number): void {
    const { x, y, overlap } = this;
    for (let row = this.firstRow; row <= this.lastRow; row++) {
      const end = row * this.columns + this.lastColumn;
      for (let at = row * this.columns + this.firstColumn; at <= end; at++) {
        const depth = field.depth(x[at], y[at]);
        if (depth > 0) overlap[at] += depth * weight;
      }
    }
  }

  /**
   * Adds the weighted depths of another copy, which lies at (copyX, copyY), to the samples of the chosen cells, each read
   * at the nearest corner of the field of the pair. A place a little outside the field reads a corner of its rim, where
   * two copies are apart and the depth is 0.
   */
  private addCopy(
    { field, xx, xy, yx, yy }: Pair,
    copyX: number,
    copyY: number,
    pairWeight: number,
    limit: number,
  ): void {
    const { x, y, overlap } = this;
    const { rough, perCell, columns, rows } = field;
    const ax = xx * perCell;
    const ay = xy * perCell;
    const bx = yx * perCell;
    const by = yy * perCell;
    const a = 0.5 - ax * copyX - ay * copyY - field.minX * perCell;
    const b = 0.5 - bx * copyX - by * copyY - field.minY * perCell;
    const weight = pairWeight * field.roughUnit;
    const width = columns + 1;
    for (let row = this.firstRow; row <= this.lastRow; row++) {
      const end = row * this.columns + this.lastColumn;
      for (let at = row * this.columns + this.firstColumn; at <= end; at++) {
        if (overlap[at] >= limit) continue;
        const column = (ax * x[at] + ay * y[at] + a) | 0;
        const line = (bx * x[at] + by * y[at] + b) | 0;
        // One test for all four sides of the field: outside it one of these is negative.
        if ((column | line | (columns - column) | (rows - line)) < 0) continue;
        overlap[at] += rough[line * width + column] * weight;
      }
    }
  }
}

/** The cell of a place counted in cells from the first; the first or last one for what lies outside. */
function within(place: number, cells: number): number {
  if (place < 1) return 0;
  return place < cells ? place | 0 : cells - 1;
}
