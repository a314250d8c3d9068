import { type DisplayUnit, MM_PER_UNIT } from './length.ts';

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
