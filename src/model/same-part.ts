/** One kind of part: its name is its own within its layer. */
export interface PartName {
  readonly layer: string;
  readonly part: string;
}

/** True for what belongs to one kind of part. */
export function isSamePart(a: PartName, b: PartName): boolean {
  return a.part === b.part && a.layer === b.layer;
}
