import { lineLength, regionArea, ringPerimeter } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { Layer, Measures, Part, Pattern } from '../model/pattern.ts';

/** Measures one part: area in mm2, lengths in mm, openings counted. */
export function measurePart(part: Part): Measures {
  const { outline, openings } = part.region;
  const perimeter = ringPerimeter(outline);
  const openingLength = openings.reduce((length, opening) => length + ringPerimeter(opening), 0);
  const veinLength = part.veins.reduce((length, vein) => length + lineLength(vein), 0);
  return {
    area: regionArea(part.region),
    perimeter,
    cutLength: perimeter + openingLength + veinLength,
    openings: openings.length,
    veins: part.veins.length,
    bounds: boundsOf(outline),
  };
}

/** Sum of the measures of a layer's parts. */
export function measureLayer(layer: Layer): Measures {
  return sumOf(layer.parts.map(measurePart));
}

/** Sum of the measures of everything in one finished piece, each part counted once. */
export function measurePattern(pattern: Pattern): Measures {
  return sumOf(pattern.layers.map(measureLayer));
}

function sumOf(all: readonly Measures[]): Measures {
  const total = (field: 'area' | 'perimeter' | 'cutLength' | 'openings' | 'veins') =>
    all.reduce((sum, measures) => sum + measures[field], 0);
  return {
    area: total('area'),
    perimeter: total('perimeter'),
    cutLength: total('cutLength'),
    openings: total('openings'),
    veins: total('veins'),
    bounds: boundsOf(
      all.flatMap(({ bounds }) => [
        [bounds.minX, bounds.minY],
        [bounds.maxX, bounds.maxY],
      ]),
    ),
  };
}
