import type { Budget } from './budget.ts';

/**
 * Entities that a document declares for itself in its DOCTYPE, such as the namespace names some drawing programs
 * write as `&ns_svg;`. XML 1.0 (W3C, fifth edition), sections 4.2 to 4.5; only internal general entities, since
 * nothing outside the file is ever fetched.
 */

/** Most characters all entity references of a document may become together. */
const MOST_EXPANDED = 1_000_000;
/** Deepest chain of entities that name entities. */
const DEEPEST_CHAIN = 16;

const DECLARATION = /<!ENTITY\s+([^\s%"'&;<>]+)\s+(?:"([^"]*)"|'([^']*)')\s*>/g;
const REFERENCE = /&(?:#(\d{1,7})|#x([0-9a-fA-F]{1,6})|([^\s#&;]+));/g;

/** Thrown while expanding; the document reader turns it into an issue with line and column. */
export class EntityProblem extends Error {
  override readonly name = 'EntityProblem';
}

/**
 * Gives the parser's table of entities the ones a DOCTYPE declares. They are expanded only when used, and the
 * total is bounded, so that a bomb of nested entities costs nothing.
 *
 * @param doctype text between `<!DOCTYPE` and its `>`
 * @param table name to value; entries are added
 */
export function declareEntities(doctype: string, table: Record<string, string>): void {
  const declared = new Map<string, string>();
  for (const [, name, double, single] of withoutComments(doctype).matchAll(DECLARATION)) {
    // The first declaration binds (section 4.2), and the five of XML itself stay as they are.
    if (!declared.has(name) && !Object.hasOwn(table, name)) declared.set(name, double ?? single ?? '');
  }
  const budget = { left: MOST_EXPANDED };
  for (const [name, value] of declared) {
    Object.defineProperty(table, name, { get: () => expand(value, declared, budget, 0), enumerable: true });
  }
}

function withoutComments(doctype: string): string {
  const kept: string[] = [];
  let at = 0;
  for (let start = doctype.indexOf('<!--'); start >= 0; start = doctype.indexOf('<!--', at)) {
    kept.push(doctype.slice(at, start));
    const end = doctype.indexOf('-->', start + 4);
    if (end < 0) return kept.join('');
    at = end + 3;
  }
  kept.push(doctype.slice(at));
  return kept.join('');
}

function expand(value: string, declared: ReadonlyMap<string, string>, budget: Budget, depth: number): string {
  if (depth > DEEPEST_CHAIN) throw new EntityProblem('its entities refer to one another without end');
  // Taken before the text is built: a bomb of entities is stopped while it is still small.
  budget.left -= value.length;
  if (budget.left < 0) throw new EntityProblem('its entities grow beyond any drawing');
  // Markup in an entity would be read as plain text and so be lost without a word.
  if (value.includes('<')) throw new EntityProblem('an entity that holds elements is used');
  return value.replace(REFERENCE, (whole, decimal?: string, hexadecimal?: string, name?: string) => {
    if (name === undefined) {
      const code = decimal === undefined ? Number.parseInt(hexadecimal ?? '0', 16) : Number(decimal);
      return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
    }
    const inner = declared.get(name);
    return inner === undefined ? (PREDEFINED.get(name) ?? whole) : expand(inner, declared, budget, depth + 1);
  });
}

/** The five entities of XML itself (section 4.6). A map: a file may name `&constructor;`, which every object has. */
const PREDEFINED: ReadonlyMap<string, string> = new Map([
  ['lt', '<'],
  ['gt', '>'],
  ['amp', '&'],
  ['quot', '"'],
  ['apos', "'"],
]);
