import { along, line, ring, rings } from '../geometry/point-checks.ts';
import {
  both,
  type Check,
  flag,
  listOf,
  mapOf,
  number,
  optional,
  record,
  that,
  words,
} from '../issues/checks.ts';
import { FINITE, LENGTH, SOME_LENGTH } from '../issues/number-issue.ts';
import { MOST_COPIES } from './limits.ts';

/**
 * Checks of a layout that is handed in. There are two depths. What is to be drawn, planned or priced has to be built as a
 * layout is and be of numbers, or the answer would be none. `verifyLayout` asks for the build alone: telling what is wrong
 * with the numbers is what it is for, and it tells all of them as breaches.
 */

const LAYOUT = 'Hand in a layout of `layOut` or `readLayout`.';

const name = words();
const count = number({ least: 1, most: MOST_COPIES, whole: true });
const figure = number(FINITE);
const length = number(LENGTH);

const named = record({ part: name, layer: name });

/** Areas of a board, mm2, as `withRemains` measures them: kerf and scrap may come out below 0 by rounding. */
export const boardAreasCheck: Check = record({
  board: figure,
  trims: figure,
  defects: figure,
  parts: figure,
  openings: figure,
  kerf: figure,
  keepers: figure,
  scrap: figure,
});

/** The area of a whole board is what all others are shares of. */
const ofSomeBoard = both(boardAreasCheck, record({ board: number({ ...FINITE, least: 1e-3, unit: 'mm2' }) }));

/** Copies are sawn each by a name of its own; none of them would be endlessly many to a name. */
const pieceNames = both(
  listOf(name),
  that((pieces) => (pieces as readonly unknown[]).length > 0, 'a list of at least one name'),
);

const box = record({ minX: along, minY: along, maxX: along, maxY: along });

/** One board of a layout. */
export const laidBoardCheck: Check = record(
  {
    id: name,
    stock: name,
    species: name,
    thickness: number(SOME_LENGTH),
    copies: count,
    outline: optional(ring),
    trimmed: optional(record({ topEdge: length, straightEdge: length, leftEnd: length, rightEnd: length })),
    usable: rings,
    straightTopEdge: optional(flag()),
    placements: listOf(
      record({
        part: name,
        layer: name,
        set: figure,
        x: figure,
        y: figure,
        rotation: figure,
        turnedOver: flag(),
        region: rings,
        veins: listOf(line),
      }),
    ),
    pieces: optional(pieceNames),
    planeTo: optional(number(SOME_LENGTH)),
    slices: optional(count),
    strips: optional(count),
    lengths: optional(count),
    sections: optional(listOf(record({ number: count, from: along, to: along }))),
    offcuts: optional(
      listOf(record({ id: name, region: rings, rectangle: box, area: figure, lines: listOf(line) })),
    ),
    areas: optional(ofSomeBoard),
  },
  LAYOUT,
);

/** The boards of a layout and the kerf it was made for, for what reads nothing else of it. */
export const laidBoardsCheck: Check = record({ kerf: length, boards: listOf(laidBoardCheck) }, LAYOUT);

/** Sums over boards: areas mm2, lengths mm. */
const totals = {
  boards: figure,
  parts: figure,
  yield: figure,
  boardFeet: figure,
  cutLength: figure,
  openings: figure,
};

/** A whole layout. */
export const layoutCheck: Check = record(
  {
    sets: count,
    kerf: length,
    clearance: length,
    edgeMargin: length,
    setContents: listOf(record({ part: name, layer: name, copiesPerSet: count })),
    boards: listOf(laidBoardCheck),
    unplaced: listOf(named),
    figures: record({ ...totals, completeSets: figure, bySpecies: mapOf(record(totals)) }),
  },
  LAYOUT,
);

/** Whether what should be numbers can be measured, if only as none: what is no value of JSON ends in an error of the language. */
function isMeasurable(point: unknown): boolean {
  return (
    Array.isArray(point) &&
    point.every(
      (value) => value === null || !['object', 'function', 'symbol', 'bigint'].includes(typeof value),
    )
  );
}

/** Points are looked at in one go: a big layout has millions, and a field name for each would take longer than its use. */
const points = that(
  // Not by `every`, which passes over gaps in a list.
  (value) => Array.isArray(value) && value.findIndex((point) => !isMeasurable(point)) < 0,
  'a list of points [x, y]',
);

const built = record({ outline: points, openings: listOf(points) });

/** That a layout is built as one, whatever its numbers are. */
export const layoutForm: Check = record(
  {
    setContents: listOf(record({ part: name, layer: name, region: optional(built) })),
    boards: listOf(
      record({
        id: name,
        stock: name,
        species: name,
        usable: built,
        placements: listOf(record({ part: name, layer: name, region: built, veins: listOf(points) })),
        pieces: optional(listOf(name)),
        sections: optional(listOf(record({}))),
      }),
    ),
    unplaced: listOf(named),
    figures: record({ bySpecies: mapOf(record({})) }),
  },
  LAYOUT,
);
