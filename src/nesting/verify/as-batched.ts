import { line, ring, rings } from '../../geometry/point-checks.ts';
import { type Check, flag, listOf, number, oneOf, optional, record, words } from '../../issues/checks.ts';
import type { Issue, IssuePlace } from '../../issues/issue.ts';
import { FINITE, LENGTH, SOME_LENGTH } from '../../issues/number-issue.ts';
import type { Batch } from '../../model/batch.ts';
import type { Layout } from '../../model/layout.ts';
import { MOST_COPIES } from '../../model/limits.ts';
import { checkBatchedBoard, checkQuantities } from './batched-boards.ts';
import { checkBatchedSections } from './batched-sections.ts';
import { checkBatchedPins, checkBatchedSettings } from './batched-settings.ts';
import { breach, told } from './places.ts';

/**
 * Whether a layout is what its batch asks for: one that contradicts itself nowhere may still be for another blade, on boards that
 * are not there or of other wood, or for another saw.
 */

const size = number(SOME_LENGTH);
const length = number(LENGTH);
const finite = number(FINITE);
const count = number({ least: 1, most: MOST_COPIES, whole: true });

const rules = record({
  grain: oneOf(['along', 'across', 'free']),
  grainTolerance: number({ least: 0, most: 180, unit: 'degrees' }),
  turnOver: flag(),
  restEdge: flag(),
});

const demand = record({
  layer: words(),
  part: words(),
  region: rings,
  veins: listOf(line),
  copiesPerSet: count,
  species: words(),
  thickness: size,
  rules,
  stack: optional(count),
});

const trim = record({
  topEdge: length,
  straightEdge: (field, value) => (value === 'clean' ? [] : length(field, value)),
  leftEnd: length,
  rightEnd: length,
});

const boardEntry = record({
  id: words(),
  species: words(),
  thickness: size,
  outline: ring,
  defects: listOf(ring),
  quantity: finite,
  strips: optional(count),
  lengths: optional(count),
  trim: optional(trim),
});

const pinned = record({
  layer: words(),
  part: words(),
  board: words(),
  number: count,
  x: finite,
  y: finite,
  rotation: finite,
});

/** A batch so far as a layout is checked by it. */
export const batchForm: Check = record(
  {
    sets: count,
    kerf: length,
    clearance: length,
    edgeMargin: length,
    demands: listOf(demand),
    boards: listOf(boardEntry),
    thicknessTolerance: length,
    pins: optional(listOf(pinned)),
    keep: optional(record({ length: size, width: size })),
    crosscutKerf: optional(length),
    reach: optional(record({ throat: optional(size), longest: optional(size) })),
  },
  'Hand in the batch that was laid out, with the boards bought for it.',
);

/** Tells of a breach where something is not as it has to be; lengths are told in words, with their unit. */
export type Tell = (
  isRight: boolean,
  where: IssuePlace,
  expected: number | string | boolean,
  received: number | string | boolean,
) => void;

/** Checks settings, parts, pins and boards of a layout by the batch it was made for. */
export function checkAsBatched(layout: Layout, batch: Batch, breaches: Issue[]): void {
  const inWords = (value: number | string | boolean) =>
    typeof value === 'number' ? told(value) : `${value}`;
  const tell: Tell = (isRight, where, expected, received) => {
    if (isRight) return;
    const facts = { expected: inWords(expected), received: inWords(received) };
    breaches.push(breach('not-as-batched', 'the layout is not what its batch asks for', where, facts));
  };
  checkBatchedSettings(layout, batch, tell);
  checkBatchedPins(layout, batch, tell);
  checkQuantities(layout, batch, tell);
  layout.boards.forEach((board, i) => {
    const tellOfBoard: Tell = (isRight, { field, ...where }, ...found) => {
      const place = field === undefined ? {} : { field: `boards[${i}].${field}` };
      tell(isRight, { board: board.id, ...where, ...place }, ...found);
    };
    checkBatchedBoard(board, batch, tellOfBoard);
    checkBatchedSections(board, batch, tellOfBoard);
  });
}
