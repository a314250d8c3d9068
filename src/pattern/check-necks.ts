import type { Point } from '../geometry/shapes.ts';
import { type ThinPlace, thinPlaces } from '../geometry/widths.ts';
import type { GrainRule } from '../model/batch.ts';
import type { Part } from '../model/pattern.ts';
import type { Finding } from '../model/pattern-check.ts';
import { middle, thinnestOfEach } from './thinnest-places.ts';

/** Distance of samples along the outline as a share of the limit. */
const SPACING = 0.15;

/** A thin place is a neck when this much outline lies beyond it, in limits; nearer its end it is only a tip. */
const LEAST_BEYOND = 4;

/** Thinnest necks of a part, and the limits they are held against, mm. */
export interface NeckLimits {
  readonly along: number;
  readonly across: number;
}

/**
 * Necks thinner than they should be. A neck whose axis lies across the grain is short grain: wood pulls apart
 * across the grain at about 1/20 of its strength along it (USDA Wood Handbook, tension perpendicular against
 * modulus of rupture). Between the two limits the sine of the angle is squared, as in Hankinson's formula (1921).
 */
export function checkNecks(part: Part, grain: GrainRule, limits: NeckLimits): Finding[] {
  // The grain may make either limit the greater; places are looked for up to it and judged by their own.
  const widest = Math.max(limits.along, limits.across);
  const necks = thinPlaces(part.region, 'solid', widest, SPACING * widest).filter(
    ({ width, outlineBetween, from, to }) =>
      outlineBetween > LEAST_BEYOND * widest && width < limitFor(acrossGrain(from, to, grain), limits),
  );
  return thinnestOfEach(necks, widest).map((neck) => finding(part, neck, grain, limits));
}

/** 0 when the neck's axis runs along the grain, 1 when it lies across: the square of the sine of the angle. */
function acrossGrain(from: Point, to: Point, grain: GrainRule): number {
  if (grain === 'free') return 0;
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  // The axis is at right angles to the line between the sides, so the roles of x and y change places.
  const squared = dx * dx + dy * dy;
  // Two rings that touch leave no neck that could run either way.
  if (squared === 0) return 0;
  return (grain === 'along' ? dx * dx : dy * dy) / squared;
}

function limitFor(across: number, { along, across: acrossLimit }: NeckLimits): number {
  return along + (acrossLimit - along) * across;
}

function finding(part: Part, place: ThinPlace, grain: GrainRule, limits: NeckLimits): Finding {
  const across = acrossGrain(place.from, place.to, grain);
  // Wide enough had it run along the grain: what is wrong is the direction, and turning the part mends it.
  const isShort = across > 0.5 && place.width >= limits.along;
  return {
    kind: isShort ? 'neck-short-grain' : 'neck-thin',
    severity: 'warning',
    layer: part.layer,
    part: part.name,
    at: middle(place),
    span: [place.from, place.to],
    size: place.width,
    limit: limitFor(across, limits),
    ...told(place.width, isShort),
  };
}

function told(width: number, isShort: boolean): Pick<Finding, 'message' | 'advice'> {
  if (isShort) {
    return {
      message: `a neck ${width.toFixed(2)} mm wide lies across the grain`,
      advice: 'Turn the part so that the grain runs through the neck, or draw it wider.',
    };
  }
  if (width === 0) {
    return {
      message: 'an opening touches the outline or another opening: no wood is left between them',
      advice: 'Move it away from the other line, or draw the two as one.',
    };
  }
  return {
    message: `a neck is ${width.toFixed(2)} mm wide`,
    advice: 'Draw it wider, or leave wood around it until the last cut.',
  };
}
