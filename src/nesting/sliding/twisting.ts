import type { Arrangement } from '../arrangement/arrangement.ts';
import { BOARD_EDGES, type BoardEdge, type Container, withoutMargin } from '../problem/container.ts';
import { turn } from '../problem/orientations.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Run } from '../running/run.ts';
import { meanSize } from './compaction.ts';
import { LinearProgram } from './linear-program.ts';
import { TurnedOutline } from './turned-outline.ts';
import { CONTACT, VertexContacts } from './vertex-contacts.ts';

/**
 * Compaction in which copies also turn: where the grain leaves an angle free, all copies of a container slide and turn
 * a little at once, by a linear program over what their outlines touch, again and again with ever smaller steps
 * (compaction after Li and Milenkovic 1995, turning made linear for small steps). No-fit polygons belong to one
 * relative angle each, so here the outlines themselves are measured.
 */

/** Copies up to which a dense program is quick enough to pay. Of more, so many at a time move between the others. */
const MOST_TURNED = 60;
const AT_A_TIME = 40;

/** Copies in one container that are worked on at most. */
const MOST_IN_CONTAINER = 400;

/** Programs at most. */
const MOST_STEPS = 40;

/** Largest and least step, as shares of the mean size of the copies. */
const LARGEST_STEP = 0.03;
const LEAST_STEP = 3e-4;

/** Programs that take the last overlaps out, and their steps as a share of the mean size. */
const FINISHING_STEPS = 6;
const FINISHING_STEP = 2e-4;

/** How far a vertex looks for edges, in steps: two copies that slide and turn towards each other. */
const LOOK_AHEAD = 4;

/** How far past their ends edges count, in steps. */
const BEYOND = 0.1;

/** Distance kept beyond what is asked for, mm: what the grid of the angles may take away again. */
const HAIR = 1e-4;

/** What may be lacking of a distance at the end, mm; the exact check has the last word. */
const LACKING = 1e-3;

/** Angles end on this grid, degrees: a thousandth of a mm at the end of a part of any size that turns freely. */
const STEPS_PER_DEGREE = 1e4;

/** What a millimetre of overlap weighs against one of length. */
const OVERLAP_COST = 100;

/** Variables of a copy: two for sliding, one for turning. */
const VARIABLES = 3;

/** What a step may leave of an overlap: a share of itself, made by going straight where copies turn. */
const BENT = 0.2;

/** True when some copy in a container (number `container`) may be turned on by some degrees, and there are not too many. */
export function mayTwist(problem: NestingProblem, arrangement: Arrangement, container: number): boolean {
  const items = arrangement.lyingOn(container);
  const isFree = items.some((i) => {
    const [least, most] = problem.orientations[arrangement.orientation[i]].twist;
    return most > least;
  });
  return isFree && items.length <= MOST_IN_CONTAINER;
}

/**
 * Slides and turns what lies in a container, all at once or, of many copies, those beside one another along the board in turn.
 *
 * @param limit nothing may reach beyond it, mm along the board
 * @param shorten whether the used length is to be made as short as it gets
 * @return false when overlaps remain, or where a stretch cannot be settled: the arrangement is then of no use
 */
export async function settleTurning(
  problem: NestingProblem,
  arrangement: Arrangement,
  container: number,
  run: Run,
  { limit, shorten }: { readonly limit: number; readonly shorten: boolean },
): Promise<boolean> {
  for (const items of stretchesOf(problem, arrangement, container)) {
    const twisting = new Twisting(problem, arrangement, { container, items }, run);
    if (!(await twisting.settle(limit, shorten))) return false;
  }
  return true;
}

/** The copies of a container, or of many those in stretches along it, each of which shares half of its copies with the next. */
function stretchesOf(
  { orientations }: NestingProblem,
  arrangement: Arrangement,
  container: number,
): readonly number[][] {
  const { x, orientation } = arrangement;
  const items = arrangement.lyingOn(container);
  if (items.length <= MOST_TURNED) return [items];
  const left = (i: number) => x[i] + orientations[orientation[i]].box.minX;
  items.sort((a, b) => left(a) - left(b));
  const step = AT_A_TIME / 2;
  const stretches = Math.ceil((items.length - AT_A_TIME) / step) + 1;
  return Array.from({ length: stretches }, (_, n) => items.slice(n * step, n * step + AT_A_TIME));
}

/**
 * Takes the overlaps that a search has left out of some containers, by sliding and turning what lies there: a copy that
 * finds no place in the listed orientations often has one between them. False when overlaps remain where copies may turn,
 * or when they may nowhere; what lies elsewhere is left as it is, and has to be checked by the caller.
 *
 * @param containers indices of those to work on, one after the other
 */
export async function turnApart(
  problem: NestingProblem,
  arrangement: Arrangement,
  containers: readonly number[],
  run: Run,
): Promise<boolean> {
  const turning = containers.filter((container) => mayTwist(problem, arrangement, container));
  for (const container of turning) {
    if (run.budget.over) return false;
    const end = problem.containers[container].box.maxX - problem.margin;
    const isApart = await settleTurning(problem, arrangement, container, run, { limit: end, shorten: false });
    if (!isApart) return false;
  }
  return turning.length > 0;
}

/** A solid that stays where it is, and the distance copies keep from it, mm. */
interface Wall {
  readonly outline: TurnedOutline;
  readonly distance: number;
  /** Whom it is for: those that stand on an edge of the board, or those on none; everyone when left out. */
  readonly only?: { readonly edge: BoardEdge | undefined };
}

/** Copies of one container under work; see the top of the file. */
class Twisting {
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly run: Run;
  private readonly container: Container;
  private readonly items: readonly number[];
  private readonly outlines: readonly TurnedOutline[];
  private readonly walls: Wall[];
  private readonly contacts = new VertexContacts();
  private readonly program: LinearProgram;
  private readonly kept: Arrangement;
  private readonly size: number;
  private end = 0;
  private worst = 0;

  /** Takes some copies of a container into work, between the others in it; what it does is done to the arrangement. */
  constructor(
    problem: NestingProblem,
    arrangement: Arrangement,
    { container, items }: { readonly container: number; readonly items: readonly number[] },
    run: Run,
  ) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.run = run;
    this.container = problem.containers[container];
    this.items = items;
    const ofCopy = (i: number) => new TurnedOutline(problem.shapes[problem.shapeOf[i]].region);
    this.outlines = items.map(ofCopy);
    const moving = new Set(items);
    const others = arrangement.lyingOn(container).filter((i) => !moving.has(i));
    this.walls = [
      ...wallsOf(problem, this.container),
      ...others.map((i): Wall => {
        const outline = ofCopy(i);
        this.lay(outline, i);
        return { outline, distance: problem.gap };
      }),
    ];
    this.program = new LinearProgram(VARIABLES * this.items.length + 2);
    this.kept = arrangement.clone();
    this.size = meanSize(problem);
  }

  /**
   * Takes overlaps out by sliding and turning; nothing may reach beyond `limit` (mm along the board). When asked to
   * shorten, the used length is made as short as it gets. False when overlaps remain: the arrangement is then of no
   * use.
   */
  async settle(limit: number, shorten: boolean): Promise<boolean> {
    this.layAll();
    this.end = shorten ? Math.min(limit, this.reached()) : limit;
    await this.descend(limit, shorten);
    // Turning goes straight where it should go round: what that leaves is taken out by a few small steps.
    // More than they can take out, as where the effort ends on the way, they are not tried on.
    const most = 2 * FINISHING_STEPS * FINISHING_STEP * this.size;
    const isNearlyFree = this.worst <= Math.max(most, LACKING);
    for (let n = 0; n < FINISHING_STEPS && isNearlyFree && this.worst > LACKING / 2; n++) {
      if (this.run.pulse.stopped) return false;
      this.writeProgram(FINISHING_STEP * this.size, limit, shorten);
      if (await this.program.solveGivingWay(this.run)) this.takeStep();
      this.writeProgram(FINISHING_STEP * this.size, limit, shorten);
    }
    this.roundAngles();
    this.layAll();
    this.writeProgram(FINISHING_STEP * this.size, limit, shorten);
    return this.worst <= LACKING && !this.run.pulse.stopped;
  }

  private async descend(limit: number, shorten: boolean): Promise<void> {
    const { arrangement, kept, size } = this;
    let radius = LARGEST_STEP * size;
    this.writeProgram(radius, limit, shorten);
    for (let step = 0; step < MOST_STEPS && radius > LEAST_STEP * size && !this.run.budget.over; step++) {
      if (!shorten && this.worst <= LACKING / 2) return;
      const { worst: before, end: endBefore } = this;
      kept.copyFrom(arrangement);
      const solved = await this.program.solveGivingWay(this.run);
      if (this.run.pulse.stopped) return;
      if (solved) this.takeStep();
      this.writeProgram(radius, limit, shorten);
      const gained = endBefore - this.end + Math.max(0, before - this.worst);
      if (!solved || this.worst > Math.max(BENT * radius, 0.8 * before)) {
        arrangement.copyFrom(kept);
        this.end = endBefore;
        this.layAll();
        radius /= 3;
      } else if (gained < 0.05 * radius) radius /= 2;
      else if (gained > 0.7 * radius && this.worst < 0.2 * BENT * radius)
        radius = Math.min(2 * radius, LARGEST_STEP * size);
      else continue;
      this.writeProgram(radius, limit, shorten);
    }
  }

  /** Lays the outlines where the copies are. */
  private layAll(): void {
    for (const [n, i] of this.items.entries()) this.lay(this.outlines[n], i);
  }

  private lay(outline: TurnedOutline, i: number): void {
    const { x, y, orientation, twist } = this.arrangement;
    const { degrees, turnedOver } = this.problem.orientations[orientation[i]];
    outline.lay(turn(degrees + twist[i], turnedOver), x[i], y[i]);
  }

  private reached(): number {
    return this.outlines.reduce((most, { maxX }) => Math.max(most, maxX), Number.NEGATIVE_INFINITY);
  }

  /** Carries out what the program says. */
  private takeStep(): void {
    const { arrangement, items, outlines } = this;
    const { value } = this.program;
    for (const [n, i] of items.entries()) {
      const at = VARIABLES * n;
      arrangement.x[i] += value[at];
      arrangement.y[i] += value[at + 1];
      arrangement.twist[i] += (value[at + 2] / outlines[n].radius) * (180 / Math.PI);
    }
    this.end += value[VARIABLES * items.length];
    this.layAll();
  }

  private roundAngles(): void {
    const { arrangement } = this;
    for (const i of this.items) {
      const [least, most] = this.problem.orientations[arrangement.orientation[i]].twist;
      const rounded = Math.round(arrangement.twist[i] * STEPS_PER_DEGREE) / STEPS_PER_DEGREE;
      arrangement.twist[i] = Math.max(least, Math.min(most, rounded));
    }
  }

  /**
   * Variables: of every copy two for sliding and one for turning (the way of its farthest vertex, mm), how far the end
   * moves, and what the worst overlap may keep. Turning costs nothing, so copies with room turn as far as a step goes:
   * that shakes a jammed layout, which a price on turning would leave jammed.
   */
  private writeProgram(radius: number, limit: number, shorten: boolean): void {
    const { program, items, outlines, walls } = this;
    const last = VARIABLES * items.length;
    program.clear();
    this.worst = 0;
    program.cost[last] = shorten ? 1 : 0;
    program.low[last] = shorten ? -2 * radius : 0;
    program.high[last] = shorten ? Math.min(2 * radius, limit - this.end) : 0;
    program.cost[last + 1] = OVERLAP_COST;
    for (let n = 0; n < items.length; n++) {
      this.writeBounds(n, radius);
      this.writeSides(n, radius);
      for (const { outline, distance, only } of walls) {
        if (only !== undefined && only.edge !== this.orientationOf(n).edge) continue;
        if (!outline.isFrame && !this.near(outlines[n], outline, distance + LOOK_AHEAD * radius)) continue;
        this.writePair(n, outlines[n], -1, outline, distance, radius);
        this.writePair(-1, outline, n, outlines[n], distance, radius);
      }
      for (let m = 0; m < n; m++) {
        if (!this.near(outlines[n], outlines[m], this.problem.gap + LOOK_AHEAD * radius)) continue;
        this.writePair(n, outlines[n], m, outlines[m], this.problem.gap, radius);
        this.writePair(m, outlines[m], n, outlines[n], this.problem.gap, radius);
      }
    }
    program.low[last + 1] = 0;
    program.high[last + 1] = this.worst;
  }

  private orientationOf(n: number) {
    return this.problem.orientations[this.arrangement.orientation[this.items[n]]];
  }

  /** Steps stay within the radius and the turns that the grain allows; a faint pull left and up breaks ties. */
  private writeBounds(n: number, radius: number): void {
    const { program, arrangement, items, outlines } = this;
    const { twist, edge } = this.orientationOf(n);
    const perDegree = (outlines[n].radius * Math.PI) / 180;
    const now = arrangement.twist[items[n]];
    const at = VARIABLES * n;
    program.low.fill(-radius, at, at + 2);
    program.high.fill(radius, at, at + 2);
    program.low[at + 2] = Math.min(0, Math.max(-radius, (twist[0] - now) * perDegree));
    program.high[at + 2] = Math.max(0, Math.min(radius, (twist[1] - now) * perDegree));
    program.cost[at] = 1e-3 / items.length;
    program.cost[at + 1] = edge === undefined ? 1e-4 / items.length : 0;
    program.cost[at + 2] = 0;
    if (edge === undefined) return;
    program.low[at + 1] = 0;
    program.high[at + 1] = 0;
  }

  /** Every vertex that a step may carry over a side of the container's box, or over the end, is held back. */
  private writeSides(n: number, radius: number): void {
    const { outlines, container, problem } = this;
    const { x, y, count, minX, maxX, minY, maxY } = outlines[n];
    const { box } = container;
    const { margin } = problem;
    const ahead = LOOK_AHEAD * radius;
    const { edge } = this.orientationOf(n);
    const left = minX - box.minX - margin < ahead;
    const right = this.end - maxX < ahead;
    const top = edge !== 'top' && minY - box.minY - margin < ahead;
    const bottom = edge !== 'straight' && box.maxY - margin - maxY < ahead;
    for (let k = 0; k < count; k++) {
      // Vertices much farther in than the foremost cannot be the first to meet the side.
      if (left && x[k] < minX + ahead) this.writeSide(n, k, 1, 0, x[k] - box.minX - margin, 0);
      if (right && x[k] > maxX - ahead) this.writeSide(n, k, -1, 0, this.end - x[k], 1);
      if (top && y[k] < minY + ahead) this.writeSide(n, k, 0, 1, y[k] - box.minY - margin, 0);
      if (bottom && y[k] > maxY - ahead) this.writeSide(n, k, 0, -1, box.maxY - margin - y[k], 0);
    }
  }

  private writeSide(n: number, k: number, nx: number, ny: number, room: number, withEnd: number): void {
    const { program, outlines, items } = this;
    const start = this.addRow(room);
    this.writeMotion(start, n, nx, ny, outlines[n].x[k], outlines[n].y[k], 1);
    program.coefficients[start + VARIABLES * items.length] = withEnd;
  }

  private near(a: TurnedOutline, b: TurnedOutline, reach: number): boolean {
    return (
      a.minX < b.maxX + reach && b.minX < a.maxX + reach && a.minY < b.maxY + reach && b.minY < a.maxY + reach
    );
  }

  /** Rows for the vertices of one solid that come near the edges of another; -1 stands for what does not move. */
  private writePair(
    n: number,
    points: TurnedOutline,
    m: number,
    solid: TurnedOutline,
    distance: number,
    radius: number,
  ): void {
    const { contacts } = this;
    contacts.find(points, solid, distance + LOOK_AHEAD * radius, BEYOND * radius);
    for (let c = 0; c < contacts.count; c++) {
      const at = c * CONTACT;
      const { values } = contacts;
      const nx = values[at + 1];
      const ny = values[at + 2];
      const start = this.addRow(values[at] - distance - (distance > 0 ? HAIR : 0));
      if (n >= 0) this.writeMotion(start, n, nx, ny, values[at + 3], values[at + 4], 1);
      if (m >= 0) this.writeMotion(start, m, nx, ny, values[at + 5], values[at + 6], -1);
    }
  }

  /** A row for a distance with some room left (negative when it falls short). */
  private addRow(room: number): number {
    if (-room > this.worst) this.worst = -room;
    const start = this.program.addRow(-room);
    this.program.coefficients[start + VARIABLES * this.items.length + 1] = 1;
    return start;
  }

  /** How the point (px, py) of copy n moves along (nx, ny) with the copy's variables. */
  private writeMotion(
    start: number,
    n: number,
    nx: number,
    ny: number,
    px: number,
    py: number,
    sign: number,
  ): void {
    const { program, arrangement, items, outlines } = this;
    const rx = px - arrangement.x[items[n]];
    const ry = py - arrangement.y[items[n]];
    const row = program.coefficients;
    const at = start + VARIABLES * n;
    row[at] = sign * nx;
    row[at + 1] = sign * ny;
    row[at + 2] = (sign * (ny * rx - nx * ry)) / outlines[n].radius;
  }
}

function wallsOf({ margin }: NestingProblem, { hazards }: Container): Wall[] {
  return hazards.flatMap(({ region, frame, distance = margin }): Wall[] => {
    const outlineOf = (what: typeof region) => {
      const outline = new TurnedOutline(what, frame);
      outline.lay([1, 0, 0, 1, 0, 0], 0, 0);
      return outline;
    };
    if (!frame) return [{ outline: outlineOf(region), distance }];
    return [
      { outline: outlineOf(region), distance, only: { edge: undefined } },
      ...BOARD_EDGES.map((edge) => ({
        outline: outlineOf(withoutMargin(region, margin, edge)),
        distance,
        only: { edge },
      })),
    ];
  });
}
