import type { TrimmedSides } from '../model/layout.ts';
import type { Trim } from '../model/stock.ts';

/** The sides that a board is trimmed on. */
export const TRIMMED_SIDES = [
  'topEdge',
  'straightEdge',
  'leftEnd',
  'rightEnd',
] as const satisfies readonly (keyof TrimmedSides)[];

/** Whether a trim takes something off the ends, or the edges, of a board. */
export function isTrimmed(trim: Trim | undefined, sides: 'ends' | 'edges'): boolean {
  if (trim === undefined) return false;
  return sides === 'ends'
    ? trim.leftEnd > 0 || trim.rightEnd > 0
    : trim.topEdge > 0 || trim.straightEdge !== 0;
}
