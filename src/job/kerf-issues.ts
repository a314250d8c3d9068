import type { Issue } from '../issues/issue.ts';
import { COMMON_BLADES } from '../sawing/blades.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import type { Job } from './job-schema.ts';

/** Kerfs of the common blades, mm: the table says where they are from. */
const KERFS = COMMON_BLADES.map(({ kerf }) => kerf);
const NARROWEST_COMMON = Math.min(...KERFS);
const WIDEST_COMMON = Math.max(...KERFS);

/**
 * Widest kerf that is taken without a word, mm: twice that of the widest common blade. Spiral blades and worn guides
 * saw wider than the table says, but not that much (common practice, no source).
 */
const WIDEST = asTold(2 * WIDEST_COMMON);

/** Narrowest kerf that is taken without a word, mm: half that of the finest common blade (common practice, no source). */
const NARROWEST = asTold(NARROWEST_COMMON / 2);

/** A limit with the digits that it is told with, mm, so that nobody is told of a kerf that is on it. */
function asTold(mm: number): number {
  return Number(mm.toFixed(2));
}

/**
 * A warning for a kerf that no blade of a scroll saw saws. The parts would come out right, so nothing else tells of it;
 * they lie far apart, and the batch takes more wood than it needs.
 */
export function kerfIssues({ kerf, work }: Pick<Job, 'kerf' | 'work'>, file: string): Issue[] {
  const own = work.blades.map((blade, i) => ({ field: `work.blades[${i}].kerf`, mm: blade.kerf }));
  // A kerf that is a blade's own is told there: with "kerf": "blade" nothing else can be mended.
  const stated = own.some(({ mm }) => mm === kerf) ? [] : [{ field: 'kerf', mm: kerf }];
  return [...stated, ...own].flatMap(({ field, mm }): Issue[] => {
    const isWide = mm > WIDEST + 1e-9;
    // A kerf of 0 is meant: the lines are laid out as they are drawn.
    if (!isWide && (mm === 0 || mm >= NARROWEST)) return [];
    return [
      {
        kind: 'kerf-unlikely',
        severity: 'warning',
        message: `the kerf is ${isWide ? 'wider' : 'narrower'} than a scroll-saw blade saws`,
        expected: `at ${isWide ? `most ${WIDEST.toFixed(2)}` : `least ${NARROWEST.toFixed(2)}`} mm; the common blades saw ${NARROWEST_COMMON.toFixed(2)} to ${WIDEST_COMMON.toFixed(2)} mm`,
        // A small one as the number it was read as: turned into inches it would not be found in the job.
        received: isWide ? `${Number(mm.toFixed(3))} mm` : `${Number(mm.toFixed(5))} millimetres`,
        remedy: `${isWide ? meantFiner(mm) : meantWider(mm)}.`,
        where: { file, field },
      },
    ];
  });
}

/** A kerf that a blade may saw, mm. */
function isLikely(kerf: number): boolean {
  return kerf >= NARROWEST_COMMON - 1e-9 && kerf <= WIDEST;
}

/**
 * What may have been meant by a kerf that is too wide: millimetres where inches were written, thousandths of an inch, or a
 * point that slipped by a place.
 */
function meantFiner(mm: number): string {
  const inches = mm / 1000;
  const ofInches = Number((mm / MM_PER_UNIT.in).toFixed(2));
  // How it was written is told by which of the two is the rounder number.
  const isInInches = isLikely(ofInches) && Math.abs(ofInches * MM_PER_UNIT.in - mm) < 1e-6;
  const guesses = [
    ...(isInInches ? [`"${ofInches} mm"`] : []),
    ...(!isInInches && isLikely(inches * MM_PER_UNIT.in) ? [`"${Number(inches.toFixed(4))} in"`] : []),
    ...(isLikely(mm / 10) ? [`"${Number((mm / 10).toFixed(3))} mm"`] : []),
  ];
  return ask(guesses);
}

/** What may have been meant by a kerf that is too narrow: the same number of inches, or a point that slipped by a place. */
function meantWider(mm: number): string {
  return ask([
    ...(isLikely(mm * MM_PER_UNIT.in) ? [`"${Number(mm.toFixed(5))} in"`] : []),
    ...(isLikely(mm * 10) ? [`"${Number((mm * 10).toFixed(4))} mm"`] : []),
  ]);
}

function ask(guesses: readonly string[]): string {
  // How it was written is not known here: a plain number and one with its unit have become the same length.
  if (guesses.length === 0) return 'Write the unit with it, and measure a test cut';
  return `If ${guesses.join(' or ')} was meant, write that; else measure a test cut`;
}
