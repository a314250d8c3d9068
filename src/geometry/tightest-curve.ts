/** Room a blade has in its cut on either side, mm, from its set or a twist of the wrist: common practice, no source. */
const CLEARANCE = 0.05;

/**
 * The radius of the tightest curve a blade follows without widening its cut, mm: w^2 / (8 c), where the sagitta of a
 * chord as long as the blade is wide is the clearance c (own derivation).
 *
 *      _--c--_       the blade, w wide, lies as a chord in a cut that
 *     '---w---'      bends by c over its length
 *
 * @param bladeWidth front to back, mm
 */
export function tightestCurve(bladeWidth: number): number {
  return (bladeWidth * bladeWidth) / (8 * CLEARANCE);
}
