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
 * The boards that give wood of a species and thickness (mm, give or take the tolerance), by what has to be done to them:
 * those of the thickness asked for, those a little thicker, to be planed, and the thick ones, to be resawn; sheets are
 * taken as they are or not at all. Steps of which there is no board are left out.
 */
export function woodSteps(
  boards: readonly Board[],
  species: string,
  thickness: number,
  tolerance: number,
): Candidate[][] {
  const fits = boards
    .filter((board) => sameSpecies(board.species, species))
    .flatMap((board): Candidate[] => {
      const fit = thicknessFit(board.thickness, thickness, tolerance);
      // Planing a sheet would take its face off, and resawing leave half the plies (common practice, no source).
      const isRefused = fit.work === 'refused' || (board.sheet === true && fit.work !== 'none');
      return isRefused ? [] : [{ board, fit }];
    });
  return (['none', 'plane', 'resaw'] as const)
    .map((work) => fits.filter(({ fit }) => fit.work === work))
    .filter((step) => step.length > 0);
}

/** The boards of a wood that ask for least work: none is thinned while one lies there that need not be. */
export function candidatesFor(...wood: Parameters<typeof woodSteps>): Candidate[] {
  return woodSteps(...wood)[0] ?? [];
}
