import type { Issue } from '../issues/issue.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import type { Job } from './job-schema.ts';
import { ifMeant } from './unit-meant.ts';

/**
 * Least throat, and least length handled at the saw, that are taken without a word, mm: the smallest scroll saws have
 * throats of 13 to 16 in, 330 to 406 mm (common practice, no source).
 */
const LEAST = 200;

/** Most that is taken without a word, mm: throats of large saws, and boards that one person still swings (common practice, no source). */
const MOST = { throat: 1000, longest: 3000 } as const;

const TOO_SMALL = {
  throat: 'no scroll saw has a throat as shallow as this',
  longest: 'boards shorter than this are hardly held at a scroll saw',
} as const;

const TOO_LARGE = {
  throat: 'no scroll saw has a throat as deep as this, and boards stay whole by it',
  longest: 'boards longer than this are hardly held at a scroll saw',
} as const;

/**
 * A warning for a throat or greatest length that is no scroll saw's. A number of inches or centimetres written without
 * its unit is one of millimetres: boards are then cut to sections that hold no part, and every part would be told. With
 * feet for inches they stay whole, and nothing would tell.
 */
export function reachIssues({ saw }: Pick<Job, 'saw'>, file: string): Issue[] {
  return (['throat', 'longest'] as const).flatMap((name): Issue[] => {
    const mm = saw[name];
    if (mm === undefined || (mm >= LEAST && mm <= MOST[name])) return [];
    const isSmall = mm < LEAST;
    return [
      {
        kind: 'reach-unlikely',
        severity: 'warning',
        message: (isSmall ? TOO_SMALL : TOO_LARGE)[name],
        expected: isSmall ? `at least ${LEAST} mm` : `at most ${MOST[name]} mm`,
        // A plain number as it was read: turned into inches it would not be found in the job.
        received: isInches(mm) ? `${Number(mm.toFixed(2))} mm` : `${Number(mm.toFixed(2))} millimetres`,
        remedy: remedyFor(mm, name),
        where: { file, field: `saw.${name}` },
      },
    ];
  });
}

function remedyFor(mm: number, name: keyof typeof MOST): string {
  if (mm > MOST[name]) return 'See whether another unit was meant, such as inches for feet.';
  if (!isInches(mm)) return unitMeant(mm, MOST[name]);
  return name === 'throat'
    ? 'Measure from the blade to the back of the saw, and see whether another unit was meant.'
    : 'See whether another unit was meant.';
}

/** True for a length that was written in inches or feet: next to no plain number of millimetres is one of sixteenths. */
function isInches(mm: number): boolean {
  const sixteenths = (mm / MM_PER_UNIT.in) * 16;
  return Math.abs(sixteenths - Math.round(sixteenths)) < 1e-6;
}

/** Asks for the unit, and whether the same number of inches, or of centimetres, was meant. */
function unitMeant(mm: number, most: number): string {
  const guesses = (['in', 'cm'] as const)
    .filter((unit) => mm * MM_PER_UNIT[unit] >= LEAST && mm * MM_PER_UNIT[unit] <= most)
    .map((unit) => `"${Number(mm.toFixed(2))} ${unit}"`);
  return guesses.length === 0
    ? 'A plain number is in millimetres: write the unit with it.'
    : ifMeant(guesses.join(' or '));
}
