import { regionArea, ringPerimeter } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { cutLength } from '../model/cut-length.ts';
import type { Layer, Measures, Part, Pattern } from '../model/pattern.ts';
import { layerCheck, partCheck, patternCheck } from '../model/pattern-checks.ts';

/**
 * Measures one part: area in mm2, lengths in mm, openings counted.
 *
 * @throws FretlayError for what is no part
 */
export function measurePart(part: Part): Measures {
  throwOnErrors(partCheck('part', part));
  return measuresOf(part);
}

/**
 * Sum of the measures of a layer's parts, as {@link measurePart} has them.
 *
 * @throws FretlayError for what is no layer
 */
export function measureLayer(layer: Layer): Measures {
  throwOnErrors(layerCheck('layer', layer));
  return sumOf(layer.parts);
}

/**
 * Sum of the measures of everything in one finished piece, each part counted once, as {@link measurePart} has them.
 *
 * @throws FretlayError for what is no pattern
 */
export function measurePattern(pattern: Pattern): Measures {
  throwOnErrors(patternCheck('pattern', pattern));
  return sumOf(pattern.layers.flatMap(({ parts }) => parts));
}

function measuresOf(part: Part): Measures {
  const { outline, openings } = part.region;
  return {
    area: regionArea(part.region),
    perimeter: ringPerimeter(outline),
    cutLength: cutLength(part),
    openings: openings.length,
    veins: part.veins.length,
    bounds: boundsOf(outline),
  };
}

function sumOf(parts: readonly Part[]): Measures {
  const all = parts.map(measuresOf);
  const total = (field: 'area' | 'perimeter' | 'cutLength' | 'openings' | 'veins') =>
    all.reduce((sum, measures) => sum + measures[field], 0);
  return {
    area: total('area'),
    perimeter: total('perimeter'),
    cutLength: total('cutLength'),
    openings: total('openings'),
    veins: total('veins'),
    // Nothing has no box; one from infinity to minus infinity would come out as a size.
    bounds:
      all.length === 0
        ? { minX: 0, minY: 0, maxX: 0, maxY: 0 }
        : boundsOf(
            all.flatMap(({ bounds }) => [
              [bounds.minX, bounds.minY],
              [bounds.maxX, bounds.maxY],
            ]),
          ),
  };
}
