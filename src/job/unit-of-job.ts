import { isRecord } from '../issues/checks.ts';
import { isInInches, namesUnit, parseLength } from '../units/length.ts';
import { jobSchema } from './job-schema.ts';
import { formsOf, type SchemaNode, schemaNode, stepsInto } from './known-fields.ts';

/**
 * A job that states no unit, with `in` where all its lengths are in inches or feet: whoever measures in inches reads sheets in
 * inches, and prints them on paper that is sold by the inch. A plain number is a length in mm.
 *
 * @param json of a job that is not checked yet
 */
export function withUnit(json: unknown): unknown {
  if (!isRecord(json) || 'unit' in json) return json;
  const lengths = lengthsIn(json, [schemaNode(jobSchema)]);
  const isInchJob =
    lengths.length > 0 && lengths.every((each) => typeof each === 'string' && isInInches(each));
  return isInchJob ? { ...json, unit: 'in' } : json;
}

/** What is written for lengths, as far as it tells a unit: `4/4` and `clean` do not, and 0 is the same in all of them. */
function lengthsIn(value: unknown, nodes: readonly SchemaNode[]): (string | number)[] {
  const forms = nodes.flatMap(formsOf);
  if (typeof value === 'string' || typeof value === 'number') {
    const isLength = forms.some(({ type }) => Array.isArray(type) && type.includes('number'));
    return isLength && value !== 0 && (typeof value === 'number' || hasUnit(value)) ? [value] : [];
  }
  if (typeof value !== 'object' || value === null || forms.length === 0) return [];
  return Object.entries(value).flatMap(([name, each]) => {
    const key = Array.isArray(value) ? Number(name) : name;
    return lengthsIn(
      each,
      forms.flatMap((form) => stepsInto(form, key)),
    );
  });
}

function hasUnit(text: string): boolean {
  return namesUnit(text) && parseLength(text).ok;
}
