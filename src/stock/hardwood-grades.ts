import { MM_PER_UNIT } from '../units/length.ts';

/**
 * What a buyer of graded hardwood can count on: the least board of each grade, and the standard lengths.
 *
 * Hardwood is sold in random widths and lengths; the rules only set the least of each. Source of the least boards:
 * rules of the National Hardwood Lumber Association as summed up by the American Hardwood Export Council, "Summary of
 * US hardwood lumber grades" (for kiln-dried lumber the rules allow 1/2 in less width for shrinkage). Standard lengths
 * of 4 to 16 ft in whole feet: the same rules, from memory.
 */
const LEAST_BOARD_OF_GRADE = {
  FAS: { inchesWide: 6, feetLong: 8 },
  'FAS One Face': { inchesWide: 6, feetLong: 8 },
  Selects: { inchesWide: 4, feetLong: 6 },
  'No. 1 Common': { inchesWide: 3, feetLong: 4 },
  'No. 2A Common': { inchesWide: 3, feetLong: 4 },
} as const;

/** A grade of the table. */
export type HardwoodGrade = keyof typeof LEAST_BOARD_OF_GRADE;

/** Names of the grades, best first. */
export const HARDWOOD_GRADES = Object.keys(LEAST_BOARD_OF_GRADE) as [HardwoodGrade, ...HardwoodGrade[]];

/** Longest standard length, ft. */
const LONGEST_FEET = 16;

/** Feet between the lengths that are looked at: odd lengths are rarer. */
const FEET_STEP = 2;

/** A board of a grade: its least width and one of the standard lengths. */
export interface GradedBoard {
  readonly feet: number;
  /** mm */
  readonly length: number;
  readonly width: number;
}

/** The boards a buyer of a grade can count on: its least width, in every even length from its least up. */
export function boardsOfGrade(grade: HardwoodGrade): GradedBoard[] {
  const { inchesWide, feetLong } = LEAST_BOARD_OF_GRADE[grade];
  return Array.from({ length: (LONGEST_FEET - feetLong) / FEET_STEP + 1 }, (_, i) => {
    const feet = feetLong + i * FEET_STEP;
    return { feet, length: feet * MM_PER_UNIT.ft, width: inchesWide * MM_PER_UNIT.in };
  });
}
