import type { Affine } from '../geometry/affine.ts';
import { ownValue, type Style } from './cascade.ts';
import type { SvgElement } from './element.ts';
import { type IssueLog, quote } from './issue-log.ts';
import { type LengthAxis, type LengthFrame, readLength } from './units.ts';

/** The lengths an element states, in user units; mistakes are reported where they stand and count as not stated. */

/** The element that states a length, what the length refers to, and where mistakes are told. */
export interface LengthSource {
  readonly element: SvgElement;
  readonly frame: LengthFrame;
  readonly log: IssueLog;
}

/** An element that states lengths in its style too, as most do. */
export interface StyledSource extends LengthSource {
  readonly style: Style;
}

/** A length in user units; undefined when it is mistaken. */
export function lengthOf(
  source: LengthSource,
  name: string,
  text: string,
  axis: LengthAxis,
): number | undefined {
  const reading = readLength(text, axis, source.frame);
  if (reading.ok) return reading.value;
  ignored(source, name, text, reading.problem);
  return undefined;
}

/** Like {@link lengthOf} for a width, height or radius in user units, which below 0 is mistaken too. */
export function sizeOf(
  source: LengthSource,
  name: string,
  text: string,
  axis: LengthAxis,
): number | undefined {
  const size = lengthOf(source, name, text, axis);
  if (size === undefined || size >= 0) return size;
  ignored(source, name, text, 'it is negative');
  return undefined;
}

/** The move, in user units, by the x and y of a `use`, a `symbol` or a nested `svg`. */
export function shiftOf(source: StyledSource): Affine {
  const x = lengthOf(source, 'x', ownValue(source.style, 'x'), 'x') ?? 0;
  const y = lengthOf(source, 'y', ownValue(source.style, 'y'), 'y') ?? 0;
  return [1, 0, 0, 1, x, y];
}

function ignored({ element, log }: LengthSource, name: string, text: string, problem: string): void {
  log.warn('length-ignored', `${name} is ignored: ${problem}`, element, { received: quote(text) });
}
