import type { Affine } from '../geometry/affine.ts';
import { readNumberList } from './number-scanner.ts';

/** An upright box in user units, as SVG writes one: its upper left corner and its sides. */
export interface UserBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The part of user space that a viewport shows. */
export type ViewBox = UserBox;

/** A viewBox as read: absent, mistaken, or with a side of zero, which paints nothing (SVG 2 section 8.6). */
export type ViewBoxReading =
  | { readonly kind: 'box'; readonly box: ViewBox }
  | { readonly kind: 'none' }
  | { readonly kind: 'mistaken' }
  | { readonly kind: 'empty' };

/** Reads a `viewBox` attribute. */
export function readViewBox(text: string | undefined): ViewBoxReading {
  if (text === undefined) return { kind: 'none' };
  const numbers = readNumberList(text);
  if (numbers?.length !== 4) return { kind: 'mistaken' };
  const [x, y, width, height] = numbers;
  if (width < 0 || height < 0) return { kind: 'mistaken' };
  if (width === 0 || height === 0) return { kind: 'empty' };
  return { kind: 'box', box: { x, y, width, height } };
}

const PRESERVE = /^(?:defer\s+)?(none|x(Min|Mid|Max)Y(Min|Mid|Max))(?:\s+(meet|slice))?$/;
const SHARE: Readonly<Record<string, number>> = { Min: 0, Mid: 0.5, Max: 1 };

/**
 * The map from user units of a viewBox to a viewport of the given size at the origin: SVG 2 section 8.2 "Computing
 * the equivalent transform of an SVG viewport". Undefined when `preserveAspectRatio` is mistaken.
 *
 *     +-----------------+  viewport; with `meet` the box is scaled by the
 *     |    |       |    |  smaller of the two ratios and fits, and what is
 *     |    |  box  |    |  left goes to either side by `xMid`; with `slice`
 *     |    |       |    |  by the larger, and the box reaches beyond
 *     +-----------------+
 */
export function viewBoxMap(
  box: ViewBox,
  width: number,
  height: number,
  preserveAspectRatio = 'xMidYMid meet',
): Affine | undefined {
  const match = PRESERVE.exec(preserveAspectRatio.trim());
  if (!match) return undefined;
  const [, align, alignX, alignY, fit] = match;
  let sx = width / box.width;
  let sy = height / box.height;
  if (align === 'none') return [sx, 0, 0, sy, -box.x * sx, -box.y * sy];
  sx = sy = fit === 'slice' ? Math.max(sx, sy) : Math.min(sx, sy);
  const dx = (width - box.width * sx) * SHARE[alignX];
  const dy = (height - box.height * sy) * SHARE[alignY];
  return [sx, 0, 0, sy, dx - box.x * sx, dy - box.y * sy];
}
