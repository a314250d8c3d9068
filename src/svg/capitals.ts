import { elementsInOrder, type SvgElement } from './element.ts';
import { kindOf } from './element-kinds.ts';
import type { IssueLog } from './issue-log.ts';
import { INHERITED, ONLY_IN_STYLE, OWN } from './properties.ts';

/**
 * Attributes in other capitals than SVG has them, such as a file has that was written or mended by hand: names are told
 * apart by their capitals in XML, so that none of them counts, and a shape loses its place or its outline.
 */

/** The attributes that the reader goes by, beside those that are style properties. */
const READ =
  'class clipPathUnits d height href id points preserveAspectRatio style viewBox width x x1 x2 y y1 y2'.split(
    ' ',
  );

const RIGHT_NAMES: ReadonlyMap<string, string> = new Map(
  [...READ, ...Object.keys(INHERITED), ...Object.keys(OWN)]
    .filter((name) => !ONLY_IN_STYLE.has(name))
    .map((name) => [name.toLowerCase(), name]),
);

/** Warns of each attribute whose name has wrong capitals, once for all elements that have it. */
export function reportCapitals(root: SvgElement, log: IssueLog): void {
  const found = new Map<string, { readonly first: SvgElement; readonly right: string; count: number }>();
  for (const element of elementsInOrder(root)) {
    if (!isDrawn(element)) continue;
    for (const name of element.attributes.keys()) {
      const right = RIGHT_NAMES.get(name.toLowerCase());
      if (right === undefined || right === name || element.attributes.has(right)) continue;
      const known = found.get(name);
      if (known === undefined) found.set(name, { first: element, right, count: 1 });
      else known.count++;
    }
  }
  for (const [name, { first, right, count }] of found) {
    const where = count === 1 ? '' : ` on ${count} elements, this one first`;
    log.warn('attribute-ignored', `${name} is ignored${where}: capitals count in SVG`, first, {
      expected: right,
      received: name,
      remedy: 'Write the capitals as they should be, or save the drawing again in the drawing program.',
    });
  }
}

/** True for elements that draw, or are drawn where they are used; text and the like are left out anyway. */
function isDrawn({ name }: SvgElement): boolean {
  const { kind } = kindOf(name);
  return kind === 'group' || kind === 'shape' || name === 'symbol' || name === 'clipPath';
}
