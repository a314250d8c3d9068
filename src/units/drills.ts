import { type DisplayUnit, formatInches, MM_PER_UNIT } from './length.ts';

/**
 * Drills as they are sold by the size written on them. Fractional inch drills go up by 1/64 in, metric ones by a
 * tenth of a millimetre in the sizes a scroll saw needs; both are sizes by definition (1 in = 25.4 mm exactly).
 * That every step is on the shelf is common practice, no source; number and letter drills are left out.
 */
const STEP: Readonly<Record<DisplayUnit, number>> = { in: MM_PER_UNIT.in / 64, mm: 0.1 };

/** A drill that is this little too small still passes: a blade's hole of 0.031 in is drilled with 1/32. */
const HAIR = 0.005;

/** A drill: its diameter in mm, and what is written on it. */
export interface Drill {
  /** mm */
  readonly diameter: number;
  /** `1/16 in (0.0625)`, `1.6 mm`. */
  readonly name: string;
}

/**
 * The smallest drill of the maker's unit that is at least so wide. Where that is wider than the place it is for, the
 * widest that fits there, as long as the blade passes.
 *
 * @param hole what the blade asks for, what it just passes, and the widest hole that fits there; diameters in mm
 */
export function drillFor(
  {
    diameter: wished,
    least,
    room,
  }: { readonly diameter: number; readonly least: number; readonly room?: number },
  unit: DisplayUnit,
): Drill {
  const step = STEP[unit];
  const wanted = Math.ceil((wished - HAIR) / step);
  const fits = room === undefined ? wanted : Math.floor((room + HAIR) / step);
  // When nothing fits, the check of the pattern has said that the opening is too small to thread.
  const steps = fits < wanted && fits * step > least ? fits : wanted;
  const diameter = steps * step;
  return { diameter, name: unit === 'mm' ? `${diameter.toFixed(1)} mm` : inchName(steps) };
}

/** A drill of so many sixty-fourths, with its decimals for the drills that are marked by them. */
function inchName(sixtyFourths: number): string {
  const inches = sixtyFourths / 64;
  const fraction = sixtyFourths % 2 === 0 ? formatInches(inches) : oddSixtyFourths(sixtyFourths);
  return `${fraction} in (${inches.toFixed(4).replace(/0+$/, '').replace(/\.$/, '')})`;
}

/** Lengths are written to 1/32 in: only drills come in odd sixty-fourths. */
function oddSixtyFourths(count: number): string {
  const whole = Math.floor(count / 64);
  return whole === 0 ? `${count % 64}/64` : `${whole}-${count % 64}/64`;
}
