import type { Line, Point, Region } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Placement, SetContent } from '../../model/layout.ts';
import { MOST_VEIN_OUTSIDE } from '../../model/limits.ts';
import { isSamePart, partKey } from '../../model/same-part.ts';
import { placeOutside } from './lines.ts';
import { breach, type MeasuredPlacement, placeOf } from './places.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/** A part as it is drawn: as a layout states it, or as its first copy is. */
export interface Drawn {
  readonly region: Region;
  /** A layout states no veins: those of the first copy. */
  readonly veins: readonly Line[];
}

/**
 * Checks that a placed shape is the drawn part moved by its placement. Veins, and regions that the layout does not state, are
 * compared copy with copy: then the first copy of each part is taken at its word.
 *
 * @param drawn parts by name, filled as they are met
 */
export function checkShape(
  drawn: Map<string, Drawn>,
  contents: readonly SetContent[],
  measured: MeasuredPlacement,
  breaches: Issue[],
): void {
  const { placement } = measured;
  const key = partKey(placement);
  const back = movedBack(placement);
  const known = drawn.get(key) ?? {
    region: contents.find((content) => isSamePart(content, placement))?.region ?? back.region,
    veins: back.veins,
  };
  drawn.set(key, known);
  const refuse = (why: string) => breaches.push(breach('shape-changed', why, placeOf(measured)));
  if (!sameRegion(known.region, back.region))
    refuse('the placed shape is not the part moved by its placement');
  if (!sameLines(known.veins, back.veins)) refuse('the veins are not those of the first copy of the part');
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

/** Whether two regions have the same rings, vertex by vertex. */
export function sameRegion(a: Region, b: Region): boolean {
  return sameLines([a.outline, ...a.openings], [b.outline, ...b.openings]);
}

function sameLines(a: readonly Line[], b: readonly Line[]): boolean {
  return a.length === b.length && a.every((line, i) => sameLine(line, b[i]));
}

function sameLine(a: Line, b: Line): boolean {
  return (
    a.length === b.length &&
    a.every(([x, y], i) => Math.hypot(x - b[i][0], y - b[i][1]) <= DISTANCE_TOLERANCE)
  );
}

function movedBack({ region, veins, x, y, rotation, turnedOver }: Placement): Drawn {
  const angle = (-rotation * Math.PI) / 180;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const back = ([px, py]: Point): Point => {
    const dx = px - x;
    const dy = py - y;
    const backX = cos * dx - sin * dy;
    return [turnedOver ? -backX : backX, sin * dx + cos * dy];
  };
  return {
    region: {
      outline: region.outline.map(back),
      openings: region.openings.map((opening) => opening.map(back)),
    },
    veins: veins.map((vein) => vein.map(back)),
  };
}
