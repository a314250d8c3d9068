import type { Ring } from '../../geometry/shapes.ts';
import type { Container } from '../problem/container.ts';

/**
 * How much of a container is clear beyond where its copies end: what one cross-cut parts from a board as its largest
 * keeper. A length alone would not do: a short end of a wide board may be more than a long end of a narrow one, and the
 * end of a slab may be mostly bark.
 *
 * @param from where the copies end, mm along the board
 * @returns usable area, defects taken off, mm2
 */
export function clearEnd({ box, hazards }: Container, from: number): number {
  const frame = hazards.find((hazard) => hazard.frame);
  let area =
    frame === undefined ? (box.maxX - from) * (box.maxY - box.minY) : areaBeyond(frame.region.outline, from);
  for (const { region, frame: isFrame } of hazards) if (!isFrame) area -= areaBeyond(region.outline, from);
  return Math.max(0, area);
}

/** Area of a ring to the right of a line across the board, mm2. */
function areaBeyond(ring: Ring, line: number): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i++) {
    const [x1, y1] = ring[i];
    const [x2, y2] = ring[(i + 1) % ring.length];
    if (x1 <= line && x2 <= line) continue;
    // What an edge has to the left of the line counts for nothing, nor does the line itself: it has no length along x.
    const from = Math.max(x1, line);
    const to = Math.max(x2, line);
    const at = (x: number) => (x1 === x2 ? y1 : y1 + ((x - x1) / (x2 - x1)) * (y2 - y1));
    sum += ((to - from) * (at(from) + at(to))) / 2;
  }
  return Math.abs(sum);
}
