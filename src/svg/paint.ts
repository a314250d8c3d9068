import type { SvgElement } from './element.ts';
import { PAINT_SERVERS } from './element-kinds.ts';

/** What a `fill` or `stroke` comes to. SVG 2 section 13.2 "Specifying paint". */

const URL_PAINT = /^url\(\s*(["']?)#([^)"']*)\1\s*\)\s*(.*)$/i;
const HEX_CLEAR = /^#(?:[0-9a-f]{3}0|[0-9a-f]{6}00)$/i;
const FUNCTION_CLEAR = /^[a-z]+\((?:[^,()]+,){3}\s*0*\.?0*%?\s*\)$|^[a-z]+\([^,()]*\/\s*0*\.?0*%?\s*\)$/i;

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
  const url = URL_PAINT.exec(paint);
  if (url) {
    const server = definitions.get(url[2].trim());
    if (server !== undefined && PAINT_SERVERS.has(server.name)) return paint;
    // A missing gradient paints the colour written after it, or nothing.
    return url[3] === '' ? 'none' : visiblePaint(url[3], color, opacity, definitions);
  }
  const lower = paint.toLowerCase();
  if (lower === 'currentcolor') return isClear(color) ? 'none' : color;
  if (lower === 'context-fill' || lower === 'context-stroke' || lower.startsWith('url(')) return 'none';
  return isClear(lower) ? 'none' : paint;
}

/** An opacity as a number from 0 to 1; what cannot be read is 1. */
export function readOpacity(text: string): number {
  const share = text.endsWith('%');
  const value = Number(share ? text.slice(0, -1) : text) / (share ? 100 : 1);
  return Number.isFinite(value) && text.trim() !== '' ? Math.min(1, Math.max(0, value)) : 1;
}

function isClear(color: string): boolean {
  const lower = color.toLowerCase();
  return lower === 'none' || lower === 'transparent' || HEX_CLEAR.test(lower) || FUNCTION_CLEAR.test(lower);
}
