import type { BoardPlan } from '../model/cut-plan.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { formatLength } from '../units/length.ts';
import { headline, type TitleFacts } from './blocks/title-blocks.ts';
import { boardMarks } from './board/board-marks.ts';
import { PartDrawer } from './board/part-marks.ts';
import { isPrintable } from './marks/base-font-text.ts';
import { type ClipMark, type MarkedDrawing, type MarkRole, rolesOf } from './marks/marks.ts';
import { pageMap } from './paper/board-map.ts';
import { type BoardTile, boardTiles, columnName, tileName } from './paper/board-tiles.ts';
import { BoxedMarks } from './paper/boxed-marks.ts';
import { coverPages } from './paper/cover.ts';
import { framedPage } from './paper/page-frame.ts';
import type { PageOptions } from './paper/page-setup.ts';
import { stackWords } from './stack-words.ts';

/** What the pages have to know besides the layout. */
export interface PagesOptions extends Omit<TitleFacts, 'plan'>, PageOptions {
  /** The order of work on boards, by the id of the board. */
  readonly plans?: ReadonlyMap<string, BoardPlan>;
}

/** One page to print, in mm from the upper left corner of the paper. */
export interface SheetPage {
  /** From 1. */
  readonly number: number;
  readonly name: string;
  /** Made when asked for: a big job has hundreds of pages, and is printed one after the other. */
  readonly drawing: MarkedDrawing;
}

interface BoardPages {
  readonly board: LaidBoard;
  readonly tiles: readonly BoardTile[];
  /** What is drawn on them. */
  readonly roles: ReadonlySet<MarkRole>;
}

/**
 * All pages of a layout: cover pages with calibration squares, cautions and a map of where each page goes, then
 * the boards that carry parts, tiled. All in mm of paper; throws a FretlayError when the paper leaves no room.
 *
 * @param drawer share one with other drawings of the layout: room for labels is then found once
 */
export function boardPages(
  layout: Layout,
  options: PagesOptions,
  drawer: PartDrawer = new PartDrawer(options),
): SheetPage[] {
  const draw = keepingLast(
    (board) => new BoxedMarks(boardMarks(board, { plan: options.plans?.get(board.id) }, drawer)),
  );
  const boards = layout.boards
    .filter(({ placements }) => placements.length > 0)
    .map((board): BoardPages => {
      const tiles = boardTiles(board, () => draw(board), options);
      return { board, tiles, roles: new Set(tiles.flatMap(({ marks }) => [...rolesOf(marks)])) };
    });
  const following = boards.reduce((sum, { tiles }) => sum + tiles.length, 0);
  const drawn = new Set(boards.flatMap(({ roles }) => [...roles]));
  const blocks = (width: number, first: number) => mapBlocks(boards, first, width, options);
  const cover = coverPages(
    { boards: boards.length, drawn, following, blocks, lossy: losesLetters(layout, options) },
    options,
  );
  const total = cover.length + following;
  const tiles = boards.flatMap(({ board, tiles }) => tiles.map((tile) => ({ board, tile })));
  return [
    ...coverSheets(cover),
    ...tiles.map(({ board, tile }, i) => {
      const number = cover.length + i + 1;
      return {
        number,
        name: `${board.id} ${tileName(tile)}`,
        get drawing() {
          return tilePage(board.id, tile, `page ${number} of ${total}`, options);
        },
      };
    }),
  ];
}

/**
 * Draws boards and keeps the drawing of the last one only. All pages of a board are set, and later printed, one after
 * the other: so each board is drawn twice, and a job of any size takes the memory of one board.
 */
function keepingLast(draw: (board: LaidBoard) => BoxedMarks): (board: LaidBoard) => BoxedMarks {
  let last: { readonly board: LaidBoard; readonly drawn: BoxedMarks } | undefined;
  return (board) => {
    if (last?.board !== board) {
      last = undefined;
      last = { board, drawn: draw(board) };
    }
    return last.drawn;
  };
}

/** Cover pages as the first pages to print. */
export function coverSheets(cover: readonly MarkedDrawing[]): SheetPage[] {
  return cover.map((drawing, i) => ({ number: i + 1, name: i === 0 ? 'cover' : `cover ${i + 1}`, drawing }));
}

/** A page that shows one window of a larger drawing. */
function tilePage(name: string, tile: BoardTile, pageOf: string, options: PagesOptions): MarkedDrawing {
  const { x, y, width, height } = tile.setup.window;
  const seen: ClipMark = {
    kind: 'clip',
    id: 'window',
    window: { minX: x, minY: y, maxX: x + width, maxY: y + height },
    shift: [x - tile.window.minX, y - tile.window.minY],
    marks: tile.marks,
  };
  const column = `column ${columnName(tile.column)} of ${columnName(tile.columns - 1)}`;
  const right = [column, `row ${tile.row + 1} of ${tile.rows}`, pageOf, 'print at 100 %'];
  const names = { left: `${name} \u00b7 ${headline(options)}`, right: right.join(' \u00b7 ') };
  return framedPage(tile.setup, [seen], names, options.unit);
}

function mapBlocks(boards: readonly BoardPages[], first: number, width: number, options: PagesOptions) {
  let next = first;
  return boards.map(({ board, tiles }) => {
    const pages = tiles.length === 1 ? `page ${next}` : `pages ${next} to ${next + tiles.length - 1}`;
    next += tiles.length;
    return pageMap(board, tiles, `${boardWords(board, options)}, ${pages}`, width);
  });
}

/** True when a name holds letters that the fonts of a PDF lack: the cover then says what a question mark means. */
export function losesLetters(layout: Layout, { job, design = '' }: PagesOptions): boolean {
  const names = layout.boards.flatMap(({ id, species, placements }) => [
    ...[id, species],
    ...placements.flatMap(({ layer, part }) => [layer, part]),
  ]);
  return [job, design, ...new Set(names)].some((name) => !isPrintable(name));
}

/** A board in one line. */
export function boardWords(board: LaidBoard, { unit }: PagesOptions): string {
  return `${board.id}: ${board.species}, ${formatLength(board.thickness, unit, 2)} thick${stackWords(board)}`;
}
