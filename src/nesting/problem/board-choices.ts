/** Which boards of a stock could do: every number of every kind, as far as there is time to look. */

/** Interchangeable boards. */
export interface BoardKind<T> {
  readonly members: readonly T[];
  /** What taking one costs. */
  readonly cost: number;
  /** What one holds, mm2. */
  readonly room: number;
}

/** Some boards of every kind. */
export interface BoardChoice<T> {
  readonly members: readonly T[];
  readonly cost: number;
  readonly room: number;
}

/** No layout of real parts fills more than this share of its boards: what asks for more is not tried. */
export const FULLEST = 0.985;

/** Choices looked at. */
const MOST_CHOICES = 2000;

/** Choices that cost less than `below` and hold at least `need` mm2, in no order that means anything. */
export function boardChoices<T>(
  kinds: readonly BoardKind<T>[],
  below: number,
  need: number,
): BoardChoice<T>[] {
  const choices: BoardChoice<T>[] = [];
  let looks = 0;
  const extend = (kind: number, chosen: readonly T[], spent: number, room: number): void => {
    if (looks++ > MOST_CHOICES) return;
    if (kind === kinds.length) {
      if (room >= need) choices.push({ members: chosen, cost: spent, room });
      return;
    }
    const { members, cost, room: one } = kinds[kind];
    for (let count = members.length; count >= 0; count--) {
      const total = spent + count * cost;
      if (total < below) extend(kind + 1, [...chosen, ...members.slice(0, count)], total, room + count * one);
    }
  };
  extend(0, [], 0, 0);
  return choices;
}
