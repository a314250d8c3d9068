import { type DisplayUnit, formatLength, MM_PER_UNIT } from './length.ts';

/** A long length in mm for people, such as what a blade travels: metres, or feet. */
export function formatTravel(mm: number, unit: DisplayUnit): string {
  return unit === 'mm' ? `${(mm / MM_PER_UNIT.m).toFixed(2)} m` : `${(mm / MM_PER_UNIT.ft).toFixed(1)} ft`;
}

/**
 * A thin length in mm for people, a kerf or a gap: hundredths of a millimetre, or thousandths of an inch. Fractions to
 * 1/32 in would tell most blades alike.
 */
export function formatThin(mm: number, unit: DisplayUnit): string {
  const [value, digits] = unit === 'mm' ? [mm, 2] : [mm / MM_PER_UNIT.in, 3];
  return `${value.toFixed(digits).replace(/\.?0+$/, '')} ${unit}`;
}

/** A thickness stated to a hundredth of a millimetre may be off by this, mm: 20.64 mm is meant for 13/16 in, 20.6375 mm. */
const HAIR = 0.005 + 1e-9;
const THIRTY_SECOND = MM_PER_UNIT.in / 32;

/**
 * A thickness in mm for people, or a depth that thicknesses add up to: hundredths of a millimetre; inches as a fraction
 * where it is one, to 1/32, else decimal to a thousandth. 6 mm is 0.236 in and not 1/4 in: other lengths are rounded to
 * 1/32 in as a tape shows them, but parts of a rounded thickness would not come flush.
 */
export function formatThickness(mm: number, unit: DisplayUnit): string {
  const isFraction = Math.abs(mm - Math.round(mm / THIRTY_SECOND) * THIRTY_SECOND) <= HAIR;
  return unit === 'mm' || isFraction ? formatLength(mm, unit, 2) : formatThin(mm, unit);
}
