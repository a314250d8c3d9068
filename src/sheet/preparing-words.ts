import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';
import { formatThickness } from '../units/distances.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/** A verb and its object. */
type Preparation = readonly [verb: string, object: string];

/** What is done to a board before its paper goes on, in the order it is done. */
export function preparingWords(board: LaidBoard, unit: DisplayUnit): readonly Preparation[] {
  return [...rippingWords(board, unit), ...thinningWords(board, unit)];
}

function rippingWords({ strips = 1, outline, usable }: LaidBoard, unit: DisplayUnit): Preparation[] {
  if (strips === 1) return [];
  const { minY, maxY } = boundsOf(outline ?? usable.outline);
  return [['rip', `into ${strips} strips ${formatLength(maxY - minY, unit)} wide`]];
}

function thinningWords({ planeTo, slices }: LaidBoard, unit: DisplayUnit): Preparation[] {
  if (planeTo === undefined) return [];
  const thickness = formatThickness(planeTo, unit);
  if (slices === undefined) return [['plane', `to ${thickness}`]];
  return slices > 1
    ? [['resaw', `into ${slices} slices, plane each to ${thickness}`]]
    : [['resaw', `the surplus off, plane to ${thickness}`]];
}
