import { applyToPoint, placementMap } from '../geometry/affine.ts';
import { insidePoint } from '../geometry/inside-point.ts';
import {
  distanceToEdges,
  distanceToLine,
  lineLength,
  regionBounds,
  ringPerimeter,
} from '../geometry/ring.ts';
import type { Line, Point, Region, Ring } from '../geometry/shapes.ts';
import type { CutEntry, CutKind, SawnPart } from '../model/cut-plan.ts';
import type { Placement } from '../model/layout.ts';
import type { BladeDemand } from './choose-blades.ts';
import { holePlace } from './hole-place.ts';
import type { Gate, Stop } from './order/stops.ts';
import type { OutlinePieces } from './outline-pieces.ts';
import type { StandsAt } from './standing-wood.ts';
import { leaveTab, leaveTabInLine } from './tab.ts';

/** Directions in which an outline is looked at for places to start: its corners that the blade reaches through waste. */
const START_DIRECTIONS = 6;
/** An end of a vein this near to another cut starts from it, mm. */
const TOUCHING = 0.3;
/**
 * From the middle of a hole to the edge of its part, in diameters: half of one stands between them, so that the drill does not
 * break out (common practice, no source).
 */
const WALL_OF_HOLE = 1;

/** Ends of a vein whose distances to the edge differ by less are as good as each other, mm. */
const ALIKE_ROOM = 0.1;

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
  /** Widest hole that fits there, mm; undefined when the hole is not in the waste of an opening. */
  readonly room?: number;
  /** How the blade gets in when nothing has been laid inside. */
  readonly entry: CutEntry;
  /** Veins that branch off this line: the blade turns into them as it comes by. None when left out. */
  readonly passing?: readonly UnorderedCut[];
}

/** How a small part hangs in its board. */
export type Hanging = 'firmly' | 'by nothing' | 'without a tab';

/** All cuts of one placed part. Lengths in mm. */
export interface PartCuts {
  readonly placement: number;
  readonly openings: readonly UnorderedCut[];
  /** Those that are cuts of their own; the others are sawn in passing with an opening or the outline. */
  readonly veins: readonly UnorderedCut[];
  readonly outline: readonly UnorderedCut[];
  /** What is left of the outline until the last to hold a small part. */
  readonly tabs: readonly UnorderedCut[];
  /** What becomes of the tab that is asked for: it holds, it has no wood beside it that stays, or is too long for the part. */
  readonly hangs: Hanging | undefined;
  /** Outline on the edge of the board or of its section, not sawn. */
  readonly shared: number;
  readonly width: number;
  readonly height: number;
  /** As {@link PartToSaw.longest}. */
  readonly longest: number;
  readonly facts: SawnPart | undefined;
}

/** What is known of a part besides where it lies. */
export interface PartToSaw {
  /** What was found out about its shape, where it was looked at. */
  readonly facts: SawnPart | undefined;
  /** What of its outline is sawn. */
  readonly sawn: OutlinePieces;
  /** Length of the tab that is left of the outline, mm; none when undefined. */
  readonly tab: number | undefined;
  /** Where wood stays beside its line. */
  readonly standsAt: StandsAt;
  /** Longer side of the narrowest box around it, turned any way. */
  readonly longest: number;
  /** Diameter of the hole for the blade that such a cut is sawn with, mm. */
  readonly holeFor: (demand: BladeDemand) => number;
}

/**
 * The cuts of a placed part, with the ways each can be started.
 *
 * @param placement number of the part among the placements of the board, from 0
 * @param inside outlines of the parts laid into each opening
 */
export function partCuts(
  placed: Placement,
  placement: number,
  inside: readonly (readonly Ring[])[],
  { facts, sawn, tab, standsAt, longest, holeFor }: PartToSaw,
): PartCuts {
  const { region, veins, x, y, rotation, turnedOver } = placed;
  const toBoard = placementMap([x, y], rotation, turnedOver);
  const neck = facts?.neckAt === undefined ? undefined : applyToPoint(toBoard, facts.neckAt);
  const { minX, minY, maxX, maxY } = regionBounds(region);
  // A list that has been JSON holds null for none.
  const bends = (facts?.tightestBends ?? []).map((bend) => bend ?? undefined);
  const openings = region.openings.map((ring, piece): UnorderedCut => {
    const widest = insidePoint({ outline: ring, openings: inside[piece] });
    const demand = { bend: bends[piece + 1], hole: 2 * widest.radius };
    // Parts in the opening are reached through its hole too: in the middle of the waste it is near to all.
    const near = inside[piece].length === 0 ? holeFor(demand) : Number.POSITIVE_INFINITY;
    const { at, radius, start } = holePlace(ring, widest, near);
    return {
      ...{ kind: 'opening', placement, piece, line: ring, closed: true, length: ringPerimeter(ring) },
      ...{ gates: [closedGate(start)], holeAt: at, room: 2 * radius, entry: 'hole', demand },
    };
  });
  const { outline, tabs, hangs, shared } = outlineCuts(placed, placement, sawn, {
    neck,
    tab,
    standsAt,
    bend: bends[0],
  });
  const cuts = veins.map((line, piece) => veinCut(line, { placement, piece }, region, holeFor));
  const started = branchingOff(cuts, [openings, outline, tabs]);
  const [withVeins, outlineWithVeins, tabsWithVeins] = started.hosts;
  return {
    placement,
    openings: withVeins,
    veins: started.apart,
    outline: outlineWithVeins,
    tabs: tabsWithVeins,
    hangs,
    shared,
    width: maxX - minX,
    height: maxY - minY,
    longest,
    facts,
  };
}

/** What is known of an outline before it is cut. */
interface OutlineFacts {
  readonly neck: Point | undefined;
  readonly tab: number | undefined;
  readonly standsAt: StandsAt;
  readonly bend: number | undefined;
}

/** The cuts of the outline: in pieces between stretches of the board's edge, or whole, with or without a tab. */
function outlineCuts(
  { region: { outline } }: Placement,
  placement: number,
  { pieces, shared }: OutlinePieces,
  { neck, tab, standsAt, bend }: OutlineFacts,
): Pick<PartCuts, 'outline' | 'tabs' | 'hangs' | 'shared'> {
  const common = { placement, holeAt: undefined, demand: { bend, hole: undefined } };
  const tabbed = tab === undefined || !pieces[0]?.closed ? undefined : leaveTab(outline, tab, standsAt);
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
      hangs: tabbed.holds ? 'firmly' : 'by nothing',
      shared,
    };
  }
  const lines = pieces.map(({ line, closed, length }, piece): UnorderedCut => {
    const gates = closed ? startingPlaces(line, neck).map(closedGate) : bothWays(line);
    return { ...{ ...common, kind: 'outline', piece, line, closed, length, entry: 'waste' }, gates };
  });
  return { ...hungOnEdge(lines, tab, standsAt), shared };
}

/** The pieces of an outline on the edge of the board, with a tab in the longest of them: the edge holds nothing. */
function hungOnEdge(
  pieces: readonly UnorderedCut[],
  tab: number | undefined,
  standsAt: StandsAt,
): Pick<PartCuts, 'outline' | 'tabs' | 'hangs'> {
  const longest = pieces.reduce((most, piece) => (piece.length > most.length ? piece : most), pieces[0]);
  const tabbed =
    tab === undefined || longest === undefined || longest.closed
      ? undefined
      : leaveTabInLine(longest.line, tab, standsAt);
  if (tabbed === undefined)
    return { outline: pieces, tabs: [], hangs: tab === undefined ? undefined : 'without a tab' };
  const own = (line: Line): UnorderedCut => ({
    ...longest,
    line,
    length: lineLength(line),
    gates: bothWays(line),
  });
  const halves = tabbed.sawn.map((line) => {
    const half = own(line);
    return { ...half, gates: [backedOut(half.gates[0], 0)] };
  });
  // The halves are pieces of their own: two cuts of one number would look like one that is listed twice.
  const numbered = pieces
    .flatMap((piece) => (piece === longest ? halves : [piece]))
    .map((cut, piece) => ({ ...cut, piece }));
  return {
    outline: numbered,
    tabs: [{ ...own(tabbed.tab), kind: 'tab', entry: 'earlier cut' }],
    hangs: tabbed.holds ? 'firmly' : 'by nothing',
  };
}

/** The path of a cut that is started at one of its points: an end when it is open. */
export function pathFrom({ line, closed }: UnorderedCut, start: Point): Line {
  if (!closed) return start === line[0] ? line : [...line].reverse();
  const first = line.indexOf(start);
  return [...line.slice(first), ...line.slice(0, first)];
}

/** The gate of a closed cut: it ends where it begins, and is its own reverse. */
function closedGate(at: Point, index = 0): Gate {
  return { from: at, to: at, reverse: index };
}

/** An open cut may be sawn from either end. */
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

/** A vein that no cut leads to: through a hole, or from the edge of the board where the part lies on it. */
function veinCut(
  line: Line,
  { placement, piece }: Pick<UnorderedCut, 'placement' | 'piece'>,
  region: Region,
  holeFor: PartToSaw['holeFor'],
): UnorderedCut {
  const demand: BladeDemand = { bend: undefined, hole: undefined };
  const vein: Omit<UnorderedCut, 'gates' | 'entry'> = {
    ...{ kind: 'vein', placement, piece, line, closed: false, length: lineLength(line) },
    ...{ holeAt: undefined, demand },
  };
  const gates = bothWays(line);
  const atEdge = gates.filter(({ from }) => distanceToLine(from, region.outline, true) <= TOUCHING);
  // A vein that can only be started at one end is backed out of.
  if (atEdge.length > 0)
    return { ...vein, gates: atEdge.length === 1 ? atEdge.map(backedOut) : gates, entry: 'waste' };
  // Where neither end has wood enough, the one with more.
  const rooms = gates.map(({ from }) => distanceToEdges(from, region));
  const enough = Math.min(WALL_OF_HOLE * holeFor(demand), Math.max(...rooms) - ALIKE_ROOM);
  const inWood = gates.filter((_, i) => rooms[i] >= enough);
  return { ...vein, gates: inWood.length === 1 ? inWood.map(backedOut) : gates, entry: 'hole' };
}

/**
 * Gives the veins that meet the line of another cut to that cut: sawn in passing they need no hole, no threading
 * and no way through the waste. Earlier lots of hosts come first: an opening is sawn while the part is held best.
 */
function branchingOff(
  veins: readonly UnorderedCut[],
  lots: readonly (readonly UnorderedCut[])[],
): { hosts: UnorderedCut[][]; apart: UnorderedCut[] } {
  const passing = new Map<UnorderedCut, UnorderedCut[]>();
  const apart = veins.filter((vein) => {
    for (const host of lots.flat()) {
      const gate = bothWays(vein.line).find(
        ({ from }) => distanceToLine(from, host.line, host.closed) <= TOUCHING,
      );
      if (gate === undefined) continue;
      const branch: UnorderedCut = { ...vein, gates: [backedOut(gate, 0)], entry: 'in passing' };
      passing.set(host, [...(passing.get(host) ?? []), branch]);
      return false;
    }
    return true;
  });
  const hosts = lots.map((lot) => lot.map((host) => ({ ...host, passing: passing.get(host) ?? [] })));
  return { hosts, apart };
}

/** A gate where the blade leaves by where it came in: the other end of the cut is a dead end. */
function backedOut({ from }: Gate, index: number): Gate {
  return { from, to: from, reverse: index };
}
