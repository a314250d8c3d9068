import { regionArea, regionsArea, ringArea } from '../geometry/ring.ts';
import { type Box, boundsOf, type Line } from '../geometry/shapes.ts';
import { listOf, number, optional, record } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { LENGTH, SOME_LENGTH } from '../issues/number-issue.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import type { Batch } from '../model/batch.ts';
import type { LaidBoard, Layout, Offcut, Section } from '../model/layout.ts';
import { laidBoardsCheck } from '../model/layout-checks.ts';
import type { Board } from '../model/stock.ts';
import { boardCheck } from './board-checks.ts';
import { partitionBoard } from './board-partition.ts';
import { outside, within } from './box-clipping.ts';
import { allOf, divideRest } from './divide-rest.ts';
import { USUAL_CROSSCUT_KERF, USUAL_KEEP } from './keep-rule.ts';
import { divideCell, obstaclesOf } from './offcuts.ts';
import { isLevelAt } from './sound-edges.ts';
import { trimmedOutline } from './trim.ts';

const batchCheck = record(
  {
    boards: listOf(boardCheck),
    kerf: number(LENGTH),
    keep: optional(record({ length: number(SOME_LENGTH), width: number(SOME_LENGTH) })),
    crosscutKerf: optional(number(LENGTH)),
  },
  'Hand in the batch that was laid out.',
);

/**
 * The layout with what is left of its boards: their keepers, and where their whole areas go.
 *
 * @throws FretlayError for what is no layout or no batch, and where the batch has no board that the layout lies on
 */
export function withRemains(layout: Layout, batch: Batch): Layout {
  throwOnErrors([...laidBoardsCheck('layout', layout), ...batchCheck('batch', batch)]);
  const stock = new Map(batch.boards.map((board) => [board.id, board]));
  throwOnErrors(foreignBoards(layout, stock));
  const boards = layout.boards.map((laid) => withOffcuts(laid, stock.get(laid.stock)!, batch));
  return { ...layout, boards };
}

function foreignBoards({ boards }: Layout, stock: ReadonlyMap<string, Board>): Issue[] {
  const known = [...stock.keys()].map((id) => `"${id}"`);
  return boards.flatMap(({ stock: id }, i): Issue[] =>
    stock.has(id)
      ? []
      : [
          wrongValue(
            `layout.boards[${i}].stock`,
            id,
            known.length === 0 ? 'a board of the batch, which has none' : `one of ${known.join(', ')}`,
            'Hand in the batch that was laid out, with the boards bought for it.',
          ),
        ],
  );
}

/** Adds to a laid board what is left of it: its keepers, and where its whole area goes. */
export function withOffcuts(laid: LaidBoard, board: Board, batch: Batch): LaidBoard {
  const trimmed = trimmedOutline(board);
  const parts = laid.placements.map(({ region }) => region);
  const sawn = partitionBoard({
    outline: board.outline,
    trimmed,
    defects: board.defects,
    parts,
    kerf: batch.kerf,
  });
  const box = boundsOf(trimmed.outline);
  const rules = {
    keep: batch.keep ?? USUAL_KEEP,
    kerf: batch.crosscutKerf ?? USUAL_CROSSCUT_KERF,
    isStraight: (from: number, to: number) => isLevelAt(trimmed.outline, box.maxY, [from, to]),
  };
  const cells = cellsOf(box, laid.sections);
  const ends = laid.sections === undefined ? [] : partedEnds(box, boundsOf(laid.usable.outline), rules.kerf);
  const middle =
    ends.length === 0
      ? sawn.rest
      : outside(
          sawn.rest,
          ends.map((end) => end.box),
        );
  const remains = allOf([
    divideRest(middle, obstaclesOf(parts, batch.kerf), cells, rules),
    ...ends.map(({ box, line }) =>
      divideCell({ box, wood: within(sawn.rest, box), obstacles: [], lines: [line] }, rules),
    ),
  ]);
  const offcuts = remains.keepers.map(
    ({ region, rectangle, lines }, i): Offcut => ({
      id: `${laid.id} keeper ${i + 1}`,
      region,
      rectangle,
      area: regionArea(region),
      lines,
    }),
  );
  const partArea = regionsArea(parts);
  return {
    ...laid,
    offcuts,
    areas: {
      board: ringArea(board.outline),
      trims: regionsArea(sawn.trims),
      defects: regionsArea(sawn.defects),
      parts: partArea,
      openings: regionsArea(sawn.openings),
      kerf: regionsArea(sawn.sawn) - partArea + regionsArea(remains.kerf),
      keepers: regionsArea(remains.keepers.map(({ region }) => region)),
      scrap: remains.scrap,
    },
  };
}

/**
 * The ends of a board that a crack all across it parts from what is used, with the cut beside the crack: sections lie in the
 * piece that is used alone, and wood beyond the cut is neither theirs nor what a cut takes.
 */
function partedEnds(whole: Box, used: Box, kerf: number): { readonly box: Box; readonly line: Line }[] {
  const { minY, maxY } = whole;
  const across = (x: number): Line => [
    [x, minY],
    [x, maxY],
  ];
  return [
    { box: { ...whole, maxX: used.minX - kerf }, line: across(used.minX - kerf / 2) },
    { box: { ...whole, minX: used.maxX + kerf }, line: across(used.maxX + kerf / 2) },
  ].filter(({ box }) => box.maxX > box.minX);
}

/** The boxes a board is cut into before it is sawn: its sections, or the whole board. */
function cellsOf(box: Box, sections: readonly Section[] = []): Box[] {
  if (sections.length === 0) return [box];
  return sections.map(({ from, to }) => ({ ...box, minX: from, maxX: to }));
}
