import { type DisplayUnit, formatInches, MM_PER_UNIT } from './length.ts';

/**
 * Drills as they are sold by the size written on them. Fractional inch drills go up by 1/64 in, metric ones by a
 * tenth of a millimetre in the sizes a scroll saw needs; both are sizes by definition (1 in = 25.4 mm exactly).
 * That every step is on the shelf is common practice, no source; number and letter drills are left out.
 */
const STEP: Readonly<Record<DisplayUnit, number>> = { in: MM_PER_UNIT.in / 64, mm: 0.1 };

/**
 * A drill that is this little too small, mm, still passes: makers round, and a hole stated as 1.59 mm means 1/16 in,
 * 1.5875 mm. It also takes up what 2 x 25.4 / 64 is off by in binary.
 */
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
 * widest that fits there, as long as the blade passes: of the maker's unit, else of the other one. When none does,
 * the name says so.
 *
 * @param hole what the blade asks for, what it just passes, and the widest hole that fits there; diameters in mm
 */
export function drillFor(hole: WantedHole, unit: DisplayUnit): Drill {
  const wanted = Math.ceil((hole.diameter - HAIR) / STEP[unit]);
  const other = unit === 'mm' ? 'in' : 'mm';
  if (hole.room === undefined || wanted * STEP[unit] <= hole.room + HAIR) return drillOf(wanted, unit);
  const drill = widestFitting(hole, hole.room, unit) ?? widestFitting(hole, hole.room, other);
  if (drill !== undefined) return drill;
  const tooWide = drillOf(wanted, unit);
  return { ...tooWide, name: `${tooWide.name}, wider than the opening has room for` };
}

/** A hole to drill; diameters in mm: what is wanted, what the blade just passes, what there is room for. */
interface WantedHole {
  readonly diameter: number;
  readonly least: number;
  readonly room?: number;
}

function widestFitting({ least }: WantedHole, room: number, unit: DisplayUnit): Drill | undefined {
  const steps = Math.floor((room + HAIR) / STEP[unit]);
  return steps * STEP[unit] > least ? drillOf(steps, unit) : undefined;
}

function drillOf(steps: number, unit: DisplayUnit): Drill {
  const diameter = steps * STEP[unit];
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
