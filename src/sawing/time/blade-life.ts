import type { Range } from '../../model/cut-plan.ts';

/** Thickness at which wood of 1000 lbf is sawn at the pace the time model is told, mm (3/4 in). */
export const PACE_THICKNESS = 19.05;

/** Minutes for a metre of cut in 19.05 mm wood of 1000 lbf: 3.5 in a minute, 2.5 to 5. Common practice, no source. */
export const COMMON_PACE: Range = { low: 7.9, likely: 11.2, high: 15.7 };

/**
 * Metres of cut in 19.05 mm wood of 1000 lbf that take as long as `length` mm in this wood: time grows with thickness
 * and with the root of hardness. Common practice; that it grows with both is read (Scrollsaw Workshop, 27 Oct 2020),
 * how fast is not.
 */
export function paceMetres(length: number, thickness: number, hardness: number): number {
  return (length / 1000) * (thickness / PACE_THICKNESS) * Math.sqrt(hardness / 1000);
}

/**
 * Minutes of sawing a blade lasts: 15 to 30 in 3/4 in hardwood, 30 to 60 in 1/4 in, and between and beyond by a
 * power of the thickness: the two pairs are a factor of 2 in life for a factor of 3 in thickness, hence log 2 / log 3.
 * Common practice, no source; makers report anything from one blade a pattern to hours.
 *
 * @param thickness of the wood under the blade, mm
 */
export function bladeLife(thickness: number): Range {
  const factor = (PACE_THICKNESS / thickness) ** (Math.log(2) / Math.log(3));
  return { low: 15 * factor, likely: 22 * factor, high: 30 * factor };
}

/**
 * Blades worn out by a length of cut: not rounded, so that boards can be summed. At the high end the sawing is slow and a
 * blade lasts short, so the high pace goes by the low life.
 *
 * @param length and `thickness` of the wood, mm
 * @param hardness Janka, lbf
 */
export function bladesWorn(length: number, thickness: number, hardness: number, pace = COMMON_PACE): Range {
  const metres = paceMetres(length, thickness, hardness);
  const life = bladeLife(thickness);
  return {
    low: (metres * pace.low) / life.high,
    likely: (metres * pace.likely) / life.likely,
    high: (metres * pace.high) / life.low,
  };
}
