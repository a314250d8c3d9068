/** For every key the number of the first that is the same: its own where none before is. */
export function firstAlike(keys: readonly string[]): number[] {
  const first = new Map<string, number>();
  return keys.map((key, number) => {
    const known = first.get(key) ?? number;
    first.set(key, known);
    return known;
  });
}
