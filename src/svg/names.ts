import { prefixedAttribute, type SvgElement, typedName } from './element.ts';

/**
 * What drawing programs write beside SVG about names and layers. Their namespaces differ, so attributes are taken
 * under any prefix.
 */

/** The name a person gave an element in the drawing program, or undefined. */
export function labelOf(element: SvgElement): string | undefined {
  const title = element.children.find(({ name }) => name === 'title')?.text;
  // What a person typed comes first; a tooltip or an id is a name only for want of one.
  const candidates = [
    typedName(element),
    element.attributes.get('aria-label'),
    title,
    unescapedId(element.attributes.get('id')),
  ];
  return candidates.map((name) => name?.trim().replace(/\s+/g, ' ')).find((name) => name);
}

/** True when the drawing program marks the group as a layer: `groupmode="layer"` or `layer="yes"`. */
export function isLayer(element: SvgElement): boolean {
  return prefixedAttribute(element, 'groupmode') === 'layer' || prefixedAttribute(element, 'layer') === 'yes';
}

/** True when the drawing program keeps the element from being edited. */
export function isLocked(element: SvgElement): boolean {
  return (
    prefixedAttribute(element, 'insensitive') === 'true' || element.attributes.get('data-lock') === 'true'
  );
}

/**
 * An id that holds a name with its special characters written as `_x0020_`; undefined for every other id, which
 * is no name.
 */
function unescapedId(id: string | undefined): string | undefined {
  if (id === undefined || !/_x[0-9A-Fa-f]{2,4}_/.test(id)) return undefined;
  return id.replace(/_x([0-9A-Fa-f]{2,4})_/g, (_, code: string) =>
    String.fromCharCode(Number.parseInt(code, 16)),
  );
}
