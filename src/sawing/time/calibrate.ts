import { listOf, number, record } from '../../issues/checks.ts';
import { throwOnErrors } from '../../issues/fretlay-error.ts';
import type { Range } from '../../model/cut-plan.ts';
import { solveSymmetric } from './solve-symmetric.ts';
import { amounts, constants } from './time-checks.ts';
import { TIME_NAMES, type TimeConstants, type TimeName, timeConstants } from './time-constants.ts';
import type { WorkAmounts } from './work-time.ts';

/** One logged stretch of work: what was done, and how long it took. */
export interface LoggedWork {
  readonly amounts: WorkAmounts;
  readonly minutes: number;
}

/** Constants fitted to a log. */
export interface Calibration {
  readonly constants: TimeConstants;
  /** Names of the constants that the log says something about. */
  readonly fitted: readonly TimeName[];
  /** Root of the mean squared difference between the log and the model, minutes; before and after the fit. */
  readonly errorBefore: number;
  /** Minutes. */
  readonly error: number;
  /** Greatest difference as a share of the logged time. */
  readonly worst: number;
}

const logCheck = listOf(
  record({ amounts, minutes: number({ least: 0, most: 1e6, above: true, unit: 'minutes' }) }),
);

/** The time of a line is taken to be right to a tenth: two stretches of the same work differ by about that. */
const LOG_ERROR = 0.1;

/**
 * Fits, each weighed by the one before: where lines differ up to twofold from the common times, a ten-thousandth is left to
 * change.
 */
const FITS = 20;

/** What a line is weighed by at least, as a share of its logged minutes: a fit may have nothing for it, or less. */
const LEAST_EXPECTED = 0.01;

/**
 * Fits the constants to a maker's log by least squares. Differences are weighed by a tenth of the time that the model has
 * for the line, fitted again with that (iteratively reweighted, as for a constant coefficient of variation: McCullagh,
 * Nelder 1989); by that of the logged time, of two lines that differ the quick one would decide. Each constant is held to
 * its common value by half of its range (ridge regression: Hoerl, Kennard 1970), so that three lines of log do not have
 * to decide seventeen constants. A constant that would come out negative is 0.
 *
 * @param hold weight of the common values: 1 as described, 0 for none (the log then has to decide every constant)
 * @throws FretlayError when an amount, a time or a constant is missing or makes no sense; a stretch of work takes some
 *   minutes
 */
export function calibrate(
  log: readonly LoggedWork[],
  start: TimeConstants = timeConstants(),
  hold = 1,
): Calibration {
  throwOnErrors([
    ...logCheck('log', log),
    ...constants('start', start),
    ...number({ least: 0, most: 1e6 })('hold', hold),
  ]);
  const named = TIME_NAMES.filter((name) => log.some(({ amounts }) => (amounts[name] ?? 0) > 0));
  let free = named;
  let found = refitted(log, start, free, hold);
  for (let negative = negatives(found); negative.length > 0; negative = negatives(found)) {
    free = free.filter((name) => !negative.includes(name));
    const zeroed = { ...start };
    for (const name of named) if (!free.includes(name)) zeroed[name] = { low: 0, likely: 0, high: 0 };
    found = { ...zeroed, ...pick(refitted(log, zeroed, free, hold), free) };
  }
  const differences = log.map(({ amounts, minutes }) => modelled(amounts, found) - minutes);
  return {
    constants: narrowed(start, found, named, log),
    fitted: named,
    errorBefore: rootMeanSquare(log.map(({ amounts, minutes }) => modelled(amounts, start) - minutes)),
    error: rootMeanSquare(differences),
    worst: Math.max(0, ...differences.map((each, i) => Math.abs(each) / log[i].minutes)),
  };
}

/** The constants fitted again and again, each time weighed by what the fit before has for the lines. */
function refitted(
  log: readonly LoggedWork[],
  start: TimeConstants,
  names: readonly TimeName[],
  hold: number,
): TimeConstants {
  let expected = log.map(({ minutes }) => minutes);
  let found = start;
  for (let fits = 0; fits < FITS; fits++) {
    found = leastSquares(log, start, names, { hold, expected });
    expected = log.map(({ amounts, minutes }) =>
      Math.max(LEAST_EXPECTED * minutes, modelled(amounts, found)),
    );
  }
  return found;
}

/**
 * Solves the weighted normal equations for the named constants, the others kept as they are.
 *
 * @param expected minutes that each line is weighed by
 */
function leastSquares(
  log: readonly LoggedWork[],
  start: TimeConstants,
  names: readonly TimeName[],
  { hold, expected }: { readonly hold: number; readonly expected: readonly number[] },
): TimeConstants {
  const scale = names.map((name) => Math.max(1e-9, (start[name].high - start[name].low) / 2));
  const matrix = names.map((_, i) => names.map((__, k) => (i === k ? hold : 0)));
  const right = names.map(() => 0);
  for (const [line, { amounts, minutes }] of log.entries()) {
    const weight = 1 / (LOG_ERROR * expected[line]) ** 2;
    const row = names.map((name, i) => (amounts[name] ?? 0) * scale[i]);
    const missing = minutes - modelled(amounts, start);
    row.forEach((value, i) => {
      right[i] += weight * value * missing;
      row.forEach((other, k) => {
        matrix[i][k] += weight * value * other;
      });
    });
  }
  const change = solveSymmetric(matrix, right);
  const fitted = { ...start };
  names.forEach((name, i) => {
    fitted[name] = { ...start[name], likely: start[name].likely + scale[i] * change[i] };
  });
  return fitted;
}

function negatives(constants: TimeConstants): TimeName[] {
  return TIME_NAMES.filter((name) => constants[name].likely < 0);
}

function pick(constants: TimeConstants, names: readonly TimeName[]): Partial<TimeConstants> {
  return Object.fromEntries(names.map((name) => [name, constants[name]]));
}

function modelled(amounts: WorkAmounts, constants: TimeConstants): number {
  return TIME_NAMES.reduce((sum, name) => sum + (amounts[name] ?? 0) * constants[name].likely, 0);
}

function rootMeanSquare(values: readonly number[]): number {
  return values.length === 0
    ? 0
    : Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}

/**
 * How far logged times with a kind of work in them are from those of the model, as a share of these: root of the mean square,
 * each line weighed by the minutes of that work in it, for a small part of a line says little of it.
 */
function spreadOf(name: TimeName, log: readonly LoggedWork[], found: TimeConstants): number {
  let squares = 0;
  let weights = 0;
  for (const { amounts, minutes } of log) {
    const own = (amounts[name] ?? 0) * found[name].likely;
    if (own === 0) continue;
    squares += own * (minutes / modelled(amounts, found) - 1) ** 2;
    weights += own;
  }
  return weights === 0 ? 0 : Math.sqrt(squares / weights);
}

/**
 * Ranges of the fitted constants: the new value with the error of a log either way, or more where its lines with that work
 * differ by more from one another; the others keep theirs.
 */
function narrowed(
  start: TimeConstants,
  found: TimeConstants,
  names: readonly TimeName[],
  log: readonly LoggedWork[],
): TimeConstants {
  const ranges = TIME_NAMES.map((name): readonly [TimeName, Range] => {
    if (!names.includes(name)) return [name, start[name]];
    const { likely } = found[name];
    const spread = spreadOf(name, log, found);
    const low = likely * Math.min(1 - 2 * LOG_ERROR, 1 / (1 + spread));
    return [name, { low, likely, high: likely * Math.max(1 + 2 * LOG_ERROR, 1 + spread) }];
  });
  return Object.fromEntries(ranges) as TimeConstants;
}
