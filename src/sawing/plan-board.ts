import { regionBounds } from '../geometry/ring.ts';
import type { Point } from '../geometry/shapes.ts';
import type { Blade, BoardPlan, Cut, DrilledHole, SawnPart } from '../model/cut-plan.ts';
import type { LaidBoard, Section } from '../model/layout.ts';
import { bladeForCut, type ChosenBlade } from './choose-blades.ts';
import { type InnerParts, innerParts } from './inner-parts.ts';
import { orderStops } from './order-stops.ts';
import { type PartCuts, partCuts, pathFrom, type UnorderedCut } from './part-cuts.ts';
import { type Stage, type StageSettings, stagesOf } from './stages.ts';
import { travelOf, type Visit } from './stops.ts';

/** What a board is planned with. */
export interface BoardSettings extends StageSettings {
  /** Finest first. */
  readonly blades: readonly Blade[];
  readonly hardness: number;
  readonly facts: (layer: string, part: string) => SawnPart | undefined;
}

/** A cut with its place in the order, the gate it is started by, and what is said about it. */
interface OrderedCut {
  readonly cut: UnorderedCut;
  readonly gate: number;
  readonly entry: Cut['entry'];
  readonly reason: string;
  readonly partFree: boolean;
}

/** The plan of one board, and the blades chosen with the reasons. */
export interface PlannedBoard {
  readonly plan: BoardPlan;
  readonly chosen: readonly ChosenBlade[];
}

/** Plans every cut of one board: section after section, stage after stage, each stage in a short order. */
export function planBoard(board: LaidBoard, settings: BoardSettings): PlannedBoard {
  const sections = sectionsOf(board);
  const stack = board.pieces?.length ?? 1;
  const thickness = board.thickness * stack;
  const inner = innerParts(board.placements);
  const parts = board.placements.map((placed, index) => {
    const inside = placed.region.openings.map((_, opening) =>
      inner.inside(index, opening).map((each) => board.placements[each].region.outline),
    );
    return partCuts(placed, index, board.usable.outline, inside, settings.facts(placed.layer, placed.part));
  });
  const chosen = new Map<UnorderedCut, ChosenBlade>();
  for (const cut of parts.flatMap((part) => [...part.openings, ...part.veins, ...part.outline]))
    chosen.set(cut, bladeForCut(settings.blades, thickness, settings.hardness, cut.demand));
  const bladeOf = (cut: UnorderedCut) => (chosen.get(cut) as ChosenBlade).blade;
  const start: Point = [sections[0].from, regionBounds(board.usable).maxY];
  const ordered: OrderedCut[] = [];
  const listed: OrderedCut[] = [];
  for (const section of sections) {
    const here = inner.outer
      .map((index) => parts[index])
      .filter((part) => sectionAt(sections, board, part) === section);
    const stages = stagesOf(here, section, bladeOf, regionBounds(board.usable), settings);
    const corner: Point = [section.from, start[1]];
    orderStages(stages, corner, { inner, parts, order: orderStops, ordered });
    orderStages(stages, corner, { inner, parts, order: asListed, ordered: listed });
  }
  return {
    plan: {
      ...{ board: board.id, species: board.species, thickness, stack, sections },
      copies: board.copies / stack,
      ...numbered(ordered, board, parts, bladeOf),
      sharedEdges: parts.reduce((sum, { shared }) => sum + shared, 0),
      travel: travelThrough(ordered, start),
      travelAsListed: travelThrough(listed, start),
      sharpTurns: parts.reduce((sum, { facts }) => sum + (facts?.sharpTurns ?? 0), 0),
    },
    chosen: [...chosen.values()],
  };
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

/** What stages are ordered with, and where the ordered cuts go. */
interface Ordering {
  readonly inner: InnerParts;
  readonly parts: readonly PartCuts[];
  readonly order: (stops: readonly UnorderedCut[], start: Point) => Visit[];
  readonly ordered: OrderedCut[];
}

/** Orders the stages one after the other, each from where the last one ended. */
function orderStages(stages: readonly Stage[], start: Point, ordering: Ordering): void {
  const { inner, order, ordered } = ordering;
  let at = endOf(ordered, start);
  for (const { cuts, reason, partFree } of stages) {
    for (const visit of order(cuts, at)) {
      const cut = cuts[visit.stop];
      const hosted = cut.kind === 'opening' ? inner.inside(cut.placement, cut.piece) : [];
      if (hosted.length > 0) orderInside(hosted, at, ordering);
      const entry = hosted.length > 0 ? 'waste' : cut.entry;
      ordered.push({ cut, gate: visit.gate, entry, reason: reason(cut), partFree });
      at = cut.gates[visit.gate].to;
    }
  }
}

/**
 * Parts laid into an opening are sawn before the opening frees the waste around them. The blade comes to the first
 * through the hole of the opening and goes on through the waste.
 */
function orderInside(hosted: readonly number[], start: Point, ordering: Ordering): void {
  const { parts, ordered } = ordering;
  const why = 'laid into an opening: sawn while the waste around it still holds';
  const stage = (cuts: readonly UnorderedCut[]): Stage => ({ cuts, reason: () => why, partFree: false });
  const each = hosted.map((index) => parts[index]);
  const details = [
    stage(each.flatMap(({ openings }) => openings)),
    stage(each.flatMap(({ veins }) => veins)),
  ];
  orderStages(details, start, ordering);
  const first = ordered.length;
  orderStages([stage(each.flatMap(({ outline }) => outline))], start, ordering);
  ordered[first] = { ...ordered[first], entry: 'hole' };
}

function endOf(ordered: readonly OrderedCut[], otherwise: Point): Point {
  const last = ordered[ordered.length - 1];
  return last === undefined ? otherwise : last.cut.gates[last.gate].to;
}

/** The stops as they are written down, each by its first gate: what an order is compared with. */
function asListed(stops: readonly UnorderedCut[]): Visit[] {
  return stops.map((_, stop) => ({ stop, gate: 0 }));
}

function travelThrough(ordered: readonly OrderedCut[], start: Point): number {
  const visits = ordered.map(({ gate }, stop): Visit => ({ stop, gate }));
  return travelOf(
    ordered.map(({ cut }) => cut),
    visits,
    start,
  );
}

/** The cuts with their numbers, the holes in a short order of drilling, and the length sawn. */
function numbered(
  ordered: readonly OrderedCut[],
  board: LaidBoard,
  parts: readonly PartCuts[],
  bladeOf: (cut: UnorderedCut) => Blade,
): Pick<BoardPlan, 'cuts' | 'holes' | 'cutLength'> {
  const left = parts.map(({ outline }) => outline.length);
  const cuts = ordered.map(({ cut, gate, entry, reason, partFree }, i): Cut => {
    const { layer, part, set } = board.placements[cut.placement];
    if (cut.kind === 'outline') left[cut.placement]--;
    return {
      ...{ number: i + 1, kind: cut.kind, placement: cut.placement, layer, part, set, piece: cut.piece },
      ...{ line: pathFrom(cut, cut.gates[gate]), closed: cut.closed, length: cut.length },
      ...{ blade: bladeOf(cut).name, entry, partFree },
      frees: cut.kind === 'outline' && left[cut.placement] === 0,
      reason,
    };
  });
  return {
    cuts,
    holes: drillingOrder(holesOf(ordered, cuts, bladeOf), board),
    cutLength: cuts.reduce((sum, { length }) => sum + length, 0),
  };
}

/** One hole for every cut that is entered by one: an opening's middle, a vein's start, the waste around inner parts. */
function holesOf(
  ordered: readonly OrderedCut[],
  cuts: readonly Cut[],
  bladeOf: (cut: UnorderedCut) => Blade,
): DrilledHole[] {
  return ordered.flatMap(({ cut, entry }, i): DrilledHole[] => {
    if (entry !== 'hole') return [];
    const host = cut.kind === 'outline' ? nextOpening(ordered, i) : cut;
    return [
      {
        at: host?.holeAt ?? cuts[i].line[0],
        diameter: bladeOf(cut).hole,
        cut: cuts[i].number,
      },
    ];
  });
}

/** The opening whose waste holds the inner parts sawn from cut i on. */
function nextOpening(ordered: readonly OrderedCut[], i: number): UnorderedCut | undefined {
  return ordered.slice(i).find(({ cut, entry }) => cut.kind === 'opening' && entry === 'waste')?.cut;
}

function drillingOrder(holes: readonly DrilledHole[], { usable }: LaidBoard): DrilledHole[] {
  const { minX, maxY } = regionBounds(usable);
  const stops = holes.map(({ at }) => ({ gates: [{ from: at, to: at, reverse: 0 }] }));
  return orderStops(stops, [minX, maxY]).map(({ stop }) => holes[stop]);
}
