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
/** Longest piece of an entity's name that a message repeats. */
const LONGEST_NAME = 40;

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
    const get = () => expand(name, value, { declared, budget, depth: 0 });
    Object.defineProperty(table, name, { get, enumerable: true });
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

/** What an entity is expanded with. */
interface Expansion {
  readonly declared: ReadonlyMap<string, string>;
  /** Characters that all entities of the document may still become. */
  readonly budget: Budget;
  /** How many entities led to this one. */
  readonly depth: number;
}

function expand(entity: string, value: string, expansion: Expansion): string {
  const { declared, budget, depth } = expansion;
  const named = `"&${entity.slice(0, LONGEST_NAME)};"`;
  if (depth > DEEPEST_CHAIN) {
    throw new EntityProblem(`${named} is reached through more than ${DEEPEST_CHAIN} other entities`);
  }
  // Taken before the text is built: a bomb of entities is stopped while it is still small.
  budget.left -= value.length;
  if (budget.left < 0) {
    throw new EntityProblem(
      `its entities become more than ${MOST_EXPANDED} characters, the last one ${named}`,
    );
  }
  // Markup in an entity would be read as plain text and so be lost without a word.
  if (value.includes('<')) throw new EntityProblem(`the entity ${named} is used and holds elements`);
  return value.replace(REFERENCE, (whole, decimal?: string, hexadecimal?: string, name?: string) => {
    if (name === undefined) {
      const code = decimal === undefined ? Number.parseInt(hexadecimal ?? '0', 16) : Number(decimal);
      return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
    }
    const inner = declared.get(name);
    return inner === undefined
      ? (PREDEFINED.get(name) ?? whole)
      : expand(name, inner, { ...expansion, depth: depth + 1 });
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
