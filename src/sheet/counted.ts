/** A number of things in words: `1 part`, `2 parts`; all nouns of the sheets take a plain s. */
export function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`;
}
