import { regionBounds } from '../geometry/ring.ts';
import type { Blade, DrilledHole } from '../model/cut-plan.ts';
import type { LaidBoard } from '../model/layout.ts';
import { sectionDiagonal } from './blades.ts';
import { orderStops } from './order/order-stops.ts';
import type { OrderedCut } from './order/ordered-cut.ts';
import type { UnorderedCut } from './part-cuts.ts';

/** Where a hole is drilled, and the widest that fits there. */
type HoleSpot = Pick<DrilledHole, 'at' | 'room'>;

/** The hole of every cut that is entered by one: in an opening near its line, at a vein's start, the waste around inner parts. */
export function holesOf(ordered: readonly OrderedCut[]): Map<OrderedCut, HoleSpot> {
  const entered = ordered.flatMap((each, i): [OrderedCut, HoleSpot][] => {
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

/** The holes as they are handed on, each for the blade of its cut, in a short order for the drill. */
export function holesToDrill(
  ordered: readonly OrderedCut[],
  holes: ReadonlyMap<OrderedCut, HoleSpot>,
  bladeOf: (cut: UnorderedCut) => Blade,
  board: LaidBoard,
): DrilledHole[] {
  const drilled = ordered.flatMap((each, i): DrilledHole[] => {
    const hole = holes.get(each);
    if (hole === undefined) return [];
    const blade = bladeOf(each.cut);
    return [{ ...hole, diameter: blade.hole, least: sectionDiagonal(blade), cut: i + 1 }];
  });
  return drillingOrder(drilled, board);
}

/** Holes in a short order for the drill, from the lower left corner: they are drilled before anything is sawn. */
function drillingOrder(holes: readonly DrilledHole[], { usable }: LaidBoard): DrilledHole[] {
  const { minX, maxY } = regionBounds(usable);
  const stops = holes.map(({ at }) => ({ gates: [{ from: at, to: at, reverse: 0 }] }));
  return orderStops(stops, [minX, maxY]).map(({ stop }) => holes[stop]);
}
