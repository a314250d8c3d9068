import { listOf, record, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Pattern } from './pattern.ts';
import { type PartName, partKey } from './same-part.ts';

/**
 * The parts of a pattern that a batch does not cut, in the order of the drawing: where some are cut again, what stands
 * in the results is of those and not of a whole piece.
 *
 * @param cut the kinds of parts that are in the batch
 * @throws FretlayError for what is no pattern, or names no parts
 */
export function notInBatch(pattern: Pattern, cut: readonly PartName[]): PartName[] {
  throwOnErrors([...patternNames('pattern', pattern), ...partNames('cut', cut)]);
  const known = new Set(cut.map(partKey));
  return pattern.layers
    .flatMap(({ name, parts }) => parts.map((part): PartName => ({ layer: name, part: part.name })))
    .filter((part) => !known.has(partKey(part)));
}

const patternNames = record(
  { layers: listOf(record({ name: words(), parts: listOf(record({ name: words() })) })) },
  'Hand in the pattern of `readPattern`.',
);

const partNames = listOf(record({ layer: words(), part: words() }), 'Name the layer and the part of each.');

/** Parts by name; a layer of which none is in the batch by its own. */
export function namesNotInBatch(pattern: Pattern, left: readonly PartName[]): string[] {
  return pattern.layers.flatMap(({ name, parts }) => {
    const own = left.filter(({ layer }) => layer === name);
    return own.length > 0 && own.length === parts.length
      ? [`all of ${name}`]
      : own.map(({ layer, part }) => `${layer} ${part}`);
  });
}
