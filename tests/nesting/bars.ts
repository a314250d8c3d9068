import { containerFrom, type ProblemSpec } from '../../src/nesting/problem/problem-spec.ts';
import { rectangle } from '../rectangle.ts';

/** Width of the bars and of their boards, mm. */
export const WIDTH = 20;

/** Bars as wide as the boards, some of every length, on boards of some lengths, all without a gap. */
export function bars(
  lengths: readonly (readonly [length: number, copies: number])[],
  boards: readonly (readonly [length: number, cost: number])[],
): ProblemSpec {
  const region = (length: number) => ({ outline: rectangle(length, WIDTH), openings: [] });
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = lengths.map(([length, copies]) => {
    return { region: region(length), lies, stands: false, copies, perSet: 1 };
  });
  const containers = boards.map(([length, cost]) => containerFrom(region(length), cost, length));
  return { shapes, containers, gap: 0, margin: 0 };
}

/** Kinds of boards, six of each at hand. */
export const KINDS = [
  [102, 10, 6],
  [78, 7, 6],
] as const;

/** The boards of these kinds. */
export const BOARDS = KINDS.flatMap(([length, cost, number]) =>
  Array.from({ length: number }, () => [length, cost] as const),
);

/** Bars that lie on cheaper boards of these than they come to copy by copy. */
export const TO_IMPROVE = bars(
  [
    [40, 3],
    [35, 6],
    [55, 4],
    [39, 5],
  ],
  BOARDS,
);
