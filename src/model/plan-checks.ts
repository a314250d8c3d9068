import { along, line, place, places, rings } from '../geometry/point-checks.ts';
import { both, type Check, listOf, number, optional, record, that, words } from '../issues/checks.ts';
import { FINITE } from '../issues/number-issue.ts';
import type { Range } from './cut-plan.ts';

/**
 * Checks of the plans of the work that are handed in: the cuts, the glue-up, the time and the costs. A figure that is none
 * would come out as a price or an hour, so every figure that is reckoned with is looked at.
 */

/** Far beyond any batch, and well within what sums of numbers keep exact: minutes, and how much there is of a kind of work. */
export const MOST_WORK = 1e9;

const figure = number(FINITE);
const amount = number({ least: 0, most: 1e12 });
const name = words();

/** A least, a likely and a greatest value, none of them negative. */
export const range: Check = both(
  record({
    low: number({ least: 0, most: MOST_WORK }),
    likely: number({ least: 0, most: MOST_WORK }),
    high: number({ least: 0, most: MOST_WORK }),
  }),
  that(isInOrder, 'low, likely and high in this order', 'Give the least, the likely and the greatest value.'),
);

function isInOrder(value: unknown): boolean {
  const { low, likely, high } = value as Range;
  return low <= likely && likely <= high;
}

/** A range that may lie below 0, as money does: what is kept of a board is credited. */
export const anyRange: Check = record({ low: figure, likely: figure, high: figure });

const cut = record({
  number: figure,
  kind: name,
  placement: figure,
  layer: name,
  part: name,
  set: figure,
  piece: figure,
  line,
  length: amount,
  leadIn: places,
  blade: name,
  entry: name,
  reason: name,
});

/** The order of work on one board. */
export const boardPlanCheck: Check = record(
  {
    board: name,
    species: name,
    thickness: amount,
    stack: optional(amount),
    copies: amount,
    sections: listOf(record({ from: along, to: along })),
    holes: listOf(
      record({ at: place, diameter: amount, least: amount, room: optional(amount), cut: figure }),
    ),
    cuts: listOf(cut),
    cutLength: amount,
    leadInLength: amount,
  },
  'Hand in a board of the plan of `planCuts`.',
);

const blade = record({ name, kerf: amount, hole: amount });

/** The plan of all cuts. */
export const cutPlanCheck: Check = record(
  {
    boards: listOf(boardPlanCheck),
    tab: optional(amount),
    blades: listOf(record({ blade, why: name, sawn: amount, worn: range })),
    bladeChanges: amount,
    bladeChangesGrouped: amount,
    cutLength: amount,
    leadInLength: amount,
    sharedEdges: amount,
    travel: amount,
    travelLeftToRight: amount,
    holes: amount,
    threadings: amount,
    sharpTurns: amount,
    cautions: listOf(name),
  },
  'Hand in the plan of `planCuts`.',
);

const joined = record({ layer: name, part: name });

/** The least and the most glue of a piece, grams. */
export const glueGrams: Check = both(
  that(
    (value) => Array.isArray(value) && value.length === 2,
    'a list of two numbers, the least and the most',
  ),
  listOf(amount),
);

/** How a piece goes together. */
export const assemblyPlanCheck: Check = record(
  {
    parts: listOf(
      record({ layer: name, part: name, back: figure, front: figure, offPlane: optional(figure) }),
    ),
    joints: listOf(
      record({
        behind: joined,
        front: joined,
        contactArea: amount,
        glueArea: amount,
        glue: listOf(rings),
        movement: optional(figure),
        copies: amount,
      }),
    ),
    width: amount,
    height: amount,
    depth: amount,
    restPlane: optional(figure),
    glueGrams,
    weight: optional(amount),
    faces: amount,
    surface: amount,
  },
  'Hand in the plan of `planAssembly`.',
);

/** The working time of a batch. */
export const workTimeCheck: Check = record(
  {
    lines: listOf(
      record({ name, amount, unit: name, units: name, each: range, minutes: range, constant: name }),
    ),
    total: range,
  },
  'Hand in the time of `workTime`.',
);

const inputs = listOf(record({ name, value: figure, unit: name, from: name }));

/** Costs and prices. */
export const estimateCheck: Check = record(
  {
    currency: name,
    pieces: amount,
    time: workTimeCheck,
    lines: listOf(record({ name, cents: anyRange, inputs })),
    batch: anyRange,
    piece: anyRange,
    prices: listOf(record({ channel: name, price: figure, fees: figure, profit: figure, inputs })),
    issues: listOf(record({ kind: name })),
  },
  'Hand in the estimate of `estimate`.',
);
