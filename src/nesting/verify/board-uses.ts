import type { Issue } from '../../issues/issue.ts';
import { withoutLetter } from '../../model/boards-to-take.ts';
import type { Layout } from '../../model/layout.ts';
import { sameSpecies } from '../../model/same-wood.ts';
import { breach, told } from './places.ts';

/**
 * Every single board of the stock is there once: it is used whole, or in strips and slices of which each is used once. Names
 * alone do not tell: `B-1` and `B-1a` differ, and may be the same wood.
 */

/** How a board or a strip is cut up, and the first board of the layout that says so. */
interface Use {
  /** Id of the board in the layout. */
  readonly by: string;
  /** Number of strips or slices; 1 where it stays whole. */
  readonly parts: number;
}

/** Checks that nothing is sawn twice, no board or strip both whole and in pieces, or cut up in two ways, and no entry of two woods. */
export function checkBoardUses({ boards }: Layout, breaches: Issue[]): void {
  const sawn = new Map<string, Use>();
  const ripped = new Map<string, Use>();
  const resawn = new Map<string, Use>();
  const refuse = (board: string, expected: string, received: string) =>
    breaches.push(
      breach('board-used-twice', 'one piece of wood is used twice', { board }, { expected, received }),
    );
  for (const { id, stock, species, thickness } of boards) {
    const first = boards.find((board) => board.stock === stock);
    if (first === undefined || (sameSpecies(first.species, species) && first.thickness === thickness))
      continue;
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
  boards.forEach(({ id: by, pieces, strips = 1, slices = 1 }, n) => {
    // Boards of one id without names of their own are told by `checkNames`.
    const names = pieces ?? (boards.findIndex(({ id }) => id === by) === n ? [by] : []);
    for (const name of names) {
      // The letters of a name are those of the strip and of the slice, where there are such.
      const strip = slices > 1 ? withoutLetter(name) : name;
      const board = strips > 1 ? withoutLetter(strip) : strip;
      const twice = sawn.get(name);
      const rippedBefore = firstUse(ripped, board, { by, parts: strips });
      const resawnBefore = firstUse(resawn, strip, { by, parts: slices });
      sawn.set(name, { by, parts: 1 });
      if (rippedBefore.parts !== strips)
        refuse(
          board,
          'a board whole, or in one number of strips',
          `${ways(rippedBefore, 'strips')}, ${ways({ by, parts: strips }, 'strips')}`,
        );
      // Of boards ripped in two ways, strips of one letter are not the same wood.
      else if (resawnBefore.parts !== slices)
        refuse(
          strip,
          'a board or strip whole, or in one number of slices',
          `${ways(resawnBefore, 'slices')}, ${ways({ by, parts: slices }, 'slices')}`,
        );
      else if (twice !== undefined)
        refuse(name, 'on one board of the layout', `on "${twice.by}" and "${by}"`);
    }
  });
}

/** How a piece of wood is used first: as asked, unless another use of it was there before. */
function firstUse(uses: Map<string, Use>, name: string, use: Use): Use {
  const first = uses.get(name) ?? use;
  uses.set(name, first);
  return first;
}

function ways({ by, parts }: Use, what: 'strips' | 'slices'): string {
  return `${parts === 1 ? 'whole' : `in ${parts} ${what}`} as "${by}"`;
}
