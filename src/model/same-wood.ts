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
