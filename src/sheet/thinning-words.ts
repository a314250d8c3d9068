import type { LaidBoard } from '../model/layout.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/** What is done to a board before its paper goes on, as a verb and its object; undefined when it is thin enough. */
export function thinningWords(
  { planeTo, slices = 1 }: Pick<LaidBoard, 'planeTo' | 'slices'>,
  unit: DisplayUnit,
): readonly [verb: string, object: string] | undefined {
  if (planeTo === undefined) return undefined;
  const measure = formatLength(planeTo, unit, 2);
  return slices > 1
    ? ['resaw', `into ${slices} slices, plane each to ${measure}`]
    : ['plane', `to ${measure}`];
}
