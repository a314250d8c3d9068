import { boxArea, type Point } from '../../geometry/shapes.ts';
import { type Arrangement, clamped, type Range, setRange } from '../arrangement/arrangement.ts';
import { DEPTH_TOLERANCE, Probe } from '../arrangement/probe.ts';
import { firstAlike } from '../problem/first-alike.ts';
import type { Pair } from '../problem/pair-table.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Pulse } from '../running/pulse.ts';
import { givingWay } from '../running/steps.ts';

/**
 * The constructive layout: copies in a given order, each put as far left as it can lie in any allowed orientation,
 * holes and openings included (bottom-left fill on true shapes, after Burke, Hellier, Kendall, Whitwell 2006).
 *
 * Per container and orientation (one of all that look the same) a coarse grid holds the deepest overlap with everything
 * already placed; it is only ever added to. Free or nearly free grid points are starting points from which the copy is
 * settled exactly.
 */

/** Nodes of the grid of one container: usually, and at most where parts are small. */
const NODES = 16_000;
const MOST_NODES = 120_000;

/** Starting points with a little overlap tried per orientation; after that only free ones. */
const TRIES = 10;

/** Overlap of a starting point from which a copy can still be settled, as a share of the grid's step. */
const SLACK = 0.7;

/** Overlap of a starting point beyond which the chart was wrong about the nodes around it as well, in steps. */
const DEEP = 2;

/** The grid of one orientation in one container. */
interface Chart {
  readonly container: number;
  readonly orientation: number;
  /** Where a copy may lie, mm; the nodes start at its upper left corner. */
  readonly range: Range;
  readonly columns: number;
  readonly rows: number;
  readonly step: number;
  readonly deepest: Float32Array;
  /** Copies of the container's list already drawn into the chart. */
  drawn: number;
  /** Columns before this one hold no starting point any more. */
  firstColumn: number;
}

/** Nodes of a chart, first and last included: what lies beyond a field is none of its business. */
interface Nodes {
  readonly firstColumn: number;
  readonly lastColumn: number;
  readonly firstRow: number;
  readonly lastRow: number;
}

/** Where a copy can go. */
interface Spot {
  orientation: number;
  x: number;
  y: number;
  end: number;
}

/** Builds a layout step by step. */
export class FirstLayout {
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly probe: Probe;
  private readonly charts: Map<number, Chart>[];
  private readonly placed: number[][];
  /** For every shape the first that looks the same in all its orientations. */
  private readonly alike: readonly number[];
  /** 1 for every such shape, and container of it, that has no room for another copy. */
  private readonly full: Uint8Array;

  constructor(problem: NestingProblem, arrangement: Arrangement) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.probe = new Probe(problem);
    this.charts = problem.containers.map(() => new Map());
    this.alike = shapesAlike(problem);
    this.full = new Uint8Array(problem.shapes.length * problem.containers.length);
    this.placed = problem.containers.map((_, k) => arrangement.lyingOn(k));
  }

  /**
   * Puts a copy into the first of the containers that has room; false when none has, or when the search is told to
   * stop first. Gives way between orientations, and while it draws charts of everything that is placed.
   */
  async place(item: number, containers: readonly number[], pulse: Pulse): Promise<boolean> {
    const shape = this.alike[this.problem.shapeOf[item]];
    for (const container of containers) {
      const key = shape * this.problem.containers.length + container;
      if (this.full[key] === 1) continue;
      const spot = await this.bestSpot(item, container, pulse);
      if (pulse.stopped) return false;
      if (spot === undefined) {
        this.full[key] = 1;
        continue;
      }
      this.arrangement.x[item] = spot.x;
      this.arrangement.y[item] = spot.y;
      this.arrangement.orientation[item] = spot.orientation;
      this.arrangement.container[item] = container;
      this.placed[container].push(item);
      return true;
    }
    return false;
  }

  private async bestSpot(item: number, container: number, pulse: Pulse): Promise<Spot | undefined> {
    let best: Spot | undefined;
    for (const orientation of this.problem.shapes[this.problem.shapeOf[item]].orientations) {
      if (pulse.due) await pulse.breathe();
      if (pulse.stopped) return undefined;
      const chart = await this.chartOf(container, orientation, pulse);
      if (pulse.stopped) return undefined;
      if (chart === undefined) continue;
      await this.draw(chart, pulse);
      if (pulse.stopped) return undefined;
      const spot = this.firstSpot(chart, item, best?.end ?? Number.POSITIVE_INFINITY);
      if (spot !== undefined && (best === undefined || spot.end < best.end - 1e-6))
        best = { ...spot, orientation };
    }
    return best;
  }

  /** Undefined where the orientation has no room, or when the search is told to stop first. */
  private async chartOf(container: number, orientation: number, pulse: Pulse): Promise<Chart | undefined> {
    const { problem } = this;
    const look = problem.pairs.look(orientation);
    const known = this.charts[container].get(look);
    if (known !== undefined) return known;
    const range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
    const place = problem.containers[container];
    setRange(range, place, problem.orientations[orientation], problem.margin, Number.POSITIVE_INFINITY);
    const width = range.maxX - range.minX;
    const height = range.maxY - range.minY;
    if (!(width >= -1e-9 && height >= -1e-9)) return undefined;
    const whole = boxArea(place.box);
    const { box } = problem.orientations[orientation];
    // A gap that is of use to a part is as wide as the part: a quarter of its smaller side sees them all.
    const finest = Math.min(box.maxX - box.minX, box.maxY - box.minY) / 4;
    const step = Math.max(Math.sqrt(whole / MOST_NODES), Math.min(Math.sqrt(whole / NODES), finest));
    const columns = Math.ceil(Math.max(0, width) / step) + 1;
    const rows = Math.ceil(Math.max(0, height) / step) + 1;
    const chart: Chart = {
      container,
      orientation,
      range,
      columns,
      rows,
      step,
      deepest: new Float32Array(columns * rows),
      drawn: 0,
      firstColumn: 0,
    };
    for (const hazard of place.hazards) {
      const field = await givingWay(problem.pairs.hazardSteps(hazard, orientation), pulse);
      if (field === undefined || field === null) return undefined;
      const { minX, minY } = range;
      // Where the field ends it says nothing; most hazards are small beside a board.
      const nodes: Nodes = {
        firstColumn: clamped(Math.floor((field.minX - minX) / step), 0, columns),
        lastColumn: Math.min(columns - 1, Math.ceil((field.maxX - minX) / step)),
        firstRow: clamped(Math.floor((field.minY - minY) / step), 0, rows),
        lastRow: Math.min(rows - 1, Math.ceil((field.maxY - minY) / step)),
      };
      drawField(chart, { field, ...AS_IT_IS }, BOARD_ORIGIN, nodes);
    }
    this.charts[container].set(look, chart);
    return chart;
  }

  /** Brings a chart up to date with what has been placed since it was last used. */
  private async draw(chart: Chart, pulse: Pulse): Promise<void> {
    const { problem, arrangement } = this;
    const { orientation, range, step } = chart;
    const list = this.placed[chart.container];
    const box = problem.orientations[orientation].box;
    for (; chart.drawn < list.length; chart.drawn++) {
      if (pulse.due) await pulse.breathe();
      if (pulse.stopped) return;
      const j = list[chart.drawn];
      const other = problem.orientations[arrangement.orientation[j]].box;
      const x = arrangement.x[j];
      const y = arrangement.y[j];
      // Where the two boxes can be nearer than the gap: elsewhere the copy leaves every node as it is.
      const left = x + other.minX - box.maxX - problem.gap;
      const right = x + other.maxX - box.minX + problem.gap;
      const above = y + other.minY - box.maxY - problem.gap;
      const below = y + other.maxY - box.minY + problem.gap;
      const nodes: Nodes = {
        firstColumn: Math.max(0, Math.ceil((left - range.minX) / step)),
        lastColumn: Math.min(chart.columns - 1, Math.floor((right - range.minX) / step)),
        firstRow: Math.max(0, Math.ceil((above - range.minY) / step)),
        lastRow: Math.min(chart.rows - 1, Math.floor((below - range.minY) / step)),
      };
      drawField(chart, problem.pairs.pair(arrangement.orientation[j], orientation), [x, y], nodes);
    }
  }

  /**
   * The leftmost position reached from the starting points of a chart; undefined when there is none, or none that ends
   * before `bestEnd` (mm).
   */
  private firstSpot(chart: Chart, item: number, bestEnd: number): Spot | undefined {
    const { orientation, range, step, columns, rows, deepest } = chart;
    const reach = this.problem.orientations[orientation].box.maxX;
    const slack = SLACK * step;
    let tries = 0;
    for (let column = chart.firstColumn; column < columns; column++) {
      const x = Math.min(range.minX + column * step, range.maxX);
      if (x - step + reach > bestEnd) return undefined;
      let free = false;
      for (let row = 0; row < rows; row++) {
        const depth = deepest[column * rows + row];
        if (depth > (tries < TRIES ? slack : 0)) continue;
        free = true;
        if (depth > 0.05 * step && neighbourIsFreer(chart, column, row, depth)) continue;
        const y = Math.min(range.minY + row * step, range.maxY);
        const spot = this.settle(chart, item, x, y);
        if (spot !== undefined) return spot;
        deepest[column * rows + row] = 2 * slack;
        markDeep(chart, column, row, this.probe.deepest(x, y));
        tries++;
      }
      if (!free && column === chart.firstColumn) chart.firstColumn++;
    }
    return undefined;
  }

  /** From a starting point to an exact free position, pushed left and up as far as it goes. */
  private settle(chart: Chart, item: number, x: number, y: number): Spot | undefined {
    const { container, orientation, range, step } = chart;
    const { probe } = this;
    probe.gather(this.arrangement, item, orientation, container, x, y, (DESCENDED + PUSHED) * step);
    const at = { x, y };
    if (!descend(probe, range, at, step)) return undefined;
    this.push(range, at, step);
    return { orientation, x: at.x, y: at.y, end: at.x + this.problem.orientations[orientation].box.maxX };
  }

  /** Moves a free position left and up in ever smaller steps while it stays free; `unit` is a step of the chart, mm. */
  private push(range: Range, at: { x: number; y: number }, unit: number): void {
    const { probe } = this;
    const limit = PUSHED * unit;
    const startX = at.x;
    const startY = at.y;
    for (let step = limit / 2; step > 1e-4; step /= 2) {
      let pushes = 0;
      for (let direction = 0; direction < PUSHES.length && pushes < MOST_PUSHES; direction += 2) {
        const x = Math.min(range.maxX, Math.max(range.minX, at.x + PUSHES[direction] * step));
        const y = Math.min(range.maxY, Math.max(range.minY, at.y + PUSHES[direction + 1] * step));
        // Every push goes left, or straight up: pushes can never go round in a circle.
        if (x > at.x || (x === at.x && y >= at.y)) continue;
        if (Math.abs(x - startX) > limit || Math.abs(y - startY) > limit) continue;
        if (probe.deepest(x, y) <= DEPTH_TOLERANCE) {
          at.x = x;
          at.y = y;
          direction = -2;
          pushes++;
        }
      }
    }
  }
}

function shapesAlike({ shapes, pairs }: NestingProblem): number[] {
  return firstAlike(shapes.map(({ orientations }) => orientations.map((one) => pairs.look(one)).join(' ')));
}

/**
 * How far a push leads at most, and how far the descent before it can, in steps of the chart and along either axis: three
 * of its directions lead the same way, with 2.4 half steps, halved again and again. What is farther off than both
 * together is not met.
 */
const PUSHED = 8;
const DESCENDED = 2.5;

/** Pushes of one length at most: small ones along a slanting edge would go on and on. */
const MOST_PUSHES = 12;

/** Directions of a push, best first: left, left and up, left and down, up. */
const PUSHES = [-1, 0, -0.8, -0.6, -0.8, 0.6, 0, -1];

/** Directions of a descent. */
const COMPASS = [1, 0, -1, 0, 0, 1, 0, -1, 0.7, 0.7, -0.7, 0.7, 0.7, -0.7, -0.7, -0.7];

/**
 * How far all shorter steps of a descent together lead at most, in the step before them: 2.4 along either axis, for halved
 * again and again they add up to it.
 */
const FURTHER = 3.5;

/** Moves to where nothing overlaps, by compass search on the exact depths; false when it gets stuck before. */
function descend(probe: Probe, range: Range, at: { x: number; y: number }, largest: number): boolean {
  let lowest = probe.overlap(at.x, at.y, Number.POSITIVE_INFINITY);
  for (let step = largest / 2; step > 1e-5 && lowest > DEPTH_TOLERANCE; step /= 2) {
    for (let direction = 0; direction < COMPASS.length; direction += 2) {
      const x = Math.min(range.maxX, Math.max(range.minX, at.x + COMPASS[direction] * step));
      const y = Math.min(range.maxY, Math.max(range.minY, at.y + COMPASS[direction + 1] * step));
      const overlap = probe.overlap(x, y, lowest);
      if (overlap < lowest) {
        lowest = overlap;
        at.x = x;
        at.y = y;
      }
    }
    // No step changes a depth by more than its own length.
    if (lowest > 4 * largest || probe.deepest(at.x, at.y) > DEPTH_TOLERANCE + FURTHER * step) return false;
  }
  return lowest <= DEPTH_TOLERANCE;
}

/**
 * Tells a chart how deep (mm) a copy lies at a node that it could not be settled from, and with it at the nodes around, for
 * a depth changes by no more than the way there: of parts thinner than the cells of their fields a chart knows nothing.
 */
function markDeep({ step, columns, rows, deepest }: Chart, column: number, row: number, depth: number): void {
  // Where the chart is right it knows as much.
  if (depth < DEEP * step) return;
  const nodes = Math.floor(depth / step);
  for (let c = Math.max(0, column - nodes); c <= Math.min(columns - 1, column + nodes); c++) {
    for (let r = Math.max(0, row - nodes); r <= Math.min(rows - 1, row + nodes); r++) {
      const away = step * Math.sqrt((c - column) * (c - column) + (r - row) * (r - row));
      if (depth - away > deepest[c * rows + r]) deepest[c * rows + r] = depth - away;
    }
  }
}

/** True when a node beside this one overlaps less: a copy is then settled from there, and not a second time from here. */
function neighbourIsFreer(
  { deepest, columns, rows }: Chart,
  column: number,
  row: number,
  depth: number,
): boolean {
  const at = column * rows + row;
  return (
    (column > 0 && deepest[at - rows] < depth) ||
    (column < columns - 1 && deepest[at + rows] < depth) ||
    (row > 0 && deepest[at - 1] < depth) ||
    (row < rows - 1 && deepest[at + 1] < depth)
  );
}

/** The map of a field that is told in the frame of the board, as those of hazards are. */
const AS_IT_IS = { xx: 1, xy: 0, yx: 0, yy: 1 } as const;
const BOARD_ORIGIN: Point = [0, 0];

/**
 * Raises nodes of a chart to the depth of a field that lies at a place on the board, mm. Interpolated from the corners of
 * the field's cells: a starting point needs no exact depth, as the copy is settled from there by those of the edges.
 */
function drawField(chart: Chart, { field, xx, xy, yx, yy }: Pair, [x, y]: Point, nodes: Nodes): void {
  const { range, step, rows, deepest } = chart;
  const { firstColumn, lastColumn, firstRow, lastRow } = nodes;
  const { corner, columns: cells, rows: lines, perCell } = field;
  const width = cells + 1;
  // Nodes deeper than this are no starting points already and need no closer look.
  const enough = SLACK * step;
  for (let column = firstColumn; column <= lastColumn; column++) {
    const dx = Math.min(range.minX + column * step, range.maxX) - x;
    const fromX = (xx * dx - field.minX) * perCell;
    const fromY = (yx * dx - field.minY) * perCell;
    for (let row = firstRow; row <= lastRow; row++) {
      const at = column * rows + row;
      if (deepest[at] > enough) continue;
      const dy = Math.min(range.minY + row * step, range.maxY) - y;
      const gx = fromX + xy * dy * perCell;
      const gy = fromY + yy * dy * perCell;
      if (!(gx >= 0 && gy >= 0 && gx < cells && gy < lines)) continue;
      const u = gx - (gx | 0);
      const c = (gy | 0) * width + (gx | 0);
      const upper = corner[c] + (corner[c + 1] - corner[c]) * u;
      const lower = corner[c + width] + (corner[c + width + 1] - corner[c + width]) * u;
      const depth = upper + (lower - upper) * (gy - (gy | 0));
      if (depth > deepest[at]) deepest[at] = depth;
    }
  }
}
