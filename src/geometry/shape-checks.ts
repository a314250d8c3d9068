import { both, type Check, listOf, record, that } from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import { FARTHEST_MM } from './integer-grid.ts';
import type { Line, Region, Ring } from './shapes.ts';
import { type Unsound, unsoundness } from './sound-region.ts';

/** Checks of rings, lines and regions handed to the library: points of finite numbers, enough of them, and no tangle. */

const POINT = `a point [x, y], two numbers from -${FARTHEST_MM} to ${FARTHEST_MM} mm`;
const COUNTED = { 2: 'a list of 2 points or more', 3: 'a list of 3 points or more' } as const;

/** An open line, such as a vein. */
export const line: Check = points(2);

const ring: Check = points(3);

/**
 * A ring that covers something, whatever its edges do: what a defect that crosses itself covers is covered. One without
 * any area would be passed over, and a part laid across the crack.
 */
export const cover: Check = both(ring, (field, value) => {
  const found = unsoundness({ outline: value as Ring, openings: [] });
  return found === 'encloses nothing' ? [unsound(field, found)] : [];
});

/** A ring that is to be the outline of a board: it does not cross itself. */
export const outline: Check = both(ring, (field, value) =>
  tangle(field, { outline: value as Ring, openings: [] }),
);

/** Rings of a region as they come, without a look at how they lie to one another. */
export const rings: Check = record({ outline: ring, openings: listOf(ring) });

/** A part: an outline that does not cross itself, openings inside it. */
export const region: Check = both(rings, (field, value) => tangle(field, value as Region));

function points(least: 2 | 3): Check {
  const list = that((value) => Array.isArray(value) && value.length >= least, COUNTED[least]);
  return both(list, (field, value) => {
    const at = firstWrongPoint(value as Line);
    return at < 0 ? [] : [wrongValue(`${field}[${at}]`, (value as Line)[at], POINT)];
  });
}

/** Only the first is told: a drawing in wrong units would tell thousands. */
function firstWrongPoint(line: readonly unknown[]): number {
  for (let i = 0; i < line.length; i++) {
    const point = line[i];
    if (!Array.isArray(point) || !isPlace(point[0]) || !isPlace(point[1])) return i;
  }
  return -1;
}

/** Written so that NaN fails too. */
function isPlace(value: unknown): boolean {
  return typeof value === 'number' && Math.abs(value) <= FARTHEST_MM;
}

const TANGLES: Readonly<Record<Unsound, Pick<Issue, 'message' | 'expected' | 'remedy'>>> = {
  'encloses nothing': {
    message: 'this outline encloses nothing',
    expected: 'an outline around some wood',
    remedy: 'Give its corners one after the other, in millimetres; a crack has some width too.',
  },
  'crosses itself': {
    message: 'these outlines cross or run back on themselves or one another',
    expected: 'an outline that does not cross itself, with its openings apart inside it',
    remedy: 'Give the corners in their order around; parts that overlap are parts of their own.',
  },
};

function tangle(field: string, shape: Region): Issue[] {
  const found = unsoundness(shape);
  return found === undefined ? [] : [unsound(field, found)];
}

function unsound(field: string, found: Unsound): Issue {
  return { kind: 'outline-invalid', severity: 'error', ...TANGLES[found], where: { field } };
}
