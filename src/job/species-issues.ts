import type { Issue } from '../issues/issue.ts';
import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { woodMeant } from './wood-meant.ts';

/**
 * A warning for every species of boards that no layer is cut from and that is nearly the name of one that some layer is, or
 * another name of it. Such boards are passed over, and others bought, without anything being wrong with the layout. A rack holds many woods
 * that a job does not ask for, so only a likely slip of the hand is told.
 *
 * @param boards at hand and for sale
 * @param woods species of the layers
 */
export function speciesIssues(
  boards: readonly Pick<Board, 'id' | 'species'>[],
  woods: readonly string[],
  file: string,
): Issue[] {
  const idle = boards.filter(({ species }) => !woods.some((wood) => sameSpecies(wood, species)));
  const first = idle.filter(
    ({ species }, i) => idle.findIndex((other) => sameSpecies(other.species, species)) === i,
  );
  return first.flatMap(({ id, species }): Issue[] => {
    const meant = woodMeant(species, woods);
    if (meant === undefined) return [];
    const others = idle.filter((board) => board.id !== id && sameSpecies(board.species, species)).length;
    return [
      {
        kind: 'species-unlikely',
        severity: 'warning',
        message: `no layer of this job is cut from this wood, so the board is left aside${others === 0 ? '' : `, and ${others} more of it`}; did you mean "${meant}"?`,
        received: `"${species}"`,
        remedy: 'Write the wood of the board as the layer does; if it is another wood, leave it.',
        where: { file, board: id },
      },
    ];
  });
}
