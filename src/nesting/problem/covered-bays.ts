import { oriented, ringArea, ringPerimeter } from '../../geometry/ring.ts';
import type { Point, Region, Ring } from '../../geometry/shapes.ts';
import { VertexGrid } from './vertex-grid.ts';

/**
 * Bays covered from mouth to bottom: between the teeth of a saw-toothed leaf, or the steps of a traced line, where
 * nothing is ever laid. Like simplifying outward it only adds area, and like closing with a disc (Serra 1982, Image
 * Analysis and Mathematical Morphology) it goes by how wide a bay is and not by how deep: teeth of 5 mm vanish, and a
 * shallow curve stays. Growing and shrinking thousands of teeth takes a second; this takes milliseconds.
 */

/**
 * The region with its bays covered where they are at most `mouth` mm wide, and openings that are no wider filled. Rings
 * that do not cross themselves or one another stay so.
 */
export function withoutBays({ outline, openings }: Region, mouth: number): Region {
  const rings = [oriented(outline, true), ...openings.map((ring) => oriented(ring, false))];
  const grid = new VertexGrid(rings, mouth);
  let first = 0;
  const [around, ...inside] = rings.map((ring) => {
    const result = withBaysCovered(ring, first, mouth, grid);
    first += ring.length;
    return result;
  });
  return { outline: around, openings: inside.filter((ring) => !isNarrower(ring, mouth)) };
}

/**
 * One ring, solid on its positive side, without the reflex vertices, one or two in a row, that lie between others at most
 * `mouth` apart. A wide bay is rounded at its bottom, a narrow one goes vertex by vertex from the bottom up.
 *
 * @param first number of the ring's first vertex in the grid
 */
function withBaysCovered(ring: Ring, first: number, mouth: number, grid: VertexGrid): Ring {
  const count = ring.length;
  const before = Int32Array.from(ring, (_, i) => (i + count - 1) % count);
  const after = Int32Array.from(ring, (_, i) => (i + 1) % count);
  const isGone = new Uint8Array(count);
  const pending = Array.from(ring, (_, i) => count - 1 - i);
  // Where another vertex lies between, a stem passes through the bay, and the chord would cross it.
  const isFree = (a: number, b: number, c: number) =>
    isReflex(ring[a], ring[b], ring[c]) && !grid.anotherWithin(first + a, first + b, first + c);
  const isNarrow = (a: number, c: number) => isWithin(ring[a], ring[c], mouth);
  let left = count;
  for (let i = pending.pop(); i !== undefined && left > 3; i = pending.pop()) {
    if (isGone[i]) continue;
    const a = before[i];
    const b = after[i];
    const c = after[b];
    if (isNarrow(a, b)) {
      if (!isFree(a, i, b)) continue;
      isGone[i] = 1;
      left--;
      after[a] = b;
      before[b] = a;
      // Beside a tooth that is gone a bay may have become narrow enough.
      pending.push(b, a);
    } else if (left > 4 && isNarrow(a, c) && isFree(a, i, b) && isFree(a, b, c)) {
      // A slot with a flat bottom: either corner alone would leave a chord from its bottom to its mouth.
      isGone[i] = 1;
      isGone[b] = 1;
      left -= 2;
      after[a] = c;
      before[c] = a;
      pending.push(c, a);
    }
  }
  return ring.filter((_, i) => isGone[i] === 0);
}

/** True for what is left of an opening that is nowhere wider: a disc of that width has so much area for its perimeter. */
function isNarrower(ring: Ring, width: number): boolean {
  return 4 * ringArea(ring) <= width * ringPerimeter(ring);
}

/** True when `b` is a reflex vertex, the solid on the positive side. */
function isReflex([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): boolean {
  return (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < 0;
}

function isWithin([ax, ay]: Point, [bx, by]: Point, distance: number): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  return dx * dx + dy * dy <= distance * distance;
}
