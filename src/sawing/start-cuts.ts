import { regionBounds } from '../geometry/ring.ts';
import { type Box, boxRing, type Line, type Point, type Region } from '../geometry/shapes.ts';
import type { LaidBoard, Section } from '../model/layout.ts';
import type { OrderedCut } from './order/ordered-cut.ts';
import { pathFrom, type UnorderedCut } from './part-cuts.ts';
import { type Waste, type Way, wasteAround } from './waste.ts';

/** Most places of an outline looked at for a way in when those at its corners are barred: a curve has hundreds of points. */
const MOST_PLACES = 60;

/** How a cut is made: the path of the blade, and the way through waste that leads to it. */
export interface StartedCut {
  readonly path: Line;
  /** From where the blade gets in to the start of the path; empty when it stands there already. */
  readonly leadIn: Line;
  /** False when no straight way was free: the lead-in then winds between parts, and is longer than shown. */
  readonly clear: boolean;
}

/**
 * Finds for every cut of a board, in order, how the blade gets to it: from its hole, or through the waste from the
 * nearest edge of the board or earlier cut. A closed cut is started where that way is shortest: a lead-in is sawn
 * through thick wood, while moving the board to another corner costs a moment.
 */
export function startCuts(
  ordered: readonly OrderedCut[],
  holes: ReadonlyMap<OrderedCut, { readonly at: Point }>,
  { placements, usable, offcuts = [] }: LaidBoard,
  sections: readonly Pick<Section, 'from' | 'to'>[],
): StartedCut[] {
  const { minY, maxY } = regionBounds(usable);
  // What is kept is no waste: a way through it would saw a keeper up. And none leads from one section into another.
  const waste = wasteAround([
    ...[...placements, ...offcuts].map(({ region }) => region),
    ...cutsBetween(sections, { minY, maxY }),
  ]);
  waste.openLine(usable.outline, true);
  for (const x of sections.flatMap(({ from, to }) => [from, to]))
    waste.openLine([
      [x, minY],
      [x, maxY],
    ]);
  // In order: what is sawn first opens ways to what comes after it.
  return ordered.map((each) => {
    const { cut } = each;
    const hole = holes.get(each);
    const started =
      hole === undefined ? fromWaste(each, waste) : start(cut, each.gate, waste.withHole(hole.at));
    // Openings and veins lie inside their part: no way through waste begins there.
    if (cut.kind === 'outline' || cut.kind === 'tab') {
      waste.openLine(started.path, cut.closed);
      if (started.clear && started.leadIn.length > 0) waste.openLine(started.leadIn);
    }
    return started;
  });
}

/** What a cut between sections is wider at either side than its kerf, mm: of one without any, no way would lie on it. */
const BESIDE_CUT = 1e-3;

/** The wood that the cuts between sections take, from edge to edge of the board. */
function cutsBetween(
  sections: readonly Pick<Section, 'from' | 'to'>[],
  { minY, maxY }: Pick<Box, 'minY' | 'maxY'>,
): Region[] {
  return sections.slice(1).map(({ from }, i) => {
    const cut = { minX: sections[i].to - BESIDE_CUT, minY, maxX: from + BESIDE_CUT, maxY };
    return { outline: boxRing(cut), openings: [] };
  });
}

/** A cut that starts on the line of another needs no lead-in: the blade is in that cut. */
function fromWaste({ cut, gate, entry }: OrderedCut, waste: Waste): StartedCut {
  if (entry === 'earlier cut' || entry === 'in passing')
    return { path: pathFrom(cut, cut.gates[gate].from), leadIn: [], clear: true };
  // The only gate of an opening is at its hole; the parts in it, sawn before, have opened its waste all around them.
  const anywhere = cut.kind === 'opening' ? waste.wayToAny(places(cut.line)) : undefined;
  return anywhere === undefined ? start(cut, gate, waste) : led(cut, anywhere, true);
}

/** Starts a cut by the shortest clear way: at its gates, else anywhere on it, else straight through what bars it. */
function start(cut: UnorderedCut, gate: number, waste: Waste): StartedCut {
  // A vein stays with its gate: its other end may touch nothing.
  const gates = cut.kind === 'vein' ? [cut.gates[gate].from] : cut.gates.map(({ from }) => from);
  const way = waste.wayToAny(gates) ?? (cut.closed ? waste.wayToAny(places(cut.line)) : undefined);
  if (way !== undefined) return led(cut, way, true);
  const barred = waste.nearestTo(gates[0]) ?? { from: gates[0], to: gates[0], length: 0 };
  return led(cut, barred, false);
}

function led(cut: UnorderedCut, { from, to, length }: Way, clear: boolean): StartedCut {
  return { path: pathFrom(cut, to), leadIn: length < 1e-9 ? [] : [from, to], clear };
}

function places(line: Line): readonly Point[] {
  const step = Math.ceil(line.length / MOST_PLACES);
  return line.filter((_, i) => i % step === 0);
}
