/** Which boards of a stock could do: every number of every kind, as far as there is time to look. */

/** Interchangeable boards. */
export interface BoardKind<T> {
  readonly members: readonly T[];
  /** What taking one costs. */
  readonly cost: number;
  /** What one holds, mm2. */
  readonly room: number;
}

/** Some boards of every kind. The boards are listed when they are asked for: ten thousand choices of hundreds take their time. */
export interface BoardChoice<T> {
  readonly members: readonly T[];
  readonly cost: number;
  readonly room: number;
}

/** No layout of real parts fills more than this share of its boards: what asks for more is not tried. */
export const FULLEST = 0.985;

/** Choices looked at. */
const MOST_LOOKS = 20_000;

/**
 * Choices that cost less than `below` and hold at least `need` mm2, in no order that means anything. Most of the kinds
 * that hold most for their cost come first: where there is no time for all, those that are left out hold less.
 */
export function boardChoices<T>(
  kinds: readonly BoardKind<T>[],
  below: number,
  need: number,
): BoardChoice<T>[] {
  const value = ({ cost, room }: BoardKind<T>) => room / Math.max(cost, Number.MIN_VALUE);
  const byValue = [...kinds].sort((a, b) => value(b) - value(a));
  const counts = byValue.map(() => 0);
  const choices: BoardChoice<T>[] = [];
  let looks = 0;
  const extend = (kind: number, cost: number, room: number): void => {
    if (looks++ > MOST_LOOKS) return;
    if (kind === byValue.length) {
      const numbers = counts.slice();
      choices.push({
        cost,
        room,
        get members() {
          return byValue.flatMap((one, i) => one.members.slice(0, numbers[i]));
        },
      });
      return;
    }
    const { members, cost: each, room: one } = byValue[kind];
    for (let count = members.length; count >= 0; count--) {
      const total = cost + count * each;
      if (total >= below) continue;
      const held = room + count * one;
      // Fewer of this kind leave money for others, which hold less for it.
      if (held + mostRoom(byValue, kind + 1, below - total) < need) break;
      counts[kind] = count;
      extend(kind + 1, total, held);
    }
  };
  extend(0, 0, 0);
  return choices;
}

/** What the kinds from number `first` on hold at most for some cost, parts of boards allowed, mm2; best value first. */
function mostRoom<T>(kinds: readonly BoardKind<T>[], first: number, cost: number): number {
  let room = 0;
  let left = cost;
  for (let kind = first; kind < kinds.length; kind++) {
    const { members, cost: each, room: one } = kinds[kind];
    const all = members.length * each;
    if (all > left) return room + (left / each) * one;
    left -= all;
    room += members.length * one;
  }
  return room;
}
