/**
 * Standard sizes of sheet goods, mm, along the face grain by across it.
 *
 * Sources: Baltic birch 1525 x 1525 mm ("5x5", 60.04 in) and 1220 x 2440 mm as dealers list it; its true
 * thicknesses 3, 4, 6, 6.5, 9, 12, 15 and 18 mm are what is measured, the inch names are nominal.
 */
export const SHEET_SIZES = {
  '5x5': [1525, 1525],
  '4x8': [2440, 1220],
} as const;

/** Name of a standard sheet. */
export type SheetName = keyof typeof SHEET_SIZES;
