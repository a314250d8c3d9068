import type { Pattern } from './pattern.ts';
import { type PartName, partKey } from './same-part.ts';

/**
 * The parts of a pattern that a batch does not cut, in the order of the drawing: where some are cut again, what stands
 * in the results is of those and not of a whole piece.
 *
 * @param cut the kinds of parts that are in the batch
 */
export function notInBatch(pattern: Pattern, cut: readonly PartName[]): PartName[] {
  const known = new Set(cut.map(partKey));
  return pattern.layers
    .flatMap(({ name, parts }) => parts.map((part): PartName => ({ layer: name, part: part.name })))
    .filter((part) => !known.has(partKey(part)));
}

/** Parts by name; a layer of which none is in the batch by its own. */
export function namesNotInBatch(pattern: Pattern, left: readonly PartName[]): string[] {
  return pattern.layers.flatMap(({ name, parts }) => {
    const own = left.filter(({ layer }) => layer === name);
    return own.length > 0 && own.length === parts.length
      ? [`all of ${name}`]
      : own.map(({ layer, part }) => `${layer} ${part}`);
  });
}
