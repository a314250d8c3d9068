import type { Line, Ring } from '../geometry/shapes.ts';
import { plainText } from '../issues/plain-text.ts';
import { formatNumber } from './number.ts';

/**
 * A small builder of SVG: elements are plain data, every text and attribute is escaped when the tree is written,
 * every number leaves through {@link formatNumber}. Whatever a name contains, it ends up as text.
 */

/** The elements drawings are made of. */
export type SvgName =
  | 'svg'
  | 'g'
  | 'title'
  | 'desc'
  | 'path'
  | 'circle'
  | 'rect'
  | 'text'
  | 'defs'
  | 'clipPath';

/** Attributes by name; numbers are formatted, undefined ones are left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element of the tree. */
export interface WrittenElement {
  readonly name: SvgName;
  readonly attributes: Attributes;
  readonly children: readonly (WrittenElement | string)[];
}

/** An element with its attributes and children; a string child is text. */
export function element(
  name: SvgName,
  attributes: Attributes,
  children: readonly (WrittenElement | string)[] = [],
): WrittenElement {
  return { name, attributes, children };
}

/** A whole file: XML declaration and the element, indented so that a person can read and compare it. */
export function writeDocument(root: WrittenElement): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${writeElement(root)}\n`;
}

/** One element with everything in it. A text child keeps its element on one line, so no white space is added. */
export function writeElement({ name, attributes, children }: WrittenElement, indent = ''): string {
  const open = `${indent}<${name}${writeAttributes(attributes)}`;
  if (children.length === 0) return `${open}/>`;
  if (children.some((child) => typeof child === 'string')) {
    const inside = children.map((child) =>
      typeof child === 'string' ? escapeText(child) : writeElement(child),
    );
    return `${open}>${inside.join('')}</${name}>`;
  }
  const inside = children.map((child) =>
    typeof child === 'string' ? '' : writeElement(child, `${indent} `),
  );
  return `${open}>\n${inside.join('\n')}\n${indent}</${name}>`;
}

/** Attributes as they stand in a tag, each with a space before it. */
export function writeAttributes(attributes: Attributes): string {
  return Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(
      ([name, value]) => ` ${name}="${typeof value === 'number' ? formatNumber(value) : escapeText(value)}"`,
    )
    .join('');
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made safe for content and for quoted attributes of XML and HTML alike. */
export function escapeText(text: string): string {
  return plainText(text).replace(/[&<>"']/g, (character) => ENTITIES[character]);
}

/** Path data of an open line. */
export function linePath(line: Line): string {
  return line.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${formatNumber(x)} ${formatNumber(y)}`).join('');
}

/** Path data of rings, each closed. */
export function ringsPath(rings: readonly Ring[]): string {
  return rings
    .filter((ring) => ring.length > 0)
    .map((ring) => `${linePath(ring)}Z`)
    .join('');
}
