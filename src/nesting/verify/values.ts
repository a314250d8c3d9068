import { FARTHEST_MM } from '../../geometry/integer-grid.ts';
import { line, ring, rings } from '../../geometry/point-checks.ts';
import {
  type Check,
  flag,
  listOf,
  mapOf,
  number,
  oneOf,
  optional,
  record,
  that,
  words,
} from '../../issues/checks.ts';
import type { Issue } from '../../issues/issue.ts';
import { FINITE, LENGTH, SOME_LENGTH } from '../../issues/number-issue.ts';
import type { Layout } from '../../model/layout.ts';
import { MOST_COPIES } from '../../model/limits.ts';
import { breach } from './places.ts';

/**
 * That the values of a layout are such as there can be. Comparisons alone do not tell: to the language `null >= 0` is
 * true, and a file from anywhere may have null for a kerf, which is what JSON makes of a number that is none.
 */

const length = number(LENGTH);
const some = number(SOME_LENGTH);
const finite = number(FINITE);
const amount = number({ ...FINITE, least: 0 });
const place = number({ least: -FARTHEST_MM, most: FARTHEST_MM, unit: 'mm' });
const count = number({ least: 1, most: MOST_COPIES, whole: true });
/** Whether there is such a set is told with the counts. */
const setNumber = number({ ...FINITE, whole: true });

/** Areas of one board, mm2. Those of kerf and scrap are differences, which rounding may bring below 0. */
const boardAreas = record({
  board: number({ ...FINITE, least: 0, above: true }),
  trims: amount,
  defects: amount,
  parts: amount,
  openings: amount,
  kerf: finite,
  keepers: amount,
  scrap: finite,
});

const offcut = record({
  id: words(),
  region: rings,
  rectangle: record({ minX: place, minY: place, maxX: place, maxY: place }),
  area: amount,
  lines: listOf(line),
});

const totals = {
  boards: amount,
  parts: amount,
  partArea: amount,
  boardArea: amount,
  yield: amount,
  boardFeet: amount,
  cutLength: amount,
  openings: amount,
};

const layoutValues: Check = record({
  format: oneOf(['fretlay-layout']),
  version: that((value) => value === 1, '1'),
  unit: oneOf(['mm']),
  kerf: length,
  clearance: length,
  edgeMargin: length,
  sets: number({ least: 0, most: MOST_COPIES, whole: true }),
  setsTogether: optional(flag()),
  setContents: listOf(
    record({
      copiesPerSet: count,
      grain: oneOf(['along', 'across', 'free']),
      grainTolerance: number({ least: 0, most: 180, unit: 'degrees' }),
      turnOver: flag(),
      restEdge: optional(flag()),
      region: optional(rings),
    }),
  ),
  boards: listOf(
    record({
      thickness: some,
      copies: count,
      outline: optional(ring),
      trimmed: optional(record({ topEdge: length, straightEdge: length, leftEnd: length, rightEnd: length })),
      straightTopEdge: optional(flag()),
      planeTo: optional(some),
      slices: optional(count),
      strips: optional(count),
      lengths: optional(count),
      sections: optional(listOf(record({ number: count, from: place, to: place }))),
      placements: listOf(
        record({ set: setNumber, x: place, y: place, rotation: finite, turnedOver: flag() }),
      ),
      offcuts: optional(listOf(offcut)),
      areas: optional(boardAreas),
    }),
  ),
  unplaced: listOf(record({ set: number({ ...FINITE, least: 1, whole: true }), why: words() })),
  figures: record({ ...totals, completeSets: amount, bySpecies: mapOf(record(totals)) }),
});

/** Tells every value that cannot be; true when there is none. Only then the rest can be measured. */
export function checkValues(layout: Layout, breaches: Issue[]): boolean {
  const wrong = layoutValues('layout', layout).map(({ expected, received, where }) =>
    breach(
      'setting-invalid',
      'the layout states what cannot be',
      // Fields are told as they are in the file.
      { field: where?.field?.replace(/^layout\./, '') },
      { expected, received },
    ),
  );
  breaches.push(...wrong);
  return wrong.length === 0;
}
