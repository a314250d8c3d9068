import { type Check, number, optional } from '../../issues/checks.ts';
import { recordByHand } from '../../issues/record-by-hand.ts';
import { MOST_WORK, range } from '../../model/plan-checks.ts';
import { TIME_NAMES } from './time-constants.ts';

/** Checks of amounts and times handed in by a caller who counts and clocks himself. */

/** How much of each kind of work there is; what is not named is not there. */
export const amounts: Check = recordByHand(
  ofEach(optional(number({ least: 0, most: MOST_WORK }))),
  'See `WorkAmounts`; `amountsOf` counts them.',
);

/** Minutes of one of each kind of work. */
export const constants: Check = recordByHand(
  ofEach(range),
  'Ranges of minutes; `timeConstants` has common ones, with your own in place of some.',
);

function ofEach(check: Check): Record<string, Check> {
  return Object.fromEntries(TIME_NAMES.map((name) => [name, check]));
}
