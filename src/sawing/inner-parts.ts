import { locateInRing } from '../geometry/ring.ts';
import { boundsOf, boxesMeet } from '../geometry/shapes.ts';
import type { Placement } from '../model/layout.ts';

/** Which parts lie inside an opening of another, all by their index among the placements of the board. */
export interface InnerParts {
  /** Placements directly inside an opening of a placement. */
  inside(placement: number, opening: number): readonly number[];
  /** Placements that lie on the board itself. */
  readonly outer: readonly number[];
}

/**
 * Finds the parts that were laid into openings of others, to any depth, by their index. One vertex tells for a whole
 * part: parts never overlap, so a part is inside an opening with all of itself or not at all.
 */
export function innerParts(placements: readonly Placement[]): InnerParts {
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const inside = new Map<string, number[]>();
  const outer: number[] = [];
  placements.forEach(({ region }, inner) => {
    let host: { placement: number; opening: number; area: number } | undefined;
    placements.forEach(({ region: { openings } }, placement) => {
      if (placement === inner || openings.length === 0 || !boxesMeet(boxes[placement], boxes[inner])) return;
      const opening = openings.findIndex((ring) => locateInRing(region.outline[0], ring) === 1);
      if (opening < 0) return;
      const { minX, minY, maxX, maxY } = boundsOf(openings[opening]);
      const area = (maxX - minX) * (maxY - minY);
      // The smallest opening around a part is the one it lies in directly.
      if (host === undefined || area < host.area) host = { placement, opening, area };
    });
    if (host === undefined) outer.push(inner);
    else {
      const key = `${host.placement} ${host.opening}`;
      inside.set(key, [...(inside.get(key) ?? []), inner]);
    }
  });
  return { inside: (placement, opening) => inside.get(`${placement} ${opening}`) ?? [], outer };
}
