import type { Issue } from '../../issues/issue.ts';
import { withoutLetter } from '../../model/boards-to-take.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { sameSpecies } from '../../model/same-wood.ts';
import { blanksPerBoard } from '../../model/whole-board.ts';
import { breach, told } from './places.ts';

/**
 * Every single board of the stock is there once: it is used whole, or in strips, lengths and slices of which each is used once. Names
 * alone do not tell: `B-1` and `B-1a` differ, and may be the same wood.
 */

/** How a board or a blank is cut up, and the first board of the layout that says so. */
interface Use {
  /** Id of the board in the layout. */
  readonly by: string;
  /** Such as `in 3 strips`. */
  readonly how: string;
}

/** Checks that nothing is sawn twice, no board or blank both whole and in pieces, or cut up in two ways, and no entry of two woods. */
export function checkBoardUses({ boards }: Layout, breaches: Issue[]): void {
  checkEntryWoods(boards, breaches);
  const refuse = (board: string, expected: string, received: string) =>
    breaches.push(
      breach('board-used-twice', 'one piece of wood is used twice', { board }, { expected, received }),
    );
  const sawn = new Map<string, Use>();
  const cutUp = new Map<string, Use>();
  const resawn = new Map<string, Use>();
  boards.forEach((laid, n) => {
    const { id: by, pieces, slices = 1 } = laid;
    const blanks = blanksPerBoard(laid);
    const [cut, sliced] = [cutWords(laid), slices === 1 ? WHOLE : `in ${slices} slices`];
    // Boards of one id without names of their own are told by `checkNames`.
    const names = pieces ?? (boards.findIndex(({ id }) => id === by) === n ? [by] : []);
    for (const name of names) {
      // The letters of a name are those of the blank and of the slice, where there are such.
      const blank = slices > 1 ? withoutLetter(name) : name;
      const board = blanks > 1 ? withoutLetter(blank) : blank;
      const twice = sawn.get(name);
      const cutBefore = firstUse(cutUp, board, { by, how: cut });
      const resawnBefore = firstUse(resawn, blank, { by, how: sliced });
      sawn.set(name, { by, how: WHOLE });
      if (cutBefore.how !== cut)
        refuse(
          board,
          'a board whole, or in one number of strips and lengths',
          `${wayOf(cutBefore)}, ${wayOf({ by, how: cut })}`,
        );
      // Of boards cut in two ways, blanks of one letter are not the same wood.
      else if (resawnBefore.how !== sliced)
        refuse(
          blank,
          'a board or blank whole, or in one number of slices',
          `${wayOf(resawnBefore)}, ${wayOf({ by, how: sliced })}`,
        );
      else if (twice !== undefined)
        refuse(name, 'on one board of the layout', `on "${twice.by}" and "${by}"`);
    }
  });
}

/** Boards of one entry are of one species and thickness. */
function checkEntryWoods(boards: readonly LaidBoard[], breaches: Issue[]): void {
  const firstOf = new Map<string, LaidBoard>();
  for (const board of boards) {
    const { id, stock, species, thickness } = board;
    const first = firstOf.get(stock) ?? board;
    firstOf.set(stock, first);
    if (sameSpecies(first.species, species) && first.thickness === thickness) continue;
    breaches.push(
      breach(
        'setting-invalid',
        `boards of the entry "${stock}" are of two woods`,
        { board: id },
        {
          expected: `${first.species}, ${told(first.thickness)} mm, as "${first.id}"`,
          received: `${species}, ${told(thickness)} mm`,
        },
      ),
    );
  }
}

/** How a piece of wood is used first: as asked, unless another use of it was there before. */
function firstUse(uses: Map<string, Use>, name: string, use: Use): Use {
  const first = uses.get(name) ?? use;
  uses.set(name, first);
  return first;
}

function wayOf({ by, how }: Use): string {
  return `${how} as "${by}"`;
}

const WHOLE = 'whole';

function cutWords({ strips = 1, lengths = 1 }: LaidBoard): string {
  const cuts = [
    ...(strips > 1 ? [`in ${strips} strips`] : []),
    ...(lengths > 1 ? [`in ${lengths} lengths`] : []),
  ];
  return cuts.length === 0 ? WHOLE : cuts.join(' ');
}
