import { regionBounds } from '../../geometry/ring.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { Batch, Demand, Pin } from '../../model/batch.ts';
import { withoutLetter } from '../../model/boards-to-take.ts';
import type { LaidBoard, Layout, Placement } from '../../model/layout.ts';
import { pinnedRegion } from '../../model/pinned-region.ts';
import { isSamePart } from '../../model/same-part.ts';
import type { Board } from '../../model/stock.ts';
import { unitName } from '../../stock/units.ts';
import type { Tell } from './as-batched.ts';
import { told } from './places.ts';
import { sameRegion } from './shape.ts';
import { ANGLE_TOLERANCE, DISTANCE_TOLERANCE } from './tolerances.ts';

/** What a layout says of itself, against its batch: by these numbers and rules all else of it is checked. */

/** Checks the settings of a layout, and that its sets are of the parts of the batch, with their rules. */
export function checkBatchedSettings(layout: Layout, batch: Batch, tell: Tell): void {
  tell(layout.sets === batch.sets, { field: 'sets' }, batch.sets, layout.sets);
  for (const field of ['kerf', 'clearance', 'edgeMargin'] as const)
    tell(layout[field] === batch[field], { field }, `${told(batch[field])} mm`, `${told(layout[field])} mm`);
  const [together, stated] = [batch, layout].map(({ setsTogether }) => setsTogether === true);
  tell(together === stated, { field: 'setsTogether' }, together, stated);
  for (const { layer, part, copiesPerSet, rules, region } of batch.demands) {
    const content = layout.setContents.find((each) => isSamePart(each, { layer, part }));
    tell(content !== undefined, { layer, part }, 'a part of the sets', 'none');
    if (content === undefined) continue;
    const asked = { copiesPerSet, ...rules };
    const kept = { ...content, restEdge: content.restEdge === true };
    for (const field of ['copiesPerSet', 'grain', 'grainTolerance', 'turnOver', 'restEdge'] as const)
      tell(asked[field] === kept[field], { layer, part, field }, asked[field], kept[field]);
    const isAsDrawn = content.region === undefined || sameRegion(region, content.region);
    tell(isAsDrawn, { layer, part, field: 'region' }, 'the part as drawn', 'another shape');
  }
  for (const { layer, part } of layout.setContents)
    tell(
      batch.demands.some((demand) => isSamePart(demand, { layer, part })),
      { layer, part },
      'a part of the batch',
      'none',
    );
}

/**
 * Checks that what is pinned lies where it is, unless it is told to have no place, or sets that stay together lie on other
 * boards, for none fits around it: a warning of the layout tells of that.
 */
export function checkBatchedPins({ boards, unplaced }: Layout, batch: Batch, tell: Tell): void {
  const pins = batch.pins ?? [];
  for (const pin of pins) {
    const { layer, part, number } = pin;
    const entry = batch.boards.find(({ id }) => id === pin.board);
    if (entry === undefined) continue;
    const board = unitName(entry, { number, slice: undefined });
    const own = boards.filter(
      (laid) => isPieceOf(laid, board) && laid.placements.some((copy) => isSamePart(copy, pin)),
    );
    const copies = own.flatMap(({ placements }) => placements.filter((copy) => isSamePart(copy, pin)));
    const isAtPin = (copy: Placement) =>
      pins.some((other) => other.board === pin.board && other.number === number && liesAs(copy, other));
    const mayBeLeftOut = batch.setsTogether === true || unplaced.some((copy) => isSamePart(copy, pin));
    // A pin whose set is not whole on its board is left out; a copy elsewhere on that board is a pin that was moved.
    if (mayBeLeftOut && copies.every(isAtPin)) continue;
    const lies = copies.some((copy) => liesAs(copy, pin));
    const demand = batch.demands.find((each) => isSamePart(each, pin));
    const found = copies.length === 0 ? 'none on this board' : 'not there';
    tell(lies, { board, layer, part }, pinnedPlace(pin, demand, entry), found);
  }
}

/** Where a copy is pinned, as its maker measured it: its box from the left end and the top edge of the board. */
function pinnedPlace(pin: Pin, demand: Demand | undefined, board: Board): string {
  if (demand === undefined) return 'pinned';
  const part = regionBounds(pinnedRegion(pin, demand));
  const corner = boundsOf(board.outline);
  const [along, across] = [part.minX - corner.minX, part.minY - corner.minY].map((each) => each.toFixed(2));
  return `pinned ${Number(along)} mm from the left end and ${Number(across)} mm from the top edge`;
}

/** Whether what is laid out is the board or blank of a name, or a slice of it. */
export function isPieceOf({ id, pieces = [id] }: LaidBoard, name: string): boolean {
  return pieces.some((piece) => piece === name || withoutLetter(piece) === name);
}

/** Whether a copy lies where one is pinned. */
function liesAs(copy: Placement, pin: Pin): boolean {
  return (
    isSamePart(copy, pin) &&
    Math.hypot(copy.x - pin.x, copy.y - pin.y) <= DISTANCE_TOLERANCE &&
    Math.abs(Math.sin(((copy.rotation - pin.rotation) * Math.PI) / 360)) <= ANGLE_TOLERANCE &&
    copy.turnedOver === (pin.turnedOver === true)
  );
}
