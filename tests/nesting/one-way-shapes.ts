import { regionArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Region } from '../../src/geometry/shapes.ts';
import type { FinerShapes } from '../../src/nesting/problem/shape.ts';

/** Regions around their reference points as shapes that lie in one way, the way they are drawn. */
export function oneWayShapes(regions: readonly Region[]): FinerShapes {
  return {
    shapes: regions.map((region, n) => ({ region, area: regionArea(region), orientations: [n] })),
    orientations: regions.map(({ outline }, shape) => ({
      shape,
      degrees: 0,
      turnedOver: false,
      twist: [0, 0],
      box: boundsOf(outline),
      edge: undefined,
    })),
  };
}
