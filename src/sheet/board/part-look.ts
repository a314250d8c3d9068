import type { Finding } from '../../model/pattern-check.ts';

/** How parts are to be drawn. */
export interface PartLook {
  /**
   * Diameter of the drill for the holes where nothing is planned, mm: drawn as a ring where it has room. Left out, holes
   * are crosses without a ring.
   */
  readonly drill?: number | undefined;
  /**
   * Number of a kind of part in the report, by `partKey`: stands before names that do not print everywhere, or that are
   * alike in print.
   */
  readonly numbers?: ReadonlyMap<string, number> | undefined;
  /** What the check of the pattern found: necks that break easily are marked. */
  readonly findings?: readonly Finding[] | undefined;
  /**
   * `wide`: a broad band with a white line in it to saw along, for weak eyes; `bright`: an orange line for tissue or
   * film that dark wood shows through. Default `thin`.
   */
  readonly line?: 'thin' | 'wide' | 'bright' | undefined;
}
