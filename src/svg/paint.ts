import type { DrawingShape } from '../model/drawing.ts';
import { ownValue, type Style } from './cascade.ts';
import { hrefOf, type SvgElement } from './element.ts';
import { PAINT_SERVERS } from './element-kinds.ts';
import { elementNamed } from './references.ts';

/** What a `fill` or `stroke` comes to. SVG 2 section 13.2 "Specifying paint". */

const HEX_CLEAR = /^#(?:[0-9a-f]{3}0|[0-9a-f]{6}00)$/;

/**
 * The colour that is painted, as written, or `none` when nothing shows.
 *
 * @param paint value of fill or stroke
 * @param color value of the property `color`, which `currentColor` stands for
 * @param opacity value of fill-opacity or stroke-opacity
 * @param definitions elements by id, to see whether a gradient exists
 */
export function visiblePaint(
  paint: string,
  color: string,
  opacity: string,
  definitions: ReadonlyMap<string, SvgElement>,
): string {
  if (readOpacity(opacity) === 0) return 'none';
  const reference = paintReference(paint);
  if (reference !== undefined) {
    const server = elementNamed(reference.id, definitions);
    if (server !== undefined && PAINT_SERVERS.has(server.name)) {
      return hasStops(server, definitions) ? paint : 'none';
    }
    // A missing gradient paints the colour written after it, or nothing.
    return visiblePaint(reference.otherwise || 'none', color, opacity, definitions);
  }
  // The colour is given back as written: it only has to be told from other colours, not painted.
  const lower = paint.toLowerCase();
  if (lower === 'currentcolor') return isClear(color) ? 'none' : color;
  // Both take the paint of what a marker is drawn on, and markers are left out.
  if (lower === 'context-fill' || lower === 'context-stroke') return 'none';
  return isClear(lower) ? 'none' : paint;
}

/** False when the element and all in it are switched off or fully transparent. */
export function isPainted(style: Style): boolean {
  return isDisplayed(style) && !isTransparent(style);
}

/** True when the element and all in it are fully transparent. */
export function isTransparent(style: Style): boolean {
  return readOpacity(ownValue(style, 'opacity')) === 0;
}

/** False when the element and all in it are switched off; clear ones still clip (CSS Masking 1, 5.1) and have a box. */
export function isDisplayed(style: Style): boolean {
  return ownValue(style, 'display').toLowerCase() !== 'none';
}

/** False for what `visibility` hides; unlike `display` it may be switched on again further in. */
export function isVisible({ inherited }: Style): boolean {
  return inherited.visibility.toLowerCase() === 'visible';
}

/** The rule that a `fill-rule` or `clip-rule` names. CSS keywords may be written in capitals. */
export function fillRuleOf(value: string): DrawingShape['fillRule'] {
  return value.toLowerCase() === 'evenodd' ? 'evenodd' : 'nonzero';
}

/** An opacity as a fraction, 0 clear to 1 solid; what cannot be read is 1, the initial value. */
function readOpacity(text: string): number {
  const share = text.endsWith('%');
  const value = Number(share ? text.slice(0, -1) : text) / (share ? 100 : 1);
  return Number.isFinite(value) && text.trim() !== '' ? Math.min(1, Math.max(0, value)) : 1;
}

/** Longest chain of gradients that take their stops from one another. */
const LONGEST_CHAIN = 20;

/** False for a gradient without stops of its own or of the one it refers to: it paints nothing (section 14.2.4). */
function hasStops(server: SvgElement, definitions: ReadonlyMap<string, SvgElement>): boolean {
  let gradient: SvgElement | undefined = server;
  for (let i = 0; i < LONGEST_CHAIN && gradient !== undefined; i++) {
    if (!gradient.name.endsWith('Gradient')) return true;
    if (gradient.children.some(({ name }) => name === 'stop')) return true;
    gradient = elementNamed(hrefOf(gradient)?.slice(1) ?? '', definitions);
  }
  return false;
}

/** The id in a paint such as `url(#sky) blue`, and the colour after it. */
function paintReference(paint: string): { readonly id: string; readonly otherwise: string } | undefined {
  const end = paint.indexOf(')');
  if (!/^url\(/i.test(paint) || end < 0) return undefined;
  const address = paint
    .slice(4, end)
    .trim()
    .replace(/^["']|["']$/g, '');
  return { id: address.startsWith('#') ? address.slice(1) : '', otherwise: paint.slice(end + 1).trim() };
}

function isClear(color: string): boolean {
  const lower = color.trim().toLowerCase();
  return lower === 'none' || lower === 'transparent' || HEX_CLEAR.test(lower) || functionAlpha(lower) === 0;
}

/** Alpha of `rgba(0, 0, 0, 0)` or `rgb(0 0 0 / 0%)`: what follows the slash or the third comma; else 1. */
function functionAlpha(color: string): number {
  const open = color.indexOf('(');
  if (open < 0 || !color.endsWith(')')) return 1;
  const inner = color.slice(open + 1, -1);
  const slash = inner.lastIndexOf('/');
  if (slash >= 0) return readOpacity(inner.slice(slash + 1).trim());
  const parts = inner.split(',');
  return parts.length === 4 ? readOpacity(parts[3].trim()) : 1;
}
