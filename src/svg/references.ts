import { elementsInOrder, hrefOf, type SvgElement } from './element.ts';

/** Elements by id; of two with one id the first in the document is meant. */
export function elementsById(root: SvgElement): ReadonlyMap<string, SvgElement> {
  const byId = new Map<string, SvgElement>();
  for (const element of elementsInOrder(root)) {
    const id = element.attributes.get('id');
    if (id !== undefined && !byId.has(id)) byId.set(id, element);
  }
  return byId;
}

/** What a `use` refers to, or in a few words why that is nothing. */
export type Target =
  | { readonly ok: true; readonly element: SvgElement }
  | { readonly ok: false; readonly problem: string };

/** The element that the reference of a `use` names; only places in the same file are looked at. */
export function targetOf(use: SvgElement, byId: ReadonlyMap<string, SvgElement>): Target {
  const href = hrefOf(use);
  if (href === undefined || href === '') return { ok: false, problem: 'it refers to nothing' };
  if (!href.startsWith('#')) return { ok: false, problem: 'it refers to another file, which is not read' };
  const element = elementNamed(href.slice(1), byId);
  return element === undefined
    ? { ok: false, problem: 'no element has the id it refers to' }
    : { ok: true, element };
}

/** The element that a reference names behind its `#`. */
export function elementNamed(name: string, byId: ReadonlyMap<string, SvgElement>): SvgElement | undefined {
  // As written first: an id may hold a percent sign, and only most programs write references as addresses.
  return byId.get(name) ?? byId.get(decoded(name));
}

/** A stray percent sign makes an address nobody can decode; the name is then meant as it stands. */
function decoded(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
