import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/** What is done to a board before its paper goes on, in the order it is done: each as a verb and its object. */
export function preparingWords(
  { strips = 1, planeTo, slices, outline, usable }: LaidBoard,
  unit: DisplayUnit,
): readonly (readonly [verb: string, object: string])[] {
  const { minY, maxY } = boundsOf(outline ?? usable.outline);
  const thickness = planeTo === undefined ? '' : formatLength(planeTo, unit, 2);
  return [
    ...(strips > 1
      ? [['rip', `into ${strips} strips ${formatLength(maxY - minY, unit)} wide`] as const]
      : []),
    ...(planeTo === undefined
      ? []
      : slices === undefined
        ? [['plane', `to ${thickness}`] as const]
        : slices > 1
          ? [['resaw', `into ${slices} slices, plane each to ${thickness}`] as const]
          : [['resaw', `the surplus off, plane to ${thickness}`] as const]),
  ];
}
