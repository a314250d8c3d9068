import { optional } from '../../issues/checks.ts';
import { throwOnErrors } from '../../issues/fretlay-error.ts';
import { recordByHand } from '../../issues/record-by-hand.ts';
import type { Range } from '../../model/cut-plan.ts';
import { range } from '../../model/plan-checks.ts';
import { COMMON_PACE } from './blade-life.ts';

/** A constant of the time model: minutes for one of something. */
export interface TimeConstant {
  readonly minutes: Range;
  /** One of what. */
  readonly unit: string;
  /** Several of what. */
  readonly units: string;
  readonly what: string;
}

/**
 * Every constant of the time model, in minutes. No published rates exist for a scroll saw: all are common practice,
 * no source, and wide; a maker's own log narrows them.
 */
export const COMMON_TIMES = {
  ripping: constant({ low: 1, likely: 2, high: 4 }, 'rip cut', 'ripping strips, edges and keepers'),
  resawing: constant({ low: 3, likely: 6, high: 15 }, 'resaw cut', 'resawing into slices'),
  planing: constant(
    { low: 2, likely: 4, high: 10 },
    'planed board',
    'planing both faces of a board or slice',
  ),
  crosscutting: constant(
    { low: 0.5, likely: 1, high: 2 },
    'cross-cut',
    'cross-cutting lengths, sections, ends and keepers',
  ),
  sawing: constant(COMMON_PACE, 'm in 19.05 mm wood of 1000 lbf', 'sawing'),
  turning: constant(seconds(1, 1.5, 2), 'sharp corner', 'turning the blade on the spot'),
  positioning: constant(seconds(3, 5, 10), 'cut', 'bringing the next cut under the blade'),
  drilling: constant(seconds(10, 15, 20), 'hole', 'drilling a hole'),
  threading: constant(seconds(20, 40, 60), 'threading', 'unclamping, threading and tensioning the blade'),
  bladeChange: constant(seconds(45, 80, 120), 'blade', 'fitting another blade'),
  sticking: constant({ low: 1, likely: 2, high: 3 }, 'board', 'sticking the placement sheet on a board'),
  peeling: constant(seconds(10, 20, 40), 'part', 'peeling the paper off a part'),
  edgeSanding: constant({ low: 1, likely: 2, high: 4 }, 'm of sawn edge', 'sanding edges'),
  faceSanding: constant({ low: 5, likely: 10, high: 20 }, 'm2 of face', 'sanding faces'),
  gluing: constant({ low: 1, likely: 2, high: 4 }, 'joint', 'gluing and clamping a joint'),
  finishing: constant({ low: 8, likely: 15, high: 30 }, 'm2 of surface', 'putting the finish on'),
  setUp: constant({ low: 10, likely: 20, high: 40 }, 'batch', 'setting up and clearing away', 'batches'),
} as const satisfies Record<string, TimeConstant>;

/** Name of a constant of the time model. */
export type TimeName = keyof typeof COMMON_TIMES;

/** Values for all constants, minutes. */
export type TimeConstants = Readonly<Record<TimeName, Range>>;

/** Names of the constants in the order of the work. */
export const TIME_NAMES = Object.keys(COMMON_TIMES) as readonly TimeName[];

const ownTimes = recordByHand(
  Object.fromEntries(TIME_NAMES.map((name) => [name, optional(range)])),
  'Ranges of minutes, { low, likely, high }, by the names of `COMMON_TIMES`.',
);

/**
 * The common values with the maker's own in place of some, minutes.
 *
 * @throws FretlayError for a time that is no range of minutes
 */
export function timeConstants(own: Partial<TimeConstants> = {}): TimeConstants {
  throwOnErrors(ownTimes('own', own));
  const all = TIME_NAMES.map((name) => [name, own[name] ?? COMMON_TIMES[name].minutes] as const);
  return Object.fromEntries(all) as TimeConstants;
}

/** A measured unit, `m of sawn edge`, has no plural of its own. */
function constant(minutes: Range, unit: string, what: string, units?: string): TimeConstant {
  return { minutes, unit, units: units ?? (/^m2?\b/.test(unit) ? unit : `${unit}s`), what };
}

function seconds(low: number, likely: number, high: number): Range {
  return { low: low / 60, likely: likely / 60, high: high / 60 };
}
