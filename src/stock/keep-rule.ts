import type { KeepRule } from '../model/batch.ts';

/** What is kept and how a board is parted when a batch does not say. */

/** An offcut is kept when a piece of 8 x 3 in fits in it: common practice in hardwood, no source. */
export const USUAL_KEEP: KeepRule = { length: 203.2, width: 76.2 };

/** Width of a straight saw cut, mm: 1/8 in, a circular saw; common practice, no source. */
export const USUAL_CROSSCUT_KERF = 3.175;

/** Widest straight saw cut, mm: 1/2 in; from memory, no saw for boards takes more. */
export const WIDEST_CROSSCUT_KERF = 12.7;
