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
