/** A share as a person reads it, in percent with one decimal: 0.434 gives `43.4 %`. */
export function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
