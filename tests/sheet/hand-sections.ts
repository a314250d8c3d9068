import type { Line } from '../../src/geometry/shapes.ts';

/** Three sections of a board of 300 mm, 2 mm apart. */
export const SECTIONS = [
  { number: 1, from: 0, to: 99 },
  { number: 2, from: 101, to: 199 },
  { number: 3, from: 201, to: 300 },
] as const;

/** A cut along a board. */
export function rip(y: number, from: number, to: number): Line {
  return [
    [from, y],
    [to, y],
  ];
}
