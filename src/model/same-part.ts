/** One kind of part: its name is its own within its layer. */
export interface PartName {
  readonly layer: string;
  readonly part: string;
}

/** The same text for all that belongs to one kind of part, and for nothing else: a key for maps. */
export function partKey({ layer, part }: PartName): string {
  return JSON.stringify([layer, part]);
}

/** True for what belongs to one kind of part. */
export function isSamePart(a: PartName, b: PartName): boolean {
  return a.part === b.part && a.layer === b.layer;
}

/** The kind of part that a key of {@link partKey} is of. */
export function partOfKey(key: string): PartName {
  const [layer, part] = JSON.parse(key) as [layer: string, part: string];
  return { layer, part };
}

/** True for a text that a kind of part is read from again. */
export function isPartKey(key: unknown): key is string {
  if (typeof key !== 'string') return false;
  try {
    const names: unknown = JSON.parse(key);
    return Array.isArray(names) && names.length === 2 && names.every((name) => typeof name === 'string');
  } catch {
    return false;
  }
}
