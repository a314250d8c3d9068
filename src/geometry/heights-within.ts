import type { Ring } from './shapes.ts';

/** The least and the greatest y of what of a ring lies between two x, mm; infinite the wrong way round where nothing does. */
export function heightsWithin(ring: Ring, from: number, to: number): readonly [least: number, most: number] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length];
    const [left, right] = ax <= bx ? [ax, bx] : [bx, ax];
    if (right < from || left > to) return;
    for (const x of [Math.max(left, from), Math.min(right, to)]) {
      // Upright sides reach from end to end.
      const heights = bx === ax ? [ay, by] : [ay + ((by - ay) * (x - ax)) / (bx - ax)];
      least = Math.min(least, ...heights);
      most = Math.max(most, ...heights);
    }
  });
  return [least, most];
}
