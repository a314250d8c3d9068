/** True when two species names mean the same wood: case, spaces and hyphens do not matter. */
export function sameSpecies(a: string, b: string): boolean {
  return speciesKey(a) === speciesKey(b);
}

/** The form in which species names are compared: `Yellow-Poplar` and `yellow poplar` are one. */
export function speciesKey(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replace(/[\s\-_]+/g, ' ');
}

/** Every wood of some names once, by the name that was written first: `Walnut` after `walnut` is no other wood. */
export function woodsAmong(names: readonly string[]): string[] {
  const woods = new Map<string, string>();
  for (const name of names) if (!woods.has(speciesKey(name))) woods.set(speciesKey(name), name);
  return [...woods.values()];
}
