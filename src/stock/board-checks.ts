import { cover, outline } from '../geometry/shape-checks.ts';
import { type Check, flag, listOf, number, optional, text } from '../issues/checks.ts';
import { LENGTH, type NumberLimits, SOME_LENGTH } from '../issues/number-issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';

/** Checks of boards that are handed in: to be laid on, to be bought, or to be counted with once they were laid on. */

/** Such entries or strips that a shop can have. */
const COUNT: NumberLimits = { least: 1, most: 1000, whole: true };
/** As a job may have it: any price whose cents are counted exactly. */
const PRICE: NumberLimits = { least: 0, most: Number.MAX_SAFE_INTEGER };
/** What taking a board counts is compared only, in any unit. */
const COST: NumberLimits = { least: 0, most: Number.MAX_VALUE };

const ripped = number(
  LENGTH,
  'Give the width to rip off, or "clean" for just enough to have a straight edge.',
);

const trimCheck = recordByHand(
  {
    topEdge: number(LENGTH),
    straightEdge: (field, value) => (value === 'clean' ? [] : ripped(field, value)),
    leftEnd: number(LENGTH),
    rightEnd: number(LENGTH),
  },
  'Give all four sides, 0 where nothing is taken off, or leave "trim" out.',
);

/** A board, or an entry of boards alike. */
export const boardCheck: Check = recordByHand(
  {
    id: text('Give every board entry a name of its own.'),
    species: text('Name the wood as the parts name it.'),
    thickness: number(SOME_LENGTH, 'Give the measured thickness in millimetres.'),
    outline,
    defects: listOf(cover, 'Give a list of outlines around knots and cracks; [] for none.'),
    quantity: number(
      { least: 0, most: 1_000_000, whole: true },
      'Say how many such boards there are; 1 is usual.',
    ),
    price: optional(number(PRICE)),
    strips: optional(number(COUNT)),
    lengths: optional(number(COUNT)),
    whole: optional(recordByHand({ outline, price: optional(number(PRICE)) })),
    trim: optional(trimCheck),
    nominal: optional(number(SOME_LENGTH)),
    sheet: optional(flag()),
    straightTopEdge: optional(flag()),
    keeper: optional(flag()),
    takingCost: optional(number(COST)),
    takenFirst: optional(flag()),
  },
  'See `Board` for the fields of a board; `batchFromJob` fills them in from a job.',
);

/** The boards a layout was made on. */
export const stockCheck: Check = listOf(
  boardCheck,
  'Hand in the boards that the layout was made on: those of the batch.',
);
