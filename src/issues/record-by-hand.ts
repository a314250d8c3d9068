import { type Check, isRecord, record } from './checks.ts';
import type { Issue } from './issue.ts';
import { nearestName, surelyMeant } from './nearest-name.ts';

/**
 * Records that people write: a batch, options, rates. A misspelt name in one is a field left out, and what it was to say is
 * passed over in silence; a compiler tells it only where the record is written out in place.
 *
 * Not every unknown field is refused, as in a job file. The records of a program may be wider than ours, which TypeScript
 * allows: a board with the shelf it lies on, a product with its `stock` spread into a demand, options handed on. So only that
 * is refused which is nearly the name of a field left out, in a plain object, with a value such as that field may have. And
 * where the field may be left out, the name must hardly be a word of its own, for nothing else would have been amiss.
 */

/** Share of a name that may be mistyped where the field that is meant is missing, so that the record is refused anyway. */
const SLIP = 0.25;

type Checks = Readonly<Record<string, Check>>;

/** A record whose fields pass their checks, none of which is left out because it is misspelt. */
export function recordByHand(checks: Checks, remedy?: string): Check {
  const fields = record(checks, remedy);
  const slips = misspelt(checks);
  return (field, value) => {
    const found = slips(field, value);
    if (found.length === 0) return fields(field, value);
    // What is missing because it is misspelt is told once, by the name it has.
    const meant = new Set(found.map(({ expected }) => `${field}.${JSON.parse(expected ?? '""')}`));
    return [...found, ...fields(field, value).filter(({ where }) => !meant.has(where?.field ?? ''))];
  };
}

/** The fields of a record that are misspelt ones of these; what the others hold is not looked at. */
export function misspelt(checks: Checks): Check {
  const names = Object.keys(checks);
  return (field, value) => {
    if (!isPlain(value)) return [];
    const lacking = names.filter((name) => value[name] === undefined);
    if (lacking.length === 0) return [];
    const needed = lacking.filter((name) => checks[name](field, undefined).length > 0);
    return Object.keys(value).flatMap((name): Issue[] => {
      if (Object.hasOwn(checks, name) || value[name] === undefined) return [];
      const meant = surelyMeant(name, lacking) ?? nearestName(name, needed, SLIP);
      const place = `${field}.${name}`;
      // A value that the field could not have is another thing of a like name: a text is no number of boards, and the
      // plans of all boards are not the plan of one.
      if (meant === undefined || checks[meant](place, value[name]).length > 0) return [];
      return [
        {
          kind: 'option-invalid',
          severity: 'error',
          message: `there is no such field; did you mean "${meant}"?`,
          expected: `"${meant}"`,
          received: `"${name}"`,
          remedy: 'Write it so, or give what is your own another name.',
          where: { field: place },
        },
      ];
    });
  };
}

/** Written out, or made from what was: the fields of a class are its own affair. By its form, for one of another realm. */
function isPlain(value: unknown): value is Readonly<Record<string, unknown>> {
  if (!isRecord(value)) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype) === null;
}
