import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { type ThicknessFit, thicknessFit } from './thickness.ts';

/** Which boards of the stock give wood of a species and thickness, and what has to be done to them. */

/** A board that gives the wood asked for. */
export interface Candidate {
  readonly board: Board;
  readonly fit: Exclude<ThicknessFit, { work: 'refused' }>;
}

/**
 * The boards of a wood, thickness and tolerance in mm: those of the thickness asked for when there are any, else those
 * a little thicker, to be planed, else the thick ones, to be resawn. So a board is never thinned while one lies there
 * that need not be.
 */
export function candidatesFor(
  boards: readonly Board[],
  species: string,
  thickness: number,
  tolerance: number,
): Candidate[] {
  const fits = boards
    .filter((board) => sameSpecies(board.species, species))
    .flatMap((board): Candidate[] => {
      const fit = thicknessFit(board.thickness, thickness, tolerance);
      return fit.work === 'refused' ? [] : [{ board, fit }];
    });
  for (const work of ['none', 'plane', 'resaw'] as const) {
    const usable = fits.filter(({ fit }) => fit.work === work);
    if (usable.length > 0) return usable;
  }
  return [];
}
