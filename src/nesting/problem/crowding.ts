import { areaAbove, type Chords, widthAbove } from './chords.ts';

/**
 * What parts take of the lines across a board, counted in ways that no line can hold more than 1 of (dual feasible
 * functions: Lueker 1983; Fekete, Schepers 2001). By plain length this is their area. But where two chords of more than
 * half of the board's width are no less than two lines' worth, the waste beside them that nothing can fill is counted too.
 */
export interface Crowding {
  /** What all the lines across a part count together, mm, on a board that is `width` mm wide. */
  readonly of: (chords: Chords, width: number) => number;
  /** The most that one line across a board counts, of which the width is this share of the widest board's: 0 to 1. */
  readonly most: (share: number) => number;
}

/** Chords are taken for shorter by this, mm: two halves of a board fit it also after rounding. */
const SLACK = 0.05;

/** Shares of the width below which a chord counts nothing while one that leaves no more than that counts as all of it. */
const CUTOFFS = Array.from({ length: 25 }, (_, i) => (i + 1) / 50);

/** Most chords side by side that are told apart by number. */
const MOST_BESIDE = 8;

/** All ways of counting, plain length first. */
export const CROWDINGS: readonly Crowding[] = [
  ...[0, ...CUTOFFS].map(byLength),
  ...Array.from({ length: MOST_BESIDE }, (_, i) => byNumber(i + 1)),
];

/** A chord counts by its length, one of less than the cutoff nothing, one that leaves less than that all of the line. */
function byLength(cutoff: number): Crowding {
  return {
    of: (chords, width) => {
      const long = (1 - cutoff) * width + SLACK;
      return (
        (areaAbove(chords, cutoff * width + SLACK) - areaAbove(chords, long)) / width +
        widthAbove(chords, long)
      );
    },
    most: (share) => {
      if (share < cutoff - SMALL) return 0;
      return share > 1 - cutoff - SMALL ? 1 : share;
    },
  };
}

/** A chord counts how many times it is longer than the line parted in one more than `beside`. */
function byNumber(beside: number): Crowding {
  const parts = Array.from({ length: beside }, (_, i) => (i + 1) / (beside + 1));
  return {
    of: (chords, width) =>
      parts.reduce((sum, share) => sum + widthAbove(chords, share * width + SLACK), 0) / beside,
    most: (share) => parts.filter((part) => share > part - SMALL).length / beside,
  };
}

/** Rounding of a share: never in favour of the bound. */
const SMALL = 1e-6;
