import { isBox } from '../geometry/ring.ts';
import { boundsOf, boxRing } from '../geometry/shapes.ts';
import type { SawReach } from '../model/batch.ts';
import type { Board } from '../model/stock.ts';
import { longestSection, onGrid, SHORTEST } from './sections.ts';

/** Ripping a board along the grain into strips, so that its sections turn in the throat of the saw. */

/**
 * A board is ripped when its sections in full width would be shorter than this share of the throat: such slats hold
 * little and take many cuts (common practice, no source).
 */
const LEAST_SECTION = 0.25;

/** Ways a part may lie, each the length along and across the grain that it takes, mm. */
export type WaysToLie = readonly (readonly [along: number, across: number])[];

/** What a board is ripped for. */
export interface RippingRules {
  readonly reach: SawReach;
  /** Width of the rip cut, mm. */
  readonly kerf: number;
  /** Gap to the edges of the strip, mm. */
  readonly margin: number;
}

/** True for a plain rectangle: what has knots, a waney edge or a trim is ripped by eye. */
export function mayBeRipped(board: Board): boolean {
  return rippedByEye(board) === undefined;
}

/** What of a board has to be seen to rip it well; undefined for a plain rectangle. */
export function rippedByEye({ outline, defects, trim }: Board): 'defects' | 'trim' | 'outline' | undefined {
  if (defects.length > 0) return 'defects';
  if (trim !== undefined) return 'trim';
  return isBox(outline) ? undefined : 'outline';
}

/**
 * Number of strips a board is best ripped into for these parts; 1 when it stays as wide as it is. Strips in whose
 * sections most parts have room come first, then those with the largest sections, then fewer.
 */
export function stripsToTurn(board: Board, parts: readonly WaysToLie[], rules: RippingRules): number {
  const { reach, margin } = rules;
  const { minX, minY, maxX, maxY } = boundsOf(board.outline);
  const { throat } = reach;
  const width = maxY - minY;
  const turns = (across: number) =>
    throat === undefined || Math.hypot(across, LEAST_SECTION * throat) <= throat;
  if (turns(width)) return 1;
  let best = { strips: 1, held: -1, area: 0 };
  for (let strips = 2; ; strips++) {
    const across = stripWidth(width, strips, rules.kerf);
    if (across < SHORTEST) return best.strips;
    if (!turns(across)) continue;
    const along = Math.min(maxX - minX, longestSection(across, reach));
    const held = parts.filter((ways) =>
      ways.some(([length, height]) => length <= along - 2 * margin && height <= across - 2 * margin),
    ).length;
    const area = along * across;
    if (held > best.held || (held === best.held && area > best.area)) best = { strips, held, area };
  }
}

/** The strips that come out of the boards of an entry, as an entry: quantity and price are those of single strips. */
export function rippedInto(strips: number, board: Board, kerf: number): Board {
  if (strips <= 1) return board;
  const box = boundsOf(board.outline);
  const maxY = box.minY + stripWidth(box.maxY - box.minY, strips, kerf);
  return {
    ...board,
    outline: boxRing({ ...box, maxY }),
    quantity: board.quantity * strips,
    price: board.price === undefined ? undefined : board.price / strips,
    strips,
  };
}

function stripWidth(width: number, strips: number, kerf: number): number {
  return onGrid((width - (strips - 1) * kerf) / strips);
}
