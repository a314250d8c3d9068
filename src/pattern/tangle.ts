import type { Ring } from '../geometry/shapes.ts';

/**
 * How often the edges of rings cross, estimated before anything is spent on resolving them: a hostile or broken
 * path of n edges can cross itself n^2 times, and every crossing costs time and memory.
 */

/** Edges below which even a crossing of every pair is cheap. */
const FEW_EDGES = 1500;

/** Pairs of edges looked at; the estimate is then good to a few per cent where it matters. */
const SAMPLES = 20_000;

/** Most crossings that are resolved. */
const MOST_CROSSINGS = 300_000;

/** True when resolving the rings would cost out of all proportion. The sample of pairs is always the same. */
export function tooTangled(rings: readonly Ring[]): boolean {
  const edges = rings.flatMap((ring) =>
    ring.map((from, i) => [...from, ...ring[(i + 1) % ring.length]] as const),
  );
  const count = edges.length;
  if (count < FEW_EDGES) return false;
  let crossings = 0;
  let state = 12345;
  const next = () => {
    // Numerical Recipes' quick linear congruential generator, 32 bits.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * count);
  };
  for (let i = 0; i < SAMPLES; i++) if (cross(edges[next()], edges[next()])) crossings++;
  return (crossings / SAMPLES) * ((count * count) / 2) > MOST_CROSSINGS;
}

type Edge = readonly [ax: number, ay: number, bx: number, by: number];

function cross([ax, ay, bx, by]: Edge, [cx, cy, dx, dy]: Edge): boolean {
  const side = (px: number, py: number, qx: number, qy: number, x: number, y: number) =>
    (qx - px) * (y - py) - (qy - py) * (x - px);
  return (
    side(ax, ay, bx, by, cx, cy) * side(ax, ay, bx, by, dx, dy) < 0 &&
    side(cx, cy, dx, dy, ax, ay) * side(cx, cy, dx, dy, bx, by) < 0
  );
}
