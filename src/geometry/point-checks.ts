import { both, type Check, listOf, number, record, that } from '../issues/checks.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import { FARTHEST_MM } from './integer-grid.ts';
import type { Line } from './shapes.ts';

/**
 * Checks of rings and lines handed to the library: points of finite numbers, and enough of them. How the rings lie to one
 * another is asked apart, in `shape-checks.ts`: that takes the clipper, which who only measures can do without.
 */

const POINT = `a point [x, y], two numbers from -${FARTHEST_MM} to ${FARTHEST_MM} mm`;
const COUNTED = {
  0: 'a list of points',
  2: 'a list of 2 points or more',
  3: 'a list of 3 points or more',
} as const;

/** A single point. */
export const place: Check = (field, value) => {
  const isWrong = firstWrongPoint([value]) === 0;
  return isWrong ? [wrongValue(field, value, POINT)] : [];
};

/** A place along a board or across it, mm: no farther out than a board may lie. */
export const along: Check = number({ least: -FARTHEST_MM, most: FARTHEST_MM, unit: 'mm' });

/** Any number of points, none too: the way to a cut that needs none. */
export const places: Check = points(0);

/** An open line, such as a vein. */
export const line: Check = points(2);

/** A closed line, its first point not repeated. */
export const ring: Check = points(3);

/** Rings of a region as they come, without a look at how they lie to one another. */
export const rings: Check = record({ outline: ring, openings: listOf(ring) });

function points(least: keyof typeof COUNTED): Check {
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
