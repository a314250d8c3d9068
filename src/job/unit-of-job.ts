import { isInInches, namesUnit, parseLength } from '../units/length.ts';

/**
 * A job that states no unit, with `in` where all lengths that it writes out are in inches or feet: whoever measures in inches reads
 * sheets in inches, and prints them on paper that is sold by the inch.
 *
 * @param json of a job that is not checked yet
 */
export function withUnit(json: unknown): unknown {
  if (typeof json !== 'object' || json === null || Array.isArray(json) || 'unit' in json) return json;
  const lengths = textsIn(json).filter((text) => namesUnit(text) && parseLength(text).ok);
  const unit = lengths.length > 0 && lengths.every(isInInches) ? 'in' : undefined;
  return unit === undefined ? json : { ...json, unit };
}

/** How deep a job holds lengths at most, as in the points of the defects of a board. */
const DEEPEST = 8;

function textsIn(value: unknown, depth = 0): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null || depth > DEEPEST) return [];
  return Object.values(value).flatMap((each) => textsIn(each, depth + 1));
}
