import { boxRing, type Ring } from '../src/geometry/shapes.ts';

/** The outline of a rectangular board or part with a corner in the origin, mm. */
export function rectangle(length: number, width: number): Ring {
  return boxRing({ minX: 0, minY: 0, maxX: length, maxY: width });
}

/** The outline of a rectangle by its sides, mm. */
export function box(minX: number, minY: number, maxX: number, maxY: number): Ring {
  return boxRing({ minX, minY, maxX, maxY });
}
