/** How well a layout or a choice does; less is better, the first difference counts. */
export type Loss = readonly number[];

/** Losses added term by term. */
export function sumOf(losses: readonly Loss[]): Loss {
  return losses.reduce((sum, one) => sum.map((value, i) => value + one[i]));
}

/**
 * Negative when `a` is the less, for sorting; terms that differ by no more than their rounding are alike. The size of the
 * answer is in the unit of the first term that differs, and says nothing.
 */
export function compareLosses(a: Loss, b: Loss): number {
  const at = a.findIndex((value, i) => Math.abs(value - b[i]) > 1e-6 * Math.abs(b[i]));
  return at < 0 ? 0 : a[at] - b[at];
}
