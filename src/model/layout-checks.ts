import { type Check, listOf, optional, record, that, words } from '../issues/checks.ts';

/**
 * Checks of a layout that is handed in: that it is built as a layout is, so that what reads it does not end in the middle
 * for want of a list. What its numbers say is not looked at: telling that is what `verifyLayout` is for.
 */

const LAYOUT = 'Hand in a layout of `layOut` or `readLayout`.';

const name = words();

/** Points are looked at in one go: a big layout has millions, and a field name for each would take longer than its use. */
const points = that(
  (value) => Array.isArray(value) && value.every((point) => Array.isArray(point)),
  'a list of points [x, y]',
);

const region = record({ outline: points, openings: listOf(points) });

const placement = record({ part: name, layer: name, region, veins: listOf(points) });

/** One board of a layout. */
export const laidBoardCheck: Check = record(
  {
    id: name,
    stock: name,
    species: name,
    usable: region,
    placements: listOf(placement),
    pieces: optional(listOf(name)),
  },
  LAYOUT,
);

/** The boards of a layout, for what reads nothing else of it. */
export const laidBoardsCheck: Check = record({ boards: listOf(laidBoardCheck) }, LAYOUT);

/** A whole layout. */
export const layoutCheck: Check = record(
  {
    setContents: listOf(record({ part: name, layer: name })),
    boards: listOf(laidBoardCheck),
    unplaced: listOf(record({ part: name, layer: name })),
    figures: record({ bySpecies: record({}) }),
  },
  LAYOUT,
);
