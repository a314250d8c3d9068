import { applyToRegion } from '../../geometry/affine.ts';
import { offsetRegions } from '../../geometry/clipper.ts';
import { regionArea, regionsArea, verticesOf } from '../../geometry/ring.ts';
import { boundsOf, type Region } from '../../geometry/shapes.ts';
import { type Chords, chordBeforeEnd, chordsAcross, chordsAlong } from './chords.ts';
import type { Container } from './container.ts';
import { CROWDINGS } from './crowding.ts';
import { turn } from './orientations.ts';
import { type ProblemSpec, referenceOf, type ShapeSpec } from './problem-spec.ts';

/**
 * What no layout can beat. Parts grown by half the gap never overlap, and lie within the board shrunk by the margin and
 * grown by half the gap. (For convex parts the grown area is A + P g/2 + pi g^2/4, Steiner 1840.) So they take up room by
 * their area, by what stands above each other across the boards, by what lies in line along them, and by what stands beside
 * each other on their straight edges.
 */

/** One way to say how much room all copies take, and how much each container has. */
export interface Requirement {
  readonly need: number;
  readonly rooms: readonly number[];
  /** True when a container that is shortened has less room by the same share. */
  readonly isByLength: boolean;
}

/** Excess of grown outlines that the bound has to leave out to stay one, mm. */
const EXCESS = 0.02;

/** Grown outlines are rounded to the grid, and the search takes no nearer look than this at what touches, mm. */
const ROUNDING = 5e-4;

/** Share of what is needed that is nothing but rounding: boards may be filled wholly. */
const ROUNDED = 1e-6;

/** Degrees from one angle looked at to the next at the least, where a copy may be turned. */
const LEAST_STEP = 3;

/** Edges looked at in all these angles together: dozens of parts of thousands of points would take seconds. */
const MOST_EDGES = 200_000;

/** Heights above the straight edge at which parts that stand on it are compared. */
const LEVELS = 48;

/** Parts stand on the straight edge to this, mm. */
const STANDS = 0.05;

/** What the copies of a problem take and its containers have, by area first, mm2, and then in the other ways. */
export function requirementsOf(spec: ProblemSpec): [Requirement, ...Requirement[]] {
  const sizes = sizesOf(spec);
  const [lengths, widths] = [sizes.map(({ length }) => length), sizes.map(({ width }) => width)];
  const edges = MOST_EDGES / spec.shapes.length;
  const lies = spec.shapes.map((shape) => liesOf(shape, spec.gap, edges));
  return [
    { need: areaNeeded(spec), rooms: roomsOf(spec), isByLength: true },
    ...crowded(spec, lies.map(chordsOfEach(chordsAcross)), { along: lengths, across: widths }, true),
    ...crowded(spec, lies.map(chordsOfEach(chordsAlong)), { along: widths, across: lengths }, false),
    ...standing(spec, lengths),
  ];
}

/** Area in mm2 that the copies of a problem take at least, each with half of every gap around it. */
function areaNeeded({ shapes, gap }: ProblemSpec): number {
  return shapes.reduce((sum, { region, copies }) => sum + copies * regionsArea(grown(region, gap)), 0);
}

/** Area in mm2 that each container of a problem has at most for copies grown by half the gap. */
function roomsOf(spec: ProblemSpec): number[] {
  const spare = spareOf(spec);
  return spec.containers.map((container) => roomOf(container, spare));
}

/** How much longer and wider a container is for copies grown by half the gap, mm. */
export function spareOf({ shapes, gap, margin }: ProblemSpec): number {
  // Parts on the straight edge keep no margin there.
  const kept = shapes.some(({ stands }) => stands) ? 0 : margin;
  return gap - 2 * kept;
}

/** Length and width of each container for copies grown by half the gap, mm. */
export function sizesOf(spec: ProblemSpec): { readonly length: number; readonly width: number }[] {
  const spare = spareOf(spec);
  return spec.containers.map(({ box }) => ({
    length: Math.max(0, box.maxX - box.minX + spare),
    width: Math.max(0, box.maxY - box.minY + spare),
  }));
}

/** A part grown by half the gap, and never by more. */
function grown(region: Region, gap: number, less = 0): Region[] {
  const distance = gap / 2 - EXCESS - ROUNDING - less;
  if (distance <= 0 && less === 0) return [region];
  return offsetRegions([region], distance, EXCESS);
}

/** Room for grown parts in a container, mm2. */
function roomOf({ box, hazards }: Container, spare: number): number {
  const whole = (box.maxX - box.minX + spare) * (box.maxY - box.minY + spare);
  const frame = hazards.find((hazard) => hazard.frame);
  const defects = hazards.filter((hazard) => !hazard.frame).map(({ region }) => region);
  const taken = spare <= 0 ? regionsArea(defects) : 0;
  const outline = frame === undefined ? whole : Math.min(whole, frameArea(frame.region, spare / 2));
  return Math.max(0, outline - taken);
}

function frameArea(region: Region, distance: number): number {
  if (distance === 0) return regionArea(region);
  return regionsArea(offsetRegions([region], distance + EXCESS, EXCESS));
}

/**
 * A shape in every way it may lie. Between the angles looked at, it covers at least what is left of it when it is shrunk by
 * as far as a point of it comes round from the nearest one. Which side is up, and a half turn, mean nothing to chords.
 *
 * @param edges to be looked at in all angles between which it may be turned
 */
function liesOf({ region, lies }: ShapeSpec, gap: number, edges: number): Region[][] {
  const [x, y] = referenceOf(region);
  const part = applyToRegion([1, 0, 0, 1, -x, -y], region);
  const points = verticesOf(part);
  const step = Math.min(45, Math.max(LEAST_STEP, (180 * points) / edges));
  const stiff = new Set<number>();
  const free = new Set<number>();
  for (const { degrees, turnedOver, twist = [0, 0] } of lies) {
    // What turns all the way round lies in the same ways from wherever it is turned.
    const [least, most] = twist[1] - twist[0] >= 180 ? [-degrees, 180 - degrees] : twist;
    const steps = Math.ceil((most - least) / step);
    if (steps === 0) stiff.add(half(turnedOver ? -degrees : degrees));
    for (let i = 0; i < steps; i++) {
      const angle = degrees + least + ((i + 0.5) * (most - least)) / steps;
      free.add(half(turnedOver ? -angle : angle));
    }
  }
  const farthest = Math.max(...part.outline.map(([x, y]) => Math.sqrt(x * x + y * y)));
  const turned = (regions: readonly Region[], angles: ReadonlySet<number>) =>
    [...angles].map((angle) => regions.map((each) => applyToRegion(turn(angle, false), each)));
  const less = (farthest * step * Math.PI) / 360;
  return [
    ...turned(stiff.size === 0 ? [] : grown(part, gap), stiff),
    ...turned(free.size === 0 ? [] : grown(part, gap, less), free),
  ];
}

/** An angle less all half turns, in degrees, so that angles that differ by no more than rounding are one. */
function half(degrees: number): number {
  return Math.round((((degrees % 180) + 180) % 180) * 1e6) / 1e6;
}

function chordsOfEach(chordsOf: (regions: readonly Region[]) => Chords) {
  return (lies: readonly Region[][]): Chords[] => lies.map(chordsOf);
}

/**
 * What copies take of the lines across the containers.
 *
 * @param chords of every shape in each way it may lie
 * @param sizes of the containers along the way the lines move, and across it, mm
 */
function crowded(
  { shapes }: ProblemSpec,
  chords: readonly Chords[][],
  { along, across }: { readonly along: readonly number[]; readonly across: readonly number[] },
  isByLength: boolean,
): Requirement[] {
  const widest = Math.max(...across, 0);
  if (widest === 0) return [];
  return CROWDINGS.map(({ of, most }) => ({
    need: shapes.reduce((sum, { copies }, i) => {
      if (copies === 0) return sum;
      return sum + copies * Math.min(...chords[i].map((each) => of(each, widest)));
    }, 0),
    rooms: across.map((width, k) => most(width / widest) * along[k]),
    isByLength,
  }));
}

/** What parts that stand on the straight edges take of them, at the height where they take most. */
function standing({ shapes, containers, gap }: ProblemSpec, lengths: readonly number[]): Requirement[] {
  const standing = shapes.filter(({ stands, copies }) => stands && copies > 0);
  if (standing.length === 0) return [];
  const each = standing.map(({ region, copies }) => {
    const regions = grown(region, gap);
    const [, lowest] = heightsOf([region]);
    const [, end] = heightsOf(regions);
    // Seen from the straight edge, not from the end of what is grown below it.
    return { copies, chords: chordsAlong(regions), below: end - lowest };
  });
  const tallest = Math.max(
    ...standing.map(({ region }) => heightsOf([region])).map(([top, end]) => end - top),
  );
  const needs = Array.from({ length: LEVELS }, (_, i) =>
    each.reduce(
      (sum, { copies, chords, below }) =>
        sum + copies * chordBeforeEnd(chords, below + ((i + 0.5) * tallest) / LEVELS, STANDS),
      0,
    ),
  );
  const rooms = lengths.map((length, k) => length * edgesOf(containers[k]));
  return [{ need: Math.max(...needs), rooms, isByLength: true }];
}

/** How many edges of a container parts may stand on. */
function edgesOf({ hasStraightEdge = true, hasStraightTop = false }: Container): number {
  return (hasStraightEdge ? 1 : 0) + (hasStraightTop ? 1 : 0);
}

/** Least and greatest y of some regions, mm. */
function heightsOf(regions: readonly Region[]): [number, number] {
  const { minY, maxY } = boundsOf(regions.flatMap(({ outline }) => outline));
  return [minY, maxY];
}

/** Least number of containers that have the room needed; one more than there are when all do not. */
export function fewest({ need, rooms }: Requirement): number {
  const largestFirst = [...rooms].sort((a, b) => b - a);
  let room = 0;
  for (const [taken, each] of largestFirst.entries()) {
    if (room >= need * (1 - ROUNDED)) return taken;
    room += each;
  }
  return room >= need * (1 - ROUNDED) ? rooms.length : rooms.length + 1;
}

/**
 * Least area in mm2 of containers, each as long as it need be, that have the room needed; infinite when all do not.
 *
 * @param areas of the containers, mm2
 */
export function leastWood({ need, rooms }: Requirement, areas: readonly number[]): number {
  const roomiest = rooms
    .map((room, k) => ({ room, area: areas[k] }))
    .filter(({ room }) => room > 0)
    .sort((a, b) => b.room / b.area - a.room / a.area);
  let left = need * (1 - ROUNDED);
  let wood = 0;
  for (const { room, area } of roomiest) {
    if (left <= room) return wood + (area * Math.max(0, left)) / room;
    left -= room;
    wood += area;
  }
  return Number.POSITIVE_INFINITY;
}
