import { lineLength, regionBounds } from '../geometry/ring.ts';
import { boundsOf, type Point } from '../geometry/shapes.ts';
import type { Blade, BoardPlan, Cut } from '../model/cut-plan.ts';
import type { LaidBoard, Section } from '../model/layout.ts';
import { isHardToHold } from '../model/small-parts.ts';
import { stackOf, timesSawn } from '../model/stack-of.ts';
import { type BladeDemand, bladeForCut, type ChosenBlade } from './choose-blades.ts';
import { cutsOfBoard, type PartSettings } from './cuts-of-board.ts';
import { holesOf, holesToDrill } from './drilled-holes.ts';
import { type Ordering, orderStages } from './order/order-stages.ts';
import { orderStops } from './order/order-stops.ts';
import type { OrderedCut } from './order/ordered-cut.ts';
import { type Stage, type StageSettings, stagesOf } from './order/stages.ts';
import type { Visit } from './order/stops.ts';
import type { Hanging, PartCuts, UnorderedCut } from './part-cuts.ts';
import { sawnThickness } from './sawn-thickness.ts';
import { type StartedCut, startCuts } from './start-cuts.ts';

/** What a board is planned with. */
export interface BoardSettings extends StageSettings, PartSettings {
  /** Finest first. */
  readonly blades: readonly Blade[];
  readonly hardness: number;
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
  const thickness = sawnThickness(board);
  const bladeFor = (demand: BladeDemand) =>
    bladeForCut(settings.blades, thickness, settings.hardness, demand);
  const { parts, inner } = cutsOfBoard(board, sections, (demand) => bladeFor(demand).blade.hole, settings);
  const chosen = bladesOf(parts, bladeFor);
  const bladeOf = (cut: UnorderedCut) => (chosen.get(cut) as ChosenBlade).blade;
  const outer = inner.outer.map((index) => parts[index]);
  const inSections = stagesBySection(board, sections, outer, bladeOf, settings);
  const isSmall = (part: PartCuts) => isHardToHold(part, settings);
  const orderedBy = (order: Ordering['order']): OrderedCut[] => {
    const ordered: OrderedCut[] = [];
    for (const { stages, corner } of inSections)
      orderStages(stages, corner, { inner, parts, isSmall, order, ordered });
    return ordered;
  };
  // The order of stages is fixed by what holds the wood; how good the order within them is, is told against a plain one.
  const ordered = orderedBy(orderStops);
  const leftToRight = orderedBy(fromLeftToRight);
  const holes = holesOf(ordered);
  const started = startCuts(ordered, holes, board, sections);
  const baseline = startCuts(leftToRight, holesOf(leftToRight), board, sections);
  const cuts = numbered(ordered, started, board, bladeOf);
  const [{ corner: start }] = inSections;
  return {
    plan: {
      ...{ board: board.id, species: board.species, thickness, stack: stackOf(board), sections },
      copies: timesSawn(board),
      holes: holesToDrill(ordered, holes, bladeOf, board),
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

/** The blade of every cut; what is sawn in passing is sawn with the blade of the line it branches off. */
function bladesOf(
  parts: readonly PartCuts[],
  bladeFor: (demand: BladeDemand) => ChosenBlade,
): Map<UnorderedCut, ChosenBlade> {
  const chosen = new Map<UnorderedCut, ChosenBlade>();
  for (const { openings, veins, outline, tabs } of parts) {
    for (const cut of [openings, veins, outline, tabs].flat()) {
      const blade = bladeFor(cut.demand);
      for (const each of [cut, ...(cut.passing ?? [])]) chosen.set(each, blade);
    }
  }
  return chosen;
}

/** The stages of a section, and its lower left corner, from where they are begun. */
interface StagesOfSection {
  readonly stages: readonly Stage[];
  readonly corner: Point;
}

/** @param outer the parts that lie on the board itself: those in openings are sawn with their hosts */
function stagesBySection(
  board: LaidBoard,
  sections: readonly Section[],
  outer: readonly PartCuts[],
  bladeOf: (cut: UnorderedCut) => Blade,
  settings: BoardSettings,
): StagesOfSection[] {
  const whole = regionBounds(board.usable);
  return sections.map((section) => {
    const here = outer.filter((part) => sectionAt(sections, board, part) === section);
    const wood = { ...whole, minX: section.from, maxX: section.to };
    return { stages: stagesOf(here, wood, bladeOf, settings), corner: [section.from, whole.maxY] };
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
