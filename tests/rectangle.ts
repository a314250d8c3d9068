import { boxRing, type Ring } from '../src/geometry/shapes.ts';

/** The outline of a rectangular board or part with a corner in the origin, mm. */
export function rectangle(length: number, width: number): Ring {
  return boxRing({ minX: 0, minY: 0, maxX: length, maxY: width });
}
