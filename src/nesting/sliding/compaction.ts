import { Arrangement, type Field, type Range, setRange, usedEnd } from '../arrangement/arrangement.ts';
import { DEPTH_TOLERANCE, Probe } from '../arrangement/probe.ts';
import { MOST_CONTACTS } from '../no-fit/depth-field.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { isOver, type Run } from '../running/run.ts';
import { LinearProgram } from './linear-program.ts';

/**
 * Compaction (Li and Milenkovic 1995): all copies slide at once, as far left as the no-fit polygons around their
 * present places let them, by a linear program over small moves, repeated until it gains nothing more.
 */

/** Copies in play up to which a dense program is quick enough to pay. */
const MOST_COPIES = 90;

/** Programs at most. */
const MOST_STEPS = 12;

/** A step that shortens by less than this share ends the compaction. */
const LEAST_GAIN = 2e-5;

/** No-fit polygons seen from either copy differ by a few steps of the integer grid; so much overlap passes. */
const LOOSE = 4;

/** True when few enough copies lie somewhere for them all to slide at once. */
export function maySlide({ container }: Arrangement): boolean {
  return container.filter((k) => k >= 0).length <= MOST_COPIES;
}

/** See the top of the file. One object serves a whole search. */
export class Compaction {
  private readonly problem: NestingProblem;
  private readonly field: Field;
  private readonly container: number;
  private readonly run: Run;
  private readonly program: LinearProgram;
  private readonly probe: Probe;
  private readonly kept: Arrangement;
  private readonly contact = new Float64Array(3 * (MOST_CONTACTS + 1));
  private readonly range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  private readonly size: number;
  /** Room that rows may ask for at most: none in a compaction, where overlaps below the tolerance stay. */
  private least = 0;

  constructor(problem: NestingProblem, field: Field, container: number, run: Run) {
    this.run = run;
    const count = problem.shapeOf.length;
    this.problem = problem;
    this.field = field;
    this.container = container;
    this.program = new LinearProgram(2 * count + 1);
    this.probe = new Probe(problem);
    this.kept = new Arrangement(count);
    this.size = meanSize(problem);
  }

  /**
   * Takes small overlaps out by moving all copies at once, at the least length that does it: what moves of single
   * copies do not get apart often only needs a little more room. False when overlaps remain.
   */
  async separate(arrangement: Arrangement): Promise<boolean> {
    const { problem, container, program } = this;
    const radius = 0.06 * this.size;
    for (let step = 0; step < MOST_STEPS && !isOver(this.run); step++) {
      this.writeProgram(arrangement, usedEnd(problem, arrangement, container), radius, true);
      if (!(await program.solveGivingWay(this.run))) return false;
      this.applySolution(arrangement);
      if (this.free(arrangement)) return true;
    }
    return false;
  }

  private applySolution(arrangement: Arrangement): void {
    const { value } = this.program;
    for (let i = 0; i < arrangement.count; i++) {
      arrangement.x[i] += value[2 * i];
      arrangement.y[i] += value[2 * i + 1];
    }
  }

  /** Shortens what is used of the container; the arrangement is free of overlaps before and after. */
  async compact(arrangement: Arrangement): Promise<void> {
    const { problem, container, program, kept } = this;
    let radius = 0.06 * this.size;
    const origin = problem.containers[container].box.minX;
    for (let step = 0; step < MOST_STEPS && radius > 1e-4 * this.size && !isOver(this.run); step++) {
      const before = usedEnd(problem, arrangement, container);
      kept.copyFrom(arrangement);
      this.writeProgram(arrangement, before, radius, false);
      if (!(await program.solveGivingWay(this.run))) {
        radius /= 3;
        continue;
      }
      this.applySolution(arrangement);
      const after = usedEnd(problem, arrangement, container);
      if (after > before || !this.free(arrangement)) {
        arrangement.copyFrom(kept);
        radius /= 3;
      } else if (before - after < LEAST_GAIN * (before - origin)) return;
    }
  }

  /** True when nothing overlaps: a program sees only edges that are near, so its result is checked. */
  private free(arrangement: Arrangement): boolean {
    const { probe } = this;
    for (let i = 0; i < arrangement.count; i++) {
      const container = arrangement.container[i];
      if (container < 0) continue;
      const x = arrangement.x[i];
      const y = arrangement.y[i];
      probe.gather(arrangement, i, arrangement.orientation[i], container, x, y, 0);
      if (probe.deepest(x, y) > LOOSE * DEPTH_TOLERANCE) return false;
    }
    return true;
  }

  private writeProgram(arrangement: Arrangement, end: number, radius: number, separating: boolean): void {
    const { program } = this;
    const last = 2 * arrangement.count;
    program.clear();
    program.cost[last] = 1;
    program.low[last] = -2 * radius;
    program.high[last] = separating ? 2 * radius : 0;
    this.least = separating ? Number.POSITIVE_INFINITY : 0;
    for (let i = 0; i < arrangement.count; i++) {
      this.writeBounds(arrangement, i, radius);
      const container = arrangement.container[i];
      if (container < 0) continue;
      if (container === this.container) {
        const { box } = this.problem.orientations[arrangement.orientation[i]];
        const start = program.addRow(arrangement.x[i] + box.maxX - end);
        program.coefficients[start + last] = 1;
        program.coefficients[start + 2 * i] = -1;
      }
      this.writeWalls(arrangement, i, radius);
      for (let j = 0; j < i; j++) {
        if (arrangement.container[j] === container) this.writePair(arrangement, i, j, radius);
      }
    }
  }

  /** Moves stay within the radius and the range; a faint pull to the left and up breaks ties. */
  private writeBounds(arrangement: Arrangement, i: number, radius: number): void {
    const { program, problem, range, field } = this;
    const container = arrangement.container[i];
    program.low.fill(0, 2 * i, 2 * i + 2);
    program.high.fill(0, 2 * i, 2 * i + 2);
    program.cost[2 * i] = 1e-3 / arrangement.count;
    program.cost[2 * i + 1] = 1e-4 / arrangement.count;
    if (container < 0) return;
    const orientation = problem.orientations[arrangement.orientation[i]];
    setRange(range, problem.containers[container], orientation, problem.margin, field.ends[container]);
    program.low[2 * i] = Math.min(0, Math.max(-radius, range.minX - arrangement.x[i]));
    program.high[2 * i] = Math.max(0, Math.min(radius, range.maxX - arrangement.x[i]));
    program.low[2 * i + 1] = Math.min(0, Math.max(-radius, range.minY - arrangement.y[i]));
    program.high[2 * i + 1] = Math.max(0, Math.min(radius, range.maxY - arrangement.y[i]));
  }

  private writeWalls(arrangement: Arrangement, i: number, radius: number): void {
    const { problem, contact, program } = this;
    for (const hazard of problem.containers[arrangement.container[i]].hazards) {
      const wall = problem.pairs.hazard(hazard, arrangement.orientation[i]);
      if (wall === null) continue;
      const count = wall.contacts(arrangement.x[i], arrangement.y[i], 2 * radius, contact);
      for (let k = 0; k < count; k++) {
        const start = program.addRow(Math.min(this.least, -contact[3 * k]));
        program.coefficients[start + 2 * i] = contact[3 * k + 1];
        program.coefficients[start + 2 * i + 1] = contact[3 * k + 2];
      }
    }
  }

  private writePair(arrangement: Arrangement, i: number, j: number, radius: number): void {
    const { problem, contact, program } = this;
    const { orientations, pairs, gap } = problem;
    const a = orientations[arrangement.orientation[i]].box;
    const b = orientations[arrangement.orientation[j]].box;
    const dx = arrangement.x[i] - arrangement.x[j];
    const dy = arrangement.y[i] - arrangement.y[j];
    const near = gap + 2 * radius;
    if (dx + a.minX > b.maxX + near || dx + a.maxX < b.minX - near) return;
    if (dy + a.minY > b.maxY + near || dy + a.maxY < b.minY - near) return;
    const { field, xx, xy, yx, yy } = pairs.pair(arrangement.orientation[j], arrangement.orientation[i]);
    const count = field.contacts(xx * dx + xy * dy, yx * dx + yy * dy, 3 * radius, contact);
    for (let k = 0; k < count; k++) {
      const nx = xx * contact[3 * k + 1] + yx * contact[3 * k + 2];
      const ny = xy * contact[3 * k + 1] + yy * contact[3 * k + 2];
      const start = program.addRow(Math.min(this.least, -contact[3 * k]));
      const row = program.coefficients;
      row[start + 2 * i] = nx;
      row[start + 2 * i + 1] = ny;
      row[start + 2 * j] = -nx;
      row[start + 2 * j + 1] = -ny;
    }
  }
}

/** Mean of the longer sides of the copies, mm. */
export function meanSize({ shapeOf, shapes, orientations }: NestingProblem): number {
  let sum = 0;
  for (const shape of shapeOf) {
    const { box } = orientations[shapes[shape].orientations[0]];
    sum += Math.max(box.maxX - box.minX, box.maxY - box.minY);
  }
  return sum / Math.max(1, shapeOf.length);
}
