/** Numbers sorted by a size and cut into so many parts at most, about as many in each. */
export function partedBySize(
  numbers: readonly number[],
  parts: number,
  size: (number: number) => number,
): number[][] {
  const sorted = numbers.toSorted((a, b) => size(a) - size(b) || a - b);
  const each = Math.max(1, Math.ceil(sorted.length / parts));
  return Array.from({ length: Math.ceil(sorted.length / each) }, (_, n) =>
    sorted.slice(n * each, (n + 1) * each),
  );
}
