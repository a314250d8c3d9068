import type { Point } from '../../geometry/shapes.ts';
import { TOO_SMALL_TO_HOLD } from '../../model/small-parts.ts';
import type { InnerParts } from '../inner-parts.ts';
import type { PartCuts, UnorderedCut } from '../part-cuts.ts';
import type { OrderedCut } from './ordered-cut.ts';
import type { Stage } from './stages.ts';
import type { Visit } from './stops.ts';

/** What stages are ordered with, and where the ordered cuts go. */
export interface Ordering {
  readonly inner: InnerParts;
  readonly parts: readonly PartCuts[];
  /** True for a part that is hard to hold. */
  readonly isSmall: (part: PartCuts) => boolean;
  readonly order: (stops: readonly UnorderedCut[], start: Point) => Visit[];
  readonly ordered: OrderedCut[];
}

/** Orders the stages one after the other, each from where the last one ended. */
export function orderStages(stages: readonly Stage[], start: Point, ordering: Ordering): void {
  orderFrom(stages, endOf(ordering.ordered, start), ordering);
}

/** Orders the stages one after the other, the first from where the blade is. */
function orderFrom(stages: readonly Stage[], start: Point, ordering: Ordering): void {
  const { inner, order, ordered } = ordering;
  let at = start;
  for (const { cuts, reason, partFree } of stages) {
    for (const visit of order(cuts, at)) {
      const cut = cuts[visit.stop];
      const hosted = cut.kind === 'opening' ? inner.inside(cut.placement, cut.piece) : [];
      if (hosted.length > 0) orderInside(hosted, { start: at, hole: cut.holeAt }, ordering);
      if (cut.kind === 'outline') orderUnder(cut.placement, at, ordering);
      const entry = hosted.length > 0 ? 'waste' : cut.entry;
      for (const vein of cut.passing ?? [])
        ordered.push({ cut: vein, gate: 0, entry: vein.entry, reason: inPassing(cut, partFree), partFree });
      ordered.push({ cut, gate: visit.gate, entry, reason: reason(cut), partFree });
      at = cut.gates[visit.gate].to;
    }
  }
}

/**
 * Parts laid into an opening are sawn before the opening frees the waste around them. The blade comes to the first
 * through the hole of the opening and goes on through the waste.
 */
function orderInside(hosted: readonly number[], from: ComingFrom, ordering: Ordering): void {
  const { ordered } = ordering;
  const before = orderHosted(
    hosted,
    from,
    'laid into an opening: sawn while the waste around it still holds',
    ordering,
  );
  // Veins sawn in passing stand before the outline they branch off: the blade comes in with the outline.
  const first = ordered.findIndex(({ cut }, i) => i >= before && cut.kind === 'outline');
  ordered[first] = { ...ordered[first], entry: 'hole' };
}

/** Parts that lie between a part and the edge of the board are sawn before its outline parts the wood around them from the board. */
function orderUnder(placement: number, start: Point, ordering: Ordering): void {
  const { inner, ordered } = ordering;
  const waiting = inner
    .under(placement)
    .filter((index) => !ordered.some(({ cut }) => cut.placement === index));
  if (waiting.length > 0)
    orderHosted(
      waiting,
      { start, hole: undefined },
      'laid under another part: sawn while that still holds the wood around it',
      ordering,
    );
}

/** From where the blade comes to parts that lie in others. */
interface ComingFrom {
  /** Where it stands when nothing was sawn before. */
  readonly start: Point;
  /** The hole through which it comes to their outlines; undefined when it comes through the waste of the board. */
  readonly hole: Point | undefined;
}

/** Orders all cuts of parts that lie in others, for a reason; how many cuts there were before their outlines. */
function orderHosted(
  hosted: readonly number[],
  { start, hole }: ComingFrom,
  why: string,
  ordering: Ordering,
): number {
  const { parts, isSmall, ordered } = ordering;
  const stage = (cuts: readonly UnorderedCut[]): Stage => ({ cuts, reason: () => why, partFree: false });
  const each = hosted.map((index) => parts[index]);
  const details = [
    stage(each.flatMap(({ openings }) => openings)),
    stage(each.flatMap(({ veins }) => veins)),
  ];
  orderStages(details, start, ordering);
  const before = ordered.length;
  // One that is small has two reasons, and the one for its fingers must not be lost: cautions count by it.
  const freeing = ({ placement }: UnorderedCut) =>
    isSmall(parts[placement]) ? `${TOO_SMALL_TO_HOLD}, ${why}` : why;
  const outlines = { ...stage(each.flatMap(({ outline }) => outline)), reason: freeing };
  orderFrom([outlines], hole ?? endOf(ordered, start), ordering);
  return before;
}

function inPassing({ kind }: UnorderedCut, partFree: boolean): string {
  return `in passing${partFree ? ', in the free part' : ''}: the blade turns in here from the ${kind} that comes next, backs out and goes on`;
}

function endOf(ordered: readonly OrderedCut[], otherwise: Point): Point {
  const last = ordered[ordered.length - 1];
  return last === undefined ? otherwise : last.cut.gates[last.gate].to;
}
