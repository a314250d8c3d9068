import type { Issue } from '../issues/issue.ts';
import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { USUAL_KEEP } from '../stock/keep-rule.ts';
import { usableSize } from '../stock/usable.ts';
import { formatLength, MM_PER_UNIT } from '../units/length.ts';
import type { Job } from './job-schema.ts';
import { isOnRule } from './size-issues.ts';
import { ifMeant } from './unit-meant.ts';

/** What is smaller is of no use, mm: it cannot be held near a blade, nor sawn into anything (common practice, no source). */
const LEAST = { length: 25, width: 10 };

/**
 * That every scrap would go into the rack: most likely inches were meant, and the unit is missing.
 *
 * @param fits whether a board at hand can leave an offcut of a length and a width, mm
 */
function ofNoUse(
  { keep: { length, width }, unit }: Pick<Job, 'keep' | 'unit'>,
  fits: (length: number, width: number) => boolean,
  file: string,
): Issue {
  const fitsInInches = fits(length * MM_PER_UNIT.in, width * MM_PER_UNIT.in);
  return {
    kind: 'keep-unlikely',
    severity: 'warning',
    message: 'offcuts too small to be of use would be kept, and fill the rack',
    expected: `at least ${formatLength(LEAST.length, unit)} along the grain and ${formatLength(LEAST.width, unit)} across it`,
    received: `${formatLength(length, unit)} long and ${formatLength(width, unit)} wide`,
    remedy:
      isOnRule(length) && isOnRule(width) && fitsInInches
        ? ifMeant(`"${length} in" by "${width} in"`)
        : 'Look at the unit: a plain number is in millimetres.',
    where: { file, field: 'keep' },
  };
}

/**
 * A warning for a `keep` that nothing left of any board can reach: every rest of a board would be scrap, and gone from the
 * rack, without a word. The usual rule is not asked about, since small boards are all a shop of scraps may have.
 *
 * @param boards at hand, as they are ripped
 * @param woods species of the layers: what is left of other boards is the whole board
 */
export function keepIssues(
  { keep, unit }: Pick<Job, 'keep' | 'unit'>,
  boards: readonly Board[],
  woods: readonly string[],
  file: string,
): Issue[] {
  if (keep.length === USUAL_KEEP.length && keep.width === USUAL_KEEP.width) return [];
  const sizes = boards
    .filter(({ species }) => woods.some((wood) => sameSpecies(wood, species)))
    .map(usableSize)
    .filter((size) => size !== undefined);
  const fits = (length: number, width: number) =>
    sizes.some(([along, across]) => length <= along && width <= across);
  if (keep.length < LEAST.length || keep.width < LEAST.width) return [ofNoUse({ keep, unit }, fits, file)];
  if (sizes.length === 0 || fits(keep.length, keep.width)) return [];
  const size = (length: number, width: number) =>
    `${formatLength(length, unit)} long and ${formatLength(width, unit)} wide`;
  return [
    {
      kind: 'keep-unlikely',
      severity: 'warning',
      message:
        'no board at hand is large enough to leave an offcut that would be kept: all that is left is scrap',
      expected: `at most ${formatLength(Math.max(...sizes.map(([along]) => along)), unit)} along the grain and ${formatLength(Math.max(...sizes.map(([, across]) => across)), unit)} across it`,
      received: size(keep.length, keep.width),
      remedy: fits(keep.width, keep.length)
        ? `"length" is along the grain and "width" across it: if ${size(keep.width, keep.length)} was meant, change the two about.`
        : 'Look at the unit: a plain number is in millimetres. If nothing is to be kept, leave it.',
      where: { file, field: 'keep' },
    },
  ];
}
