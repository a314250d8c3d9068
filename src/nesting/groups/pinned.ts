import { applyToRegion, placementMap } from '../../geometry/affine.ts';
import { regionBounds } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';
import type { Demand, Pin } from '../../model/batch.ts';
import { isSamePart } from '../../model/same-part.ts';
import type { Board } from '../../model/stock.ts';
import { type StockUnit, unitName } from '../../stock/units.ts';

/** Copies that lie where the maker has put them. */

/** One such copy with the part it is one of. */
export interface PinnedCopy {
  readonly pin: Pin;
  readonly demand: Demand;
  /** What it covers of its board, mm. */
  readonly region: Region;
  /** Middle of its box along the board, mm: tells its section. */
  readonly middle: number;
}

/** Demands of a group and all pins of the batch. */
interface Pinned {
  readonly demands: readonly Demand[];
  readonly pins: readonly Pin[];
}

/** Names of the boards of an entry on which parts of other groups are pinned. */
export function pinnedElsewhere({ demands, pins }: Pinned, board: Board): string[] {
  return pins
    .filter((pin) => pin.board === board.id && !demands.some((demand) => isSamePart(pin, demand)))
    .map(({ number }) => unitName(board, { number, slice: undefined }));
}

/** The pinned copies of a group on a pile of boards. */
export function pinnedOn({ demands, pins }: Pinned, board: Board, units: readonly StockUnit[]): PinnedCopy[] {
  return pins.flatMap((pin) => {
    const demand = demands.find((each) => isSamePart(pin, each));
    // Of a board that is resawn, the first slice carries what is pinned.
    const isHere = units.some(({ number, slice = 1 }) => number === pin.number && slice === 1);
    if (demand === undefined || pin.board !== board.id || !isHere) return [];
    const region = applyToRegion(placementMap([pin.x, pin.y], pin.rotation, pin.turnedOver), demand.region);
    const { minX, maxX } = regionBounds(region);
    return [{ pin, demand, region, middle: (minX + maxX) / 2 }];
  });
}

/** A piece with pins is of a kind of its own: its usable region is an object of its own. */
export function withPinned(
  usable: Region,
  pinned: readonly PinnedCopy[],
): { readonly usable: Region; readonly pinned: readonly PinnedCopy[] } {
  return { usable: pinned.length === 0 ? usable : { ...usable }, pinned };
}
