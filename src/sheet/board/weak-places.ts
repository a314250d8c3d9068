import { applyToRing, placementMap } from '../../geometry/affine.ts';
import type { Line, Point } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';
import type { Finding } from '../../model/pattern-check.ts';

/**
 * Where a part breaks easily: necks that are thin, or short in the grain, as the check of the pattern found them.
 * Each is drawn as a crack from one side of the neck to the other, inside the part and off the lines to saw along.
 */

/** Room between the crack and the edges of the neck, mm, and the size of its zigzag. */
const OFF_EDGE = 0.4;
const STEP = 0.45;
const SWING = 0.4;

/** The cracks of a placed part, board mm; necks too narrow to draw in have none. */
export function weakPlaces(placement: Placement, findings: readonly Finding[]): Line[] {
  const { layer, part, x, y, rotation, turnedOver } = placement;
  const placed = placementMap([x, y], rotation, turnedOver);
  return findings
    .filter((finding) => finding.layer === layer && finding.part === part)
    .flatMap(({ span }): Line[] => {
      if (span === undefined) return [];
      const crack = crackAlong(span);
      return crack.length < 2 ? [] : [applyToRing(placed, crack)];
    });
}

/** A zigzag on the straight way between two points. */
function crackAlong([[ax, ay], [bx, by]]: readonly [Point, Point]): Point[] {
  const width = Math.hypot(bx - ax, by - ay);
  const length = width - 2 * OFF_EDGE;
  if (!(length > 0)) return [];
  const [ux, uy] = [(bx - ax) / width, (by - ay) / width];
  const steps = Math.max(2, Math.round(length / STEP));
  return Array.from({ length: steps + 1 }, (_, i): Point => {
    const along = OFF_EDGE + (i / steps) * length;
    const aside = i === 0 || i === steps ? 0 : i % 2 === 0 ? SWING : -SWING;
    return [ax + along * ux - aside * uy, ay + along * uy + aside * ux];
  });
}
