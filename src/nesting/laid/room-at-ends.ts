import type { Box, Region, Ring } from '../../geometry/shapes.ts';
import type { KeepRule } from '../../model/batch.ts';

/** Wood in one piece with the ends of a stretch of board, between what lies there: what the blade frees to keep. */

/** Width of the strips along the board in which it is looked how far they are clear, mm. */
const STRIP = 1;

/** What the blade frees, and of what size it is kept. */
export interface FreedRules {
  readonly keep: KeepRule;
  /** Width the blade removes beside what lies there, mm. */
  readonly kerf: number;
}

/**
 * Area of the largest rectangle, large enough to keep, that reaches from an end of a stretch to what lies in it, mm2;
 * 0 where there is none. Its width is told to the millimetre.
 *
 * @param box the stretch, across the whole board
 * @param regions what lies in it
 */
export function roomAtEnds(box: Box, regions: readonly Region[], rules: FreedRules): number {
  const outlines = regions.map(({ outline }) => outline);
  const atLeft = clearStrips(
    box,
    outlines.map((ring) => ring.map(([x, y]) => [x - box.minX, y])),
  );
  const atRight = clearStrips(
    box,
    outlines.map((ring) => ring.map(([x, y]) => [box.maxX - x, y])),
  );
  return Math.max(largestBeside(atLeft, rules), largestBeside(atRight, rules));
}

/** How far the strips of a stretch are clear from one end, mm. @param rings at their distances from that end */
function clearStrips({ minX, maxX, minY, maxY }: Box, rings: readonly Ring[]): Float64Array {
  const clear = new Float64Array(Math.max(1, Math.ceil((maxY - minY) / STRIP))).fill(maxX - minX);
  const stripAt = (y: number) => Math.min(clear.length - 1, Math.max(0, Math.floor((y - minY) / STRIP)));
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++) {
      const [x1, y1] = ring[i];
      const [x2, y2] = ring[(i + 1) % ring.length];
      const [top, bottom] = y1 < y2 ? [y1, y2] : [y2, y1];
      const at = (y: number) => (y1 === y2 ? Math.min(x1, x2) : x1 + ((y - y1) / (y2 - y1)) * (x2 - x1));
      for (let strip = stripAt(top); strip <= stripAt(bottom); strip++) {
        const from = Math.max(top, minY + strip * STRIP);
        const to = Math.min(bottom, minY + (strip + 1) * STRIP);
        clear[strip] = Math.min(clear[strip], at(from), at(to));
      }
    }
  }
  return clear;
}

/** Area of the largest rectangle within neighbouring strips that is large enough to keep, mm2. */
function largestBeside(clear: Float64Array, { keep, kerf }: FreedRules): number {
  let largest = 0;
  for (let from = 0; from < clear.length; from++) {
    let length = Number.POSITIVE_INFINITY;
    for (let to = from; to < clear.length; to++) {
      length = Math.min(length, clear[to] - kerf);
      if (length < keep.length) break;
      const width = (to + 1 - from) * STRIP;
      if (width >= keep.width) largest = Math.max(largest, length * width);
    }
  }
  return largest;
}
