import { insidePoint } from '../geometry/inside-point.ts';
import { distanceToSegment, lineLength, regionBounds, ringPerimeter } from '../geometry/ring.ts';
import type { Line, Point, Ring } from '../geometry/shapes.ts';
import type { CutKind, SawnPart } from '../model/cut-plan.ts';
import type { Placement } from '../model/layout.ts';
import type { BladeDemand } from './choose-blades.ts';
import { drawingToBoard } from './drawing-to-board.ts';
import { outlinePieces } from './outline-pieces.ts';
import type { Gate, Stop } from './stops.ts';
import { leaveTab } from './tab.ts';

/** Directions in which an outline is looked at for places to start: its corners that the blade reaches through waste. */
const START_DIRECTIONS = 6;
/** An end of a vein this near to another cut starts from it, mm. */
const TOUCHING = 0.3;

/** A cut before it has its place in the order. */
export interface UnorderedCut extends Stop {
  readonly kind: CutKind;
  readonly placement: number;
  readonly piece: number;
  readonly line: Line;
  readonly closed: boolean;
  readonly length: number;
  readonly demand: BladeDemand;
  /** Middle of the hole drilled for it; undefined when the blade comes in another way or the hole is at the start. */
  readonly holeAt: Point | undefined;
  /** How the blade gets in when nothing has been laid inside. */
  readonly entry: 'hole' | 'earlier cut' | 'waste';
}

/** All cuts of one placed part. Lengths in mm. */
export interface PartCuts {
  readonly placement: number;
  readonly openings: readonly UnorderedCut[];
  readonly veins: readonly UnorderedCut[];
  readonly outline: readonly UnorderedCut[];
  /** What is left of the outline until the last to hold a small part. */
  readonly tabs: readonly UnorderedCut[];
  /** Outline on the edge of the board, not sawn. */
  readonly shared: number;
  readonly width: number;
  readonly height: number;
  readonly facts: SawnPart | undefined;
}

/**
 * The cuts of a placed part, with the ways each can be started.
 *
 * @param inside outlines of the parts laid into each opening
 * @param tab length of the tab that is left of the outline, mm; none when undefined
 */
export function partCuts(
  placed: Placement,
  placement: number,
  boardEdge: Ring,
  inside: readonly (readonly Ring[])[],
  facts: SawnPart | undefined,
  tab?: number,
): PartCuts {
  const { region, veins } = placed;
  const neck = facts?.neckAt === undefined ? undefined : drawingToBoard(facts.neckAt, placed);
  const { minX, minY, maxX, maxY } = regionBounds(region);
  const bends = facts?.tightestBends ?? [];
  return {
    placement,
    openings: region.openings.map((ring, piece) => {
      const { at, radius } = insidePoint({ outline: ring, openings: inside[piece] });
      const start = nearestVertex(ring, at);
      return {
        ...{ kind: 'opening', placement, piece, line: ring, closed: true, length: ringPerimeter(ring) },
        ...{ gates: [closedGate(ring[start])], holeAt: at, entry: 'hole' },
        demand: { bend: bends[piece + 1], hole: 2 * radius },
      };
    }),
    veins: veins.map((line, piece) => ({
      ...{ kind: 'vein', placement, piece, line, closed: false, length: lineLength(line) },
      ...veinStart(line, placed),
      holeAt: undefined,
      demand: { bend: undefined, hole: undefined },
    })),
    ...outlineCuts(placed, placement, boardEdge, { neck, tab, bend: bends[0] }),
    width: maxX - minX,
    height: maxY - minY,
    facts,
  };
}

/** What is known of an outline before it is cut. */
interface OutlineFacts {
  readonly neck: Point | undefined;
  readonly tab: number | undefined;
  readonly bend: number | undefined;
}

/** The cuts of the outline: in pieces between stretches of the board's edge, or whole, with or without a tab. */
function outlineCuts(
  { region: { outline } }: Placement,
  placement: number,
  boardEdge: Ring,
  { neck, tab, bend }: OutlineFacts,
): Pick<PartCuts, 'outline' | 'tabs' | 'shared'> {
  const { pieces, shared } = outlinePieces(outline, boardEdge);
  const common = { placement, holeAt: undefined, demand: { bend, hole: undefined } };
  // A part on the edge of the board is held there until its last piece is sawn, and needs no tab.
  const tabbed = tab === undefined || !pieces[0]?.closed ? undefined : leaveTab(outline, tab);
  if (tabbed !== undefined) {
    const [sawn, held] = [tabbed.sawn, tabbed.tab];
    const piece = { ...common, piece: 0, closed: false };
    return {
      outline: [
        {
          ...{ ...piece, kind: 'outline', line: sawn, length: lineLength(sawn), entry: 'waste' },
          gates: bothWays(sawn).map(backedOut),
        },
      ],
      tabs: [
        {
          ...{ ...piece, kind: 'tab', line: held, length: lineLength(held), entry: 'earlier cut' },
          gates: bothWays(held),
        },
      ],
      shared,
    };
  }
  return {
    outline: pieces.map(({ line, closed, length }, piece) => ({
      ...{ ...common, kind: 'outline', piece, line, closed, length, entry: 'waste' },
      gates: closed ? startingPlaces(line, neck).map(closedGate) : bothWays(line),
    })),
    tabs: [],
    shared,
  };
}

/** The path of a cut that is started at one of its points: an end when it is open. */
export function pathFrom({ line, closed }: UnorderedCut, start: Point): Line {
  if (!closed) return start === line[0] ? line : [...line].reverse();
  const first = line.indexOf(start);
  return [...line.slice(first), ...line.slice(0, first)];
}

function closedGate(at: Point, index = 0): Gate {
  return { from: at, to: at, reverse: index };
}

function bothWays(line: Line): readonly Gate[] {
  const [from, to] = [line[0], line[line.length - 1]];
  return [
    { from, to, reverse: 1 },
    { from: to, to: from, reverse: 0 },
  ];
}

/**
 * Where an outline may be started and closed: its outermost vertices, which the waste leads to, without those near
 * the thinnest neck: the part should be strong where the last of the wood gives way.
 */
function startingPlaces(ring: Line, neck: Point | undefined): readonly Point[] {
  const places = new Set<Point>();
  for (let k = 0; k < START_DIRECTIONS; k++) {
    const angle = (2 * Math.PI * k) / START_DIRECTIONS;
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
    places.add(ring.reduce((far, p) => (p[0] * dx + p[1] * dy > far[0] * dx + far[1] * dy ? p : far)));
  }
  const all = [...places];
  if (neck === undefined) return all;
  const distances = all.map(([x, y]) => Math.hypot(x - neck[0], y - neck[1]));
  const farthest = Math.max(...distances);
  return all.filter((_, i) => distances[i] >= farthest / 2);
}

/** A vein is started from the cut it touches, an opening rather than the outline; one that touches none is drilled. */
function veinStart(
  line: Line,
  { region: { outline, openings } }: Placement,
): { gates: readonly Gate[]; entry: UnorderedCut['entry'] } {
  const [forth, back] = bothWays(line);
  const touching = (rings: readonly Ring[]) =>
    [forth, back].filter(({ from }) => rings.some((ring) => distanceToRing(from, ring) <= TOUCHING));
  const fromOpening = touching(openings);
  if (fromOpening.length > 0) return { gates: startable(fromOpening), entry: 'earlier cut' };
  const fromOutline = touching([outline]);
  if (fromOutline.length > 0) return { gates: startable(fromOutline), entry: 'waste' };
  return { gates: [forth, back], entry: 'hole' };
}

/** Gates by which a vein may be started. One that can only be started at one end is backed out of. */
function startable(gates: readonly Gate[]): readonly Gate[] {
  return gates.length === 2 ? gates : gates.map(backedOut);
}

/** A gate where the blade leaves by where it came in: the other end of the cut is a dead end. */
function backedOut({ from }: Gate, index: number): Gate {
  return { from, to: from, reverse: index };
}

function distanceToRing([x, y]: Point, ring: Ring): number {
  return ring.reduce((least, [ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length];
    return Math.min(least, distanceToSegment(x, y, ax, ay, bx, by));
  }, Number.POSITIVE_INFINITY);
}

function nearestVertex(ring: Ring, [x, y]: Point): number {
  let nearest = 0;
  ring.forEach(([px, py], i) => {
    if (Math.hypot(px - x, py - y) < Math.hypot(ring[nearest][0] - x, ring[nearest][1] - y)) nearest = i;
  });
  return nearest;
}
