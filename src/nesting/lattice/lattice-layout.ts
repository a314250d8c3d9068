import type { Point } from '../../geometry/shapes.ts';
import { Arrangement, hasRoom, type Range, setRange } from '../arrangement/arrangement.ts';
import { DEPTH_TOLERANCE, Probe } from '../arrangement/probe.ts';
import { allCopies, placeByArea } from '../construct/construct.ts';
import { isHalfTurnOf } from '../problem/orientations.ts';
import type { PairTable } from '../problem/pair-table.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Random, RandomState } from '../running/random.ts';
import { densestLattice, type Lattice } from './lattice.ts';

/**
 * The staggered layout of the trade: copies of one shape on its densest lattice, cut to the board. Shapes with many
 * copies are laid one after the other, largest first; what finds no room on a lattice is placed constructively.
 */

/** Copies, and their share of the area of all parts, from which a lattice is worth its while. */
const FEWEST_COPIES = 8;
const LEAST_SHARE = 0.15;

/** Random starts of every lattice. */
const STARTS = 24;

/** Lattices kept of one kind, by how much larger the cell of the next is at least, and of the last at most. */
const KEPT = 3;
const UNLIKE = 1.002;
const LOOSEST = 1.15;

/** Positions of the lattice in the board tried, along either side of the cell. */
const OFFSETS = 8;

/** How lattices are laid on a board: the densest one, and those that suit its edges. */
const LAYS = ['free', 'rows', 'columns', 'grid'] as const;

/**
 * Arrangement with lattices, or undefined when no shape has copies enough, or the search is told to stop. Which lattices
 * are tried hangs on chance, so the layout repeats with the seed of `random`. Positions are in mm.
 */
export async function latticeLayout(
  problem: NestingProblem,
  random: Random,
  pulse: Pulse,
): Promise<Arrangement | undefined> {
  const copies = problem.shapes.map((): number[] => []);
  for (const item of allCopies(problem)) copies[problem.shapeOf[item]].push(item);
  const area = copies.map((items, shape) => items.length * problem.shapes[shape].area);
  const whole = area.reduce((sum, one) => sum + one, 0);
  const many = copies
    .map((_, shape) => shape)
    .filter((shape) => copies[shape].length >= FEWEST_COPIES && area[shape] >= LEAST_SHARE * whole);
  if (many.length === 0) return undefined;
  const arrangement = new Arrangement(problem.shapeOf.length);
  many.sort((a, b) => problem.shapes[b].area - problem.shapes[a].area || a - b);
  for (const shape of many) {
    const lattices = await latticesOf(problem, shape, random, pulse);
    const ofKind = new Map<number, readonly Site[]>();
    let rest = copies[shape];
    for (let container = 0; container < problem.containers.length && rest.length > 0; container++) {
      if (pulse.stopped) return undefined;
      if (pulse.due) await pulse.breathe();
      const { kind } = problem.containers[container];
      const isEmpty = !arrangement.container.includes(container);
      const known = isEmpty ? ofKind.get(kind) : undefined;
      // Where more copies are left than an empty board of the kind takes, the next one takes them in the same places.
      const sites =
        known !== undefined && known.length < rest.length
          ? known
          : await bestSites(problem, arrangement, container, lattices, rest.length, pulse);
      if (isEmpty) ofKind.set(kind, sites);
      rest = laidOn(arrangement, container, sites, rest);
    }
  }
  const left = arrangement.lyingNowhere();
  await placeByArea(problem, arrangement, left, pulse);
  return arrangement;
}

/** Lattices that were found, and the state of chance after. */
interface Found {
  readonly lattices: readonly Lattice[];
  readonly after: RandomState;
}

/**
 * Found before of the same outlines, by shape and state of chance: the same boards parted in another way, or a batch of
 * another size, begin with the same ones. They take longer than anything else of a short search.
 */
const foundBefore = new WeakMap<PairTable, Map<string, Found>>();

/** The lattices of a shape; the same ones again, and the same chance after them, where chance is as it was before. */
async function latticesOf(
  problem: NestingProblem,
  shape: number,
  random: Random,
  pulse: Pulse,
): Promise<readonly Lattice[]> {
  const known = foundBefore.get(problem.pairs) ?? new Map<string, Found>();
  foundBefore.set(problem.pairs, known);
  const key = [shape, ...random.state].join(' ');
  const before = known.get(key);
  if (before !== undefined) {
    random.state = before.after;
    return before.lattices;
  }
  const lattices = await newLattices(problem, shape, random, pulse);
  if (!pulse.stopped) known.set(key, { lattices, after: random.state });
  return lattices;
}

/** Single lattices of every orientation, and pairs of orientations half a turn apart. */
async function newLattices(
  problem: NestingProblem,
  shape: number,
  random: Random,
  pulse: Pulse,
): Promise<Lattice[]> {
  const { orientations, pairs } = problem;
  const found: Lattice[] = [];
  const own = problem.shapes[shape].orientations;
  for (const first of own) {
    const turned = own.find((other) => isHalfTurnOf(orientations[other], orientations[first]));
    const { box } = orientations[first];
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    for (const second of turned === undefined ? [undefined] : [undefined, turned]) {
      for (const lay of LAYS) {
        const lattices: Lattice[] = [];
        for (let start = 0; start < STARTS && !pulse.stopped; start++) {
          if (pulse.due) await pulse.breathe();
          const lattice = densestLattice({ pairs, first, second, size, lay }, 1, random);
          if (lattice !== undefined) lattices.push(lattice);
        }
        found.push(...unlikeOnes(lattices));
      }
    }
  }
  return found;
}

/** The densest lattices, of those of about one area the first: rows of the second may suit a board that those of the first do not. */
function unlikeOnes(lattices: readonly Lattice[]): Lattice[] {
  const kept: Lattice[] = [];
  for (const lattice of lattices.toSorted((a, b) => a.areaPerCopy - b.areaPerCopy)) {
    const last = kept.at(-1);
    if (last !== undefined && lattice.areaPerCopy < UNLIKE * last.areaPerCopy) continue;
    if (kept.length === KEPT || lattice.areaPerCopy > LOOSEST * (kept[0] ?? lattice).areaPerCopy) break;
    kept.push(lattice);
  }
  return kept;
}

/** One copy of a lattice that could be used. */
interface Site {
  readonly orientation: number;
  readonly x: number;
  readonly y: number;
  readonly end: number;
}

/** Sites for up to so many copies on the best lattice in the best position; none when told to stop. */
async function bestSites(
  problem: NestingProblem,
  arrangement: Arrangement,
  container: number,
  lattices: readonly Lattice[],
  copies: number,
  pulse: Pulse,
): Promise<readonly Site[]> {
  const probe = new Probe(problem);
  const lying = lyingOn(container, arrangement);
  const occupied = lying.count > 0 || problem.containers[container].hazards.length > 0;
  let best: Site[] = [];
  for (const lattice of lattices) {
    // A part stands nowhere on an edge that is not straight: its range there has no end to count sites from.
    if (!lyingIn(lattice).every((orientation) => hasRoom(problem, container, orientation))) continue;
    for (let offset = 0; offset < OFFSETS * OFFSETS; offset++) {
      if (pulse.due) await pulse.breathe();
      if (pulse.stopped) return [];
      const shift: Point = [(offset % OFFSETS) / OFFSETS, Math.floor(offset / OFFSETS) / OFFSETS];
      // Once all copies have sites, those that end farther right than all of these are better for nothing.
      const end = best.length === copies ? endOf(best) : Number.POSITIVE_INFINITY;
      const sites = sitesOf(problem, container, lattice, shift, end);
      if (sites.length < best.length) continue;
      const free = occupied
        ? freeSites(probe, lying, container, sites, copies, best.length)
        : sites.slice(0, copies);
      if (free.length > best.length || (free.length === best.length && endOf(free) < endOf(best) - 1e-9))
        best = free;
    }
  }
  return best;
}

/** What lies on one container: every site asks whether these copies are in its way. */
function lyingOn(container: number, arrangement: Arrangement): Arrangement {
  const lying = arrangement.excerpt(arrangement.lyingOn(container), [container]);
  // By its number among all containers: the sites that ask are on that one.
  lying.container.fill(container);
  return lying;
}

/** The orientations that the copies of a lattice lie in. */
function lyingIn({ first, second }: Pick<Lattice, 'first' | 'second'>): readonly number[] {
  return second === undefined ? [first] : [first, second];
}

/** Lays copies at the sites, one each; returns those that found none. */
function laidOn(
  arrangement: Arrangement,
  container: number,
  sites: readonly Site[],
  copies: readonly number[],
): number[] {
  sites.forEach((site, n) => {
    const item = copies[n];
    arrangement.x[item] = site.x;
    arrangement.y[item] = site.y;
    arrangement.orientation[item] = site.orientation;
    arrangement.container[item] = container;
  });
  return copies.slice(sites.length);
}

function endOf(sites: readonly Site[]): number {
  return sites.length === 0 ? Number.POSITIVE_INFINITY : sites[sites.length - 1].end;
}

/**
 * The first sites at which nothing is in the way.
 *
 * @param most sites that are wanted
 * @param least sites without which the others are of no use: once so many are out of reach, no more are looked at
 */
function freeSites(
  probe: Probe,
  arrangement: Arrangement,
  container: number,
  sites: readonly Site[],
  most: number,
  least: number,
): Site[] {
  const free: Site[] = [];
  for (const [n, site] of sites.entries()) {
    if (free.length >= most || free.length + sites.length - n < least) break;
    const { orientation, x, y } = site;
    if (!probe.gather(arrangement, -1, orientation, container, x, y, 0)) continue;
    if (probe.deepest(x, y) <= DEPTH_TOLERANCE) free.push(site);
  }
  return free;
}

/**
 * Sites of a lattice inside the container, from left to right.
 *
 * @param shift of the lattice along the sides of its cell, as shares of them
 * @param end where copies have to end, mm from the left
 */
function sitesOf(
  problem: NestingProblem,
  container: number,
  { first, second, u, v, t }: Lattice,
  [along, across]: Point,
  end: number,
): Site[] {
  const sites: Site[] = [];
  const range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const area = u[0] * v[1] - u[1] * v[0];
  const { orientations, containers, margin } = problem;
  setRange(range, containers[container], orientations[first], margin, end);
  const originX = range.minX + along * u[0] + across * v[0];
  const originY = range.minY + along * u[1] + across * v[1];
  for (const orientation of lyingIn({ first, second })) {
    const { box } = orientations[orientation];
    setRange(range, containers[container], orientations[orientation], margin, end);
    const shiftX = originX + (orientation === first ? 0 : t[0]);
    const shiftY = originY + (orientation === first ? 0 : t[1]);
    // The corners of the range in lattice coordinates bound the indices.
    const corners = [range.minX, range.maxX].flatMap((x) =>
      [range.minY, range.maxY].map((y) => {
        const dx = x - shiftX;
        const dy = y - shiftY;
        return [(dx * v[1] - dy * v[0]) / area, (u[0] * dy - u[1] * dx) / area];
      }),
    );
    const [lowI, lowJ] = [0, 1].map((axis) => Math.floor(Math.min(...corners.map((c) => c[axis]))));
    const [highI, highJ] = [0, 1].map((axis) => Math.ceil(Math.max(...corners.map((c) => c[axis]))));
    for (let i = lowI; i <= highI; i++) {
      for (let j = lowJ; j <= highJ; j++) {
        const x = settled(shiftX + i * u[0] + j * v[0], range.minX, range.maxX);
        const y = settled(shiftY + i * u[1] + j * v[1], range.minY, range.maxY);
        if (x < range.minX || x > range.maxX || y < range.minY || y > range.maxY) continue;
        sites.push({ orientation, x, y, end: x + box.maxX });
      }
    }
  }
  return sites.sort((a, b) => a.end - b.end || a.y - b.y);
}

/** What sums of many sides of a cell are off by at most, mm. */
const ROUNDING = 1e-6;

/** A place brought back to a limit that it misses by rounding alone: a board as long as its copies takes them all. */
function settled(place: number, least: number, most: number): number {
  if (place < least) return place < least - ROUNDING ? place : least;
  return place > most && place <= most + ROUNDING ? most : place;
}
