/** Money is counted in whole cents, so that sums are exact. */

/** Whole cents nearest to an amount in whole units of a currency; halves go away from zero, as tills round. */
export function toCents(amount: number): number {
  // The hair makes up for amounts such as 1.005 that lie just below their half in binary.
  return Math.sign(amount) * Math.round(Math.abs(amount) * 100 + 1e-9);
}

/** Writes cents, rounded to whole ones: `$12.50` when the currency is a sign, `12.50 EUR` when it is a word. */
export function formatMoney(cents: number, currency: string): string {
  const whole = Math.abs(Math.round(cents));
  const text = `${Math.floor(whole / 100)}.${String(whole % 100).padStart(2, '0')}`;
  const sign = Math.round(cents) < 0 ? '-' : '';
  return `${sign}${withCurrency(text, currency)}`;
}

/** A sign of a currency stands before the figure, a word behind it. */
export function withCurrency(figure: string, currency: string): string {
  return /[a-z]/i.test(currency) ? `${figure} ${currency}` : `${currency}${figure}`;
}
