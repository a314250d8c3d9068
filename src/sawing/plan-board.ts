import { lineLength, regionBounds } from '../geometry/ring.ts';
import { boundsOf, type Point } from '../geometry/shapes.ts';
import { snugSize } from '../geometry/snug-size.ts';
import type { Blade, BoardPlan, Cut, DrilledHole, SawnPart } from '../model/cut-plan.ts';
import type { LaidBoard, Placement, Section } from '../model/layout.ts';
import { isHardToHold } from '../model/small-parts.ts';
import { stackOf, timesSawn } from '../model/stack-of.ts';
import { sectionDiagonal } from './blades.ts';
import { type BladeDemand, bladeForCut, type ChosenBlade } from './choose-blades.ts';
import { type InnerParts, innerParts } from './inner-parts.ts';
import { orderStages } from './order/order-stages.ts';
import { orderStops } from './order/order-stops.ts';
import type { OrderedCut } from './order/ordered-cut.ts';
import { type StageSettings, stagesOf } from './order/stages.ts';
import type { Visit } from './order/stops.ts';
import { bayRings, boardEdges, type OutlinePieces, outlinePieces } from './outline-pieces.ts';
import { type Hanging, type PartCuts, partCuts, type UnorderedCut } from './part-cuts.ts';
import { sawnThickness } from './sawn-thickness.ts';
import { type StandsAt, standingWood } from './standing-wood.ts';
import { type StartedCut, startCuts } from './start-cuts.ts';

/** What a board is planned with. */
export interface BoardSettings extends StageSettings {
  /** Finest first. */
  readonly blades: readonly Blade[];
  readonly hardness: number;
  readonly facts: (layer: string, part: string) => SawnPart | undefined;
  /** Length of the tabs that hold small parts, mm; undefined when they are sawn last, without. */
  readonly tab: number | undefined;
  readonly kerf: number;
}

/** The plan of one board, and the blades chosen with the reasons. */
export interface PlannedBoard {
  readonly plan: BoardPlan;
  readonly chosen: readonly ChosenBlade[];
  /** How its small parts hang, where tabs are asked for. */
  readonly hanging: readonly Hanging[];
}

/** Plans every cut of one board: section after section, stage after stage, each stage in a short order. */
export function planBoard(board: LaidBoard, settings: BoardSettings): PlannedBoard {
  const sections = sectionsOf(board);
  const stack = stackOf(board);
  const thickness = sawnThickness(board);
  const edges = boardEdges(board);
  const sawn = board.placements.map(({ region }) => outlinePieces(region.outline, edges));
  const bays = sawn.map((pieces) => bayRings(pieces, edges));
  const inner = innerParts(board.placements, bays);
  const bladeFor = (demand: BladeDemand) =>
    bladeForCut(settings.blades, thickness, settings.hardness, demand);
  const holeFor = (demand: BladeDemand) => bladeFor(demand).blade.hole;
  const outlines = inner.outer.map((index) => board.placements[index].region.outline);
  const standsAt =
    settings.tab === undefined ? () => true : standingWood(board, sections, outlines, settings);
  const parts = cutsOfParts(board.placements, { sawn, inner, standsAt, holeFor }, settings);
  const chosen = new Map<UnorderedCut, ChosenBlade>();
  for (const cut of parts.flatMap(({ openings, veins, outline, tabs }) =>
    [openings, veins, outline, tabs].flat(),
  )) {
    const blade = bladeFor(cut.demand);
    for (const each of [cut, ...(cut.passing ?? [])]) chosen.set(each, blade);
  }
  const bladeOf = (cut: UnorderedCut) => (chosen.get(cut) as ChosenBlade).blade;
  const whole = regionBounds(board.usable);
  const start: Point = [sections[0].from, whole.maxY];
  const isSmall = (part: PartCuts) => isHardToHold(part, settings);
  const ordered: OrderedCut[] = [];
  const leftToRight: OrderedCut[] = [];
  for (const section of sections) {
    const here = inner.outer
      .map((index) => parts[index])
      .filter((part) => sectionAt(sections, board, part) === section);
    const stages = stagesOf(here, { ...whole, minX: section.from, maxX: section.to }, bladeOf, settings);
    const corner: Point = [section.from, start[1]];
    orderStages(stages, corner, { inner, parts, isSmall, order: orderStops, ordered });
    orderStages(stages, corner, { inner, parts, isSmall, order: fromLeftToRight, ordered: leftToRight });
  }
  // The order of stages is fixed by what holds the wood; how good the order within them is, is told against a plain one.
  const holes = holesOf(ordered);
  const started = startCuts(ordered, holes, board, sections);
  const baseline = startCuts(leftToRight, holesOf(leftToRight), board, sections);
  const cuts = numbered(ordered, started, board, bladeOf);
  return {
    plan: {
      ...{ board: board.id, species: board.species, thickness, stack, sections },
      copies: timesSawn(board),
      holes: drillingOrder(
        ordered.flatMap((each, i): DrilledHole[] => {
          const hole = holes.get(each);
          if (hole === undefined) return [];
          const blade = bladeOf(each.cut);
          return [{ ...hole, diameter: blade.hole, least: sectionDiagonal(blade), cut: i + 1 }];
        }),
        board,
      ),
      cuts,
      cutLength: cuts.reduce((sum, { length }) => sum + length, 0),
      leadInLength: cuts.reduce((sum, { leadIn }) => sum + lineLength(leadIn), 0),
      sharedEdges: parts.reduce((sum, { shared }) => sum + shared, 0),
      travel: travelThrough(ordered, started, start),
      travelLeftToRight: travelThrough(leftToRight, baseline, start),
      sharpTurns:
        parts.reduce((sum, { facts }) => sum + (facts?.sharpTurns ?? 0), 0) +
        2 * cuts.filter(({ entry }) => entry === 'in passing').length,
    },
    chosen: [...chosen.values()],
    hanging: parts.flatMap(({ hangs }) => hangs ?? []),
  };
}

/** What is known of a board before its cuts are planned. */
interface KnownOfBoard {
  readonly sawn: readonly OutlinePieces[];
  readonly inner: InnerParts;
  readonly standsAt: StandsAt;
  readonly holeFor: (demand: BladeDemand) => number;
}

/** The cuts of each part; a part that is hard to hold and lies on the board itself gets the tab that is asked for. */
function cutsOfParts(
  placements: readonly Placement[],
  { sawn, inner, standsAt, holeFor }: KnownOfBoard,
  settings: BoardSettings,
): PartCuts[] {
  return placements.map((placed, index) => {
    const inside = placed.region.openings.map((_, opening) =>
      inner.inside(index, opening).map((each) => placements[each].region.outline),
    );
    const longest = snugSize(placed.region.outline).length;
    const small = isHardToHold({ longest }, settings);
    const tab = small && inner.outer.includes(index) ? settings.tab : undefined;
    const facts = settings.facts(placed.layer, placed.part);
    return partCuts(placed, index, inside, { facts, sawn: sawn[index], tab, standsAt, longest, holeFor });
  });
}

/** The sections the board is cross-cut to; the whole board when it is not. */
function sectionsOf({ sections, usable }: LaidBoard): readonly Section[] {
  const { minX, maxX } = regionBounds(usable);
  return sections === undefined || sections.length === 0 ? [{ number: 1, from: minX, to: maxX }] : sections;
}

/** The section a part lies in: the first that reaches beyond its middle. */
function sectionAt(
  sections: readonly Section[],
  { placements }: LaidBoard,
  { placement }: PartCuts,
): Section {
  const { minX, maxX } = regionBounds(placements[placement].region);
  const middle = (minX + maxX) / 2;
  return sections.find(({ to }) => to >= middle) ?? sections[sections.length - 1];
}

/**
 * From left to right along the board, each cut entered by the way nearest to where the last one ended: how a person
 * would go about it without a plan, and what an order is compared with.
 */
function fromLeftToRight(stops: readonly UnorderedCut[], start: Point): Visit[] {
  const left = stops.map(({ line }) => boundsOf(line).minX);
  let [x, y] = start;
  return [...stops.keys()]
    .sort((a, b) => left[a] - left[b])
    .map((stop) => {
      const { gates } = stops[stop];
      const distances = gates.map(({ from }) => Math.hypot(from[0] - x, from[1] - y));
      const gate = distances.indexOf(Math.min(...distances));
      [x, y] = gates[gate].to;
      return { stop, gate };
    });
}

/** How far the board is moved from the end of each cut to where the blade gets in for the next, mm. */
function travelThrough(ordered: readonly OrderedCut[], started: readonly StartedCut[], start: Point): number {
  let [x, y] = start;
  return ordered.reduce((travel, { cut, gate, entry }, i) => {
    // The blade comes by on the line it branches off and goes on from there.
    if (entry === 'in passing') return travel;
    const { path, leadIn } = started[i];
    const entered = leadIn[0] ?? path[0];
    const moved = Math.hypot(entered[0] - x, entered[1] - y);
    const backedOut = cut.closed || cut.gates[gate].to === cut.gates[gate].from;
    [x, y] = backedOut ? path[0] : path[path.length - 1];
    return travel + moved;
  }, 0);
}

/** The cuts as they are handed on, with their numbers. A part comes free with the last of the cuts around it. */
function numbered(
  ordered: readonly OrderedCut[],
  started: readonly StartedCut[],
  { placements }: LaidBoard,
  bladeOf: (cut: UnorderedCut) => Blade,
): Cut[] {
  const lastAround = new Map<number, number>();
  ordered.forEach(({ cut: { kind, placement } }, i) => {
    if (kind === 'outline' || kind === 'tab') lastAround.set(placement, i);
  });
  return ordered.map(({ cut, entry, reason, partFree }, i): Cut => {
    const { layer, part, set } = placements[cut.placement];
    return {
      ...{ number: i + 1, kind: cut.kind, placement: cut.placement, layer, part, set, piece: cut.piece },
      ...{ line: started[i].path, closed: cut.closed, length: cut.length },
      ...{ leadIn: started[i].leadIn, leadInClear: started[i].clear },
      ...{ blade: bladeOf(cut).name, entry, partFree },
      frees: lastAround.get(cut.placement) === i,
      reason,
    };
  });
}

/** The hole of every cut that is entered by one: in an opening near its line, at a vein's start, the waste around inner parts. */
function holesOf(ordered: readonly OrderedCut[]): Map<OrderedCut, Pick<DrilledHole, 'at' | 'room'>> {
  const entered = ordered.flatMap((each, i): [OrderedCut, Pick<DrilledHole, 'at' | 'room'>][] => {
    if (each.entry !== 'hole') return [];
    const host = each.cut.kind === 'outline' ? nextOpening(ordered, i) : each.cut;
    const room = host?.room;
    const at = host?.holeAt ?? each.cut.gates[each.gate].from;
    return [[each, room === undefined ? { at } : { at, room }]];
  });
  return new Map(entered);
}

/** The opening whose waste holds the inner parts sawn from cut i on. */
function nextOpening(ordered: readonly OrderedCut[], i: number): UnorderedCut | undefined {
  return ordered.slice(i).find(({ cut, entry }) => cut.kind === 'opening' && entry === 'waste')?.cut;
}

/** Holes in a short order for the drill, from the lower left corner: they are drilled before anything is sawn. */
function drillingOrder(holes: readonly DrilledHole[], { usable }: LaidBoard): DrilledHole[] {
  const { minX, maxY } = regionBounds(usable);
  const stops = holes.map(({ at }) => ({ gates: [{ from: at, to: at, reverse: 0 }] }));
  return orderStops(stops, [minX, maxY]).map(({ stop }) => holes[stop]);
}
