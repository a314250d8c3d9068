/** Most decimals written: 0.001 mm is a hundredth of the width of a saw line. */
const DECIMALS = 3;

/**
 * The one way a number leaves for a drawing: at most 3 decimals, no trailing zeros, no exponent, no -0.
 * Anything that is not a finite number is a fault of the caller and throws a RangeError.
 *
 * @param value in the unit of the drawing (mm), at most 1e15 either way
 */
export function formatNumber(value: number): string {
  if (!Number.isFinite(value) || Math.abs(value) > 1e15) {
    throw new RangeError(`a drawing needs finite numbers up to 1e15, found ${value}`);
  }
  // toFixed and not the shortest form: it never writes an exponent below 1e21, and two runs write the same bytes.
  const text = value.toFixed(DECIMALS).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}
