import type { Point, Region, Ring } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Placement, SetContent } from '../../model/layout.ts';
import { MOST_VEIN_OUTSIDE } from '../../model/limits.ts';
import { isSamePart, partKey } from '../../model/same-part.ts';
import { placeOutside } from './lines.ts';
import { breach, type MeasuredPlacement, placeOf } from './places.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/**
 * Checks that a placed shape is the drawn part moved by its placement. A layout without drawn regions is compared
 * copy with copy: then the first copy of each part is taken at its word.
 *
 * @param drawn regions by part, filled as they are met
 */
export function checkShape(
  drawn: Map<string, Region>,
  contents: readonly SetContent[],
  measured: MeasuredPlacement,
  breaches: Issue[],
): void {
  const { placement } = measured;
  const key = partKey(placement);
  const back = movedBack(placement);
  const known = drawn.get(key) ?? contents.find((content) => isSamePart(content, placement))?.region;
  drawn.set(key, known ?? back);
  if (known === undefined || sameRegion(known, back)) return;
  breaches.push(
    breach('shape-changed', 'the placed shape is not the part moved by its placement', placeOf(measured)),
  );
}

/** Checks that every vein lies within its part along its whole length: its ends alone may have an opening between them. */
export function checkVeins(measured: MeasuredPlacement, breaches: Issue[]): void {
  const { placement, region } = measured;
  for (const vein of placement.veins) {
    const at = vein.length < 2 ? vein[0] : placeOutside(vein, placement.region, region, MOST_VEIN_OUTSIDE);
    if (at === undefined && vein.length >= 2) continue;
    breaches.push(
      breach('vein-outside', 'a vein does not lie within its part', { ...placeOf(measured), at }),
    );
    return;
  }
}

/** The same rings, vertex by vertex. */
function sameRegion(a: Region, b: Region): boolean {
  const ringsOfA = [a.outline, ...a.openings];
  const ringsOfB = [b.outline, ...b.openings];
  return ringsOfA.length === ringsOfB.length && ringsOfA.every((ring, i) => sameRing(ring, ringsOfB[i]));
}

function sameRing(a: Ring, b: Ring): boolean {
  return (
    a.length === b.length &&
    a.every(([x, y], i) => Math.hypot(x - b[i][0], y - b[i][1]) <= DISTANCE_TOLERANCE)
  );
}

function movedBack({ region, x, y, rotation, turnedOver }: Placement): Region {
  const angle = (-rotation * Math.PI) / 180;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const back = ([px, py]: Point): Point => {
    const dx = px - x;
    const dy = py - y;
    const backX = cos * dx - sin * dy;
    return [turnedOver ? -backX : backX, sin * dx + cos * dy];
  };
  return { outline: region.outline.map(back), openings: region.openings.map((opening) => opening.map(back)) };
}
