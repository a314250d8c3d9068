import { throwOnErrors } from '../issues/fretlay-error.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { BoardPlan } from '../model/cut-plan.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { headline, type TitleFacts } from './blocks/title-blocks.ts';
import { boardMarks } from './board/board-marks.ts';
import { PartDrawer } from './board/part-marks.ts';
import { boardHead, boardWords, mapWords } from './board-words.ts';
import { isPrintable } from './marks/base-font-text.ts';
import { letters } from './marks/letters.ts';
import { type ClipMark, type MarkedDrawing, type MarkRole, rolesOf } from './marks/marks.ts';
import { pageMap } from './paper/board-map.ts';
import { type BoardTile, boardTiles, tileName } from './paper/board-tiles.ts';
import { BoxedMarks } from './paper/boxed-marks.ts';
import { coverPages } from './paper/cover.ts';
import { framedPage, NAME_SIZE, type PageName } from './paper/page-frame.ts';
import { type PageOptions, type PageSetup, pageSetups, ROLL_PAGE } from './paper/page-setup.ts';
import { drawerCheck, foreignPlans, pagesCheck } from './sheet-checks.ts';

/** What the pages have to know besides the layout. */
export interface PagesOptions extends Omit<TitleFacts, 'plan'>, PageOptions {
  /** The order of work on boards, by the id of the board. */
  readonly plans?: ReadonlyMap<string, BoardPlan> | undefined;
}

/** One page to print, in mm from the upper left corner of the paper. */
export interface SheetPage {
  /** From 1. */
  readonly number: number;
  readonly name: string;
  /** Made when asked for: a big job has hundreds of pages, and is printed one after the other. */
  readonly drawing: MarkedDrawing;
}

/** The pages of one board. */
export interface BoardPages {
  readonly board: LaidBoard;
  readonly tiles: readonly BoardTile[];
  /** What is drawn on them. */
  readonly roles: ReadonlySet<MarkRole>;
}

/**
 * All pages of a layout: cover pages with calibration squares, cautions and a map of where each page goes, then
 * the boards that carry parts, tiled. All in mm of paper.
 *
 * @param drawer share one with other drawings of the layout: room for labels is then found once
 * @throws FretlayError for what is no layout, and when the options make no sense or leave no room on a page
 */
export function boardPages(layout: Layout, options: PagesOptions, drawer?: PartDrawer): SheetPage[] {
  throwOnErrors([
    ...layoutCheck('layout', layout),
    ...pagesCheck('options', options),
    ...drawerCheck('drawer', drawer),
  ]);
  throwOnErrors(foreignPlans('options.plans', options.plans, layout.boards));
  const { cover, following } = bindPages(
    layout,
    [...setBoards(layout, options, drawer ?? new PartDrawer(options))],
    options,
  );
  return [
    ...coverSheets(cover),
    ...following.map(({ tile, number, name, words }) => ({
      ...{ number, name },
      get drawing() {
        return framedPage(tile.setup, [windowMark(tile)], words, options.unit);
      },
    })),
  ];
}

/**
 * The pages of board after board. The marks of a board's pages are looked up in its drawing, and only the last drawing is
 * kept: whoever asks for them before the next board is set does not have it drawn again.
 */
export function* setBoards(layout: Layout, options: PagesOptions, drawer: PartDrawer): Generator<BoardPages> {
  const pageWidth = Math.min(...pageSetups(options, ROLL_PAGE).map(({ window }) => window.width));
  const draw = keepingLast(
    (board) =>
      new BoxedMarks(
        boardMarks(board, { plan: options.plans?.get(board.id), unit: options.unit, pageWidth }, drawer),
      ),
  );
  for (const board of layout.boards) {
    if (!carriesParts(board)) continue;
    const tiles = boardTiles(board, () => draw(board), options);
    yield { board, tiles, roles: new Set(tiles.flatMap(({ marks }) => [...rolesOf(marks)])) };
  }
}

/** A page of a board with what it is called. */
export interface BoundPage {
  readonly tile: BoardTile;
  readonly setup: PageSetup;
  /** Among all pages, from 1. */
  readonly number: number;
  readonly name: string;
  /** What stands above its window. */
  readonly words: PageName;
}

/** The cover of the pages of boards, and those pages with their numbers; drawings are in mm of paper. */
export function bindPages(
  layout: Layout,
  boards: readonly BoardPages[],
  options: PagesOptions,
): { readonly cover: readonly MarkedDrawing[]; readonly following: readonly BoundPage[] } {
  const tiles = boards.flatMap(({ board, tiles }) => tiles.map((tile) => ({ board, tile })));
  const drawn = new Set(boards.flatMap(({ roles }) => [...roles]));
  const blocks = (widths: readonly number[], first: number) => mapBlocks(boards, first, widths, options);
  const lossy = losesLetters(layout, options);
  const laid = boards.map(({ board }) => board);
  const cover = coverPages({ boards: laid, drawn, following: tiles.length, blocks, lossy }, options);
  const total = cover.length + tiles.length;
  const following = tiles.map(({ board, tile }, i): BoundPage => {
    const number = cover.length + i + 1;
    const words = pageName(board, tile, `page ${number} of ${total}`, options);
    return { tile, setup: tile.setup, number, name: `${board.id} ${tileName(tile)}`, words };
  });
  return { cover, following };
}

/**
 * Draws boards and keeps the drawing of the last one only: a job of any size takes the memory of one board. All pages
 * of a board are set one after the other, and printed so too.
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

/** What of its board a page shows, in the window of its setup. */
export function windowMark(tile: BoardTile): ClipMark {
  const { x, y, width, height } = tile.setup.window;
  return {
    kind: 'clip',
    id: 'window',
    window: { minX: x, minY: y, maxX: x + width, maxY: y + height },
    shift: [x - tile.window.minX, y - tile.window.minY],
    marks: tile.marks,
  };
}

function pageName(board: LaidBoard, tile: BoardTile, pageOf: string, options: PagesOptions): PageName {
  const column = `column ${letters(tile.column)} of ${letters(tile.columns - 1)}`;
  return {
    subject: boardHead(board, options.unit, tile.setup.window.width, NAME_SIZE),
    left: headline(options),
    right: [column, `row ${tile.row + 1} of ${tile.rows}`, pageOf, 'print at 100 %'],
  };
}

function mapBlocks(
  boards: readonly BoardPages[],
  first: number,
  widths: readonly number[],
  options: PagesOptions,
) {
  let next = first;
  return boards.map(({ board, tiles }) => {
    const pages = tiles.length === 1 ? `page ${next}` : `pages ${next} to ${next + tiles.length - 1}`;
    next += tiles.length;
    const words = boardWords(board, options.unit);
    return pageMap(board, tiles, { board: words, pages, more: mapWords(board, options.unit) }, widths);
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
