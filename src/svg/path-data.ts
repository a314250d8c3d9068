import { type Affine, IDENTITY } from '../geometry/affine.ts';
import {
  arcFromEndpoints,
  type Curve,
  cubicFromQuadratic,
  mapSegment,
  type Segment,
} from '../geometry/curve.ts';
import type { Point } from '../geometry/shapes.ts';
import { NumberScanner } from './number-scanner.ts';

/**
 * Path data to curves: the whole grammar of SVG 2 section 9.3, with its error rule (section 9.5.4): everything
 * before the first mistake is drawn. Own grammar rather than a package: linear in one long run of implied
 * commands, exact on leading zeros, and arcs stay arcs.
 */
export interface PathReading {
  readonly curves: Curve[];
  /** What stopped the reading, undefined when all was read. */
  readonly problem: { readonly message: string; readonly at: number } | undefined;
}

/** How many numbers each command takes. */
const ARGUMENTS: Readonly<Record<string, number>> = {
  M: 2,
  L: 2,
  H: 1,
  V: 1,
  C: 6,
  S: 4,
  Q: 4,
  T: 2,
  A: 7,
  Z: 0,
};

/** An arc whose radii exceed its chord so far that it leaves the straight line by less than a ten-millionth of it. */
const STRAIGHT_BEYOND = 1e7;

/** Reads path data into curves, carried by `map` from user units as they are drawn. */
export function readPathData(data: string, map: Affine = IDENTITY): PathReading {
  const pen = new Pen(map);
  const problem = scanCommands(new NumberScanner(data), pen);
  pen.lift(false);
  return { curves: pen.curves, problem };
}

function scanCommands(scanner: NumberScanner, pen: Pen): PathReading['problem'] {
  const numbers = new Float64Array(7);
  scanner.skipSpace();
  let first = true;
  while (!scanner.ended) {
    const start = scanner.at;
    const letter = scanner.text[start];
    const command = letter.toUpperCase();
    const count = ARGUMENTS[command];
    if (count === undefined) return { message: `"${letter}" is not a path command`, at: start };
    if (first && command !== 'M') return { message: 'a path must start with M', at: start };
    first = false;
    scanner.at++;
    scanner.skipSpace();
    if (count === 0) {
      pen.close();
      continue;
    }
    const problem = scanRuns(scanner, pen, letter, numbers);
    if (problem !== undefined) return problem;
  }
  return undefined;
}

/**
 * The arguments of one command letter, and the further sets that repeat it without a letter. `numbers` is room to read
 * into, shared by all commands: a path of a photograph's outline has tens of thousands.
 */
function scanRuns(
  scanner: NumberScanner,
  pen: Pen,
  letter: string,
  numbers: Float64Array,
): PathReading['problem'] {
  let command = letter.toUpperCase();
  const relative = letter !== command;
  const count = ARGUMENTS[command];
  for (;;) {
    let comma = false;
    for (let i = 0; i < count; i++) {
      const value = command === 'A' && (i === 3 || i === 4) ? flagValue(scanner) : scanner.number();
      if (Number.isNaN(value)) return argumentProblem(scanner, command, i, count);
      numbers[i] = value;
      comma = scanner.skipSeparator();
    }
    pen.draw(command, relative, numbers);
    // Pairs after a moveto are linetos (section 9.3.3).
    if (command === 'M') command = 'L';
    // A comma promises another set, so what follows it must be one.
    if (!comma && !scanner.atNumber()) return undefined;
  }
}

function flagValue(scanner: NumberScanner): number {
  const flag = scanner.flag();
  return flag === undefined ? Number.NaN : Number(flag);
}

function argumentProblem(
  scanner: NumberScanner,
  command: string,
  index: number,
  count: number,
): PathReading['problem'] {
  const found = scanner.ended ? 'the end of the path' : `"${scanner.text.slice(scanner.at, scanner.at + 8)}"`;
  const wanted = command === 'A' && (index === 3 || index === 4) ? 'a flag 0 or 1' : 'a number';
  return {
    message: `command ${command} takes ${count} numbers; ${found} stands where ${wanted} should be`,
    at: scanner.at,
  };
}

/** Draws commands into curves on the page, keeping in user units what the next command may refer to. */
class Pen {
  readonly curves: Curve[] = [];
  private x = 0;
  private y = 0;
  private startX = 0;
  private startY = 0;
  private run: Segment[] = [];
  private readonly map: Affine;
  /** Control point that S or T mirrors: of the command before, when that was a curve of its own kind. */
  private controlX = 0;
  private controlY = 0;
  private controlKind: 'none' | 'cubic' | 'quadratic' = 'none';

  constructor(map: Affine) {
    this.map = map;
  }

  draw(command: string, relative: boolean, n: Float64Array): void {
    const ox = relative ? this.x : 0;
    const oy = relative ? this.y : 0;
    if (command === 'M') this.moveTo(ox + n[0], oy + n[1]);
    else if (command === 'L') this.line(ox + n[0], oy + n[1]);
    else if (command === 'H') this.line(ox + n[0], this.y);
    else if (command === 'V') this.line(this.x, oy + n[0]);
    else if (command === 'C') {
      this.cubic([ox + n[0], oy + n[1]], [ox + n[2], oy + n[3]], [ox + n[4], oy + n[5]]);
    } else if (command === 'S') {
      this.cubic(this.mirroredControl('cubic'), [ox + n[0], oy + n[1]], [ox + n[2], oy + n[3]]);
    } else if (command === 'Q') this.quadratic([ox + n[0], oy + n[1]], [ox + n[2], oy + n[3]]);
    else if (command === 'T') this.quadratic(this.mirroredControl('quadratic'), [ox + n[0], oy + n[1]]);
    else this.arc(n, [ox + n[5], oy + n[6]]);
  }

  /** Ends the subpath with a straight line to its start. */
  close(): void {
    if (this.x !== this.startX || this.y !== this.startY) this.line(this.startX, this.startY);
    this.lift(true);
    // A command after Z that is no M goes on from the start of the subpath (section 9.3.4).
    this.x = this.startX;
    this.y = this.startY;
    this.controlKind = 'none';
  }

  /** Ends the subpath; one without segments paints nothing and is not kept. */
  lift(closed: boolean): void {
    if (this.run.length > 0) {
      this.curves.push({ start: this.mapped(this.startX, this.startY), segments: this.run, closed });
      this.run = [];
    }
  }

  private moveTo(x: number, y: number): void {
    this.lift(false);
    this.x = this.startX = x;
    this.y = this.startY = y;
    this.controlKind = 'none';
  }

  private line(x: number, y: number): void {
    this.push({ kind: 'line', to: this.mapped(x, y) }, x, y, 'none');
  }

  private cubic(c1: Point, c2: Point, to: Point): void {
    this.controlX = c2[0];
    this.controlY = c2[1];
    const segment: Segment = {
      kind: 'cubic',
      c1: this.mapped(c1[0], c1[1]),
      c2: this.mapped(c2[0], c2[1]),
      to: this.mapped(to[0], to[1]),
    };
    this.push(segment, to[0], to[1], 'cubic');
  }

  private quadratic(control: Point, to: Point): void {
    this.controlX = control[0];
    this.controlY = control[1];
    const segment = cubicFromQuadratic([this.x, this.y], control, to);
    this.push(mapSegment(this.map, segment), to[0], to[1], 'quadratic');
  }

  /** The command A: its two radii, tilt and two flags as read, its end in user units of the path. */
  private arc([rx, ry, tilt, large, clockwise]: Float64Array, to: Point): void {
    const chord = Math.hypot(to[0] - this.x, to[1] - this.y);
    const shortest = Math.min(Math.abs(rx), Math.abs(ry));
    const straight = large === 0 && chord > 0 && shortest > STRAIGHT_BEYOND * chord;
    const segment: Segment | undefined = straight
      ? { kind: 'line', to }
      : arcFromEndpoints([this.x, this.y], {
          radii: [rx, ry],
          tilt,
          largeArc: large === 1,
          clockwise: clockwise === 1,
          to,
        });
    if (segment === undefined) this.controlKind = 'none';
    else this.push(mapSegment(this.map, segment), to[0], to[1], 'none');
  }

  private mapped(x: number, y: number): Point {
    const [a, b, c, d, e, f] = this.map;
    return [a * x + c * y + e, b * x + d * y + f];
  }

  /** Adds a segment on the page that ends at (x, y) in user units. */
  private push(segment: Segment, x: number, y: number, control: 'none' | 'cubic' | 'quadratic'): void {
    this.run.push(segment);
    this.x = x;
    this.y = y;
    this.controlKind = control;
  }

  private mirroredControl(kind: 'cubic' | 'quadratic'): Point {
    if (this.controlKind !== kind) return [this.x, this.y];
    return [2 * this.x - this.controlX, 2 * this.y - this.controlY];
  }
}
