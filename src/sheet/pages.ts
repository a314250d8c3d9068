import type { Ring } from '../geometry/shapes.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { writeDocument } from '../svg/write.ts';
import { arrangeBlocks, moveMarks } from './arrange.ts';
import { boardMarks } from './board-marks.ts';
import { type BoardTile, boardTiles, columnName, tileName } from './board-tiles.ts';
import { pageMap, stackBlocks } from './cover.ts';
import { type Mark, type MarkedDrawing, rectangle, rings, text } from './marks.ts';
import { drawingToSvg } from './marks-to-svg.ts';
import { type PageOptions, type PageSetup, pageSetups } from './page-setup.ts';
import { PartDrawer } from './part-marks.ts';
import { ruleAcross, ruleDown } from './rule.ts';
import { fitted, textWidth } from './text-width.ts';
import { type Block, calibrationBlock, cautionBlock, jobBlock, type TitleFacts } from './title-blocks.ts';

/** What the pages have to know besides the layout. */
export interface PagesOptions extends Omit<TitleFacts, 'boardOutline'>, PageOptions {
  /** Outlines of boards before trimming, by the id of the board. */
  readonly boardOutlines?: ReadonlyMap<string, Ring>;
}

/** One page to print, in mm from the upper left corner of the paper. */
export interface SheetPage {
  /** From 1. */
  readonly number: number;
  readonly name: string;
  readonly drawing: MarkedDrawing;
}

const NAME_SIZE = 2.6;
const COVER_GAP = 6;

interface BoardPages {
  readonly board: LaidBoard;
  readonly tiles: readonly BoardTile[];
}

/**
 * All pages of a layout: cover pages with calibration squares, cautions and a map of where each page goes, then
 * the boards that carry parts, tiled. Throws a FretlayError when the paper leaves no room.
 */
export function layoutPages(layout: Layout, options: PagesOptions): SheetPage[] {
  const drawer = new PartDrawer();
  const boards = layout.boards
    .filter(({ placements }) => placements.length > 0)
    .map((board): BoardPages => {
      const drawn = boardMarks(board, options.boardOutlines?.get(board.id), drawer);
      return { board, tiles: boardTiles(board, drawn, options) };
    });
  const cover = coverPages(boards, options);
  const total = cover.length + boards.reduce((sum, { tiles }) => sum + tiles.length, 0);
  const tilePages = boards.flatMap(({ board, tiles }) =>
    tiles.map((tile) => ({ board, tile, name: `${board.id} ${tileName(tile)}` })),
  );
  return [
    ...cover.map((drawing, i) => ({ number: i + 1, name: i === 0 ? 'cover' : `cover ${i + 1}`, drawing })),
    ...tilePages.map(({ board, tile, name }, i) => {
      const number = cover.length + i + 1;
      return { number, name, drawing: tilePage(board, tile, `page ${number} of ${total}`, options) };
    }),
  ];
}

/** The pages as SVG files, one each, at true scale. */
export function drawPages(layout: Layout, options: PagesOptions): { name: string; svg: string }[] {
  return layoutPages(layout, options).map(({ name, number, drawing }) => ({
    name,
    svg: writeDocument(
      drawingToSvg(drawing, {
        title: `Page ${number}, ${name}`,
        description: `A page of the placement sheets of ${options.job}, to be printed at 100 %.`,
      }),
    ),
  }));
}

/** A page of a board: the window at true scale, its name above, a rule along two of its sides. */
function tilePage(board: LaidBoard, tile: BoardTile, pageOf: string, options: PagesOptions): MarkedDrawing {
  const { setup } = tile;
  const { x, y, width, height } = setup.window;
  const shift = [x - tile.window.minX, y - tile.window.minY] as const;
  const window = { minX: x, minY: y, maxX: x + width, maxY: y + height };
  const place = `column ${columnName(tile.column)} of ${columnName(tile.columns - 1)} \u00b7 row ${tile.row + 1} of ${tile.rows}`;
  const marks: Mark[] = [
    { kind: 'clip', id: 'window', window, shift, marks: tile.marks },
    rings('frame', rectangle(x, y, width, height)),
    ...ruleAcross(x, y, width, options.unit),
    ...ruleDown(x, y, height, options.unit),
    ...pageName(
      setup,
      `${board.id} \u00b7 ${options.job}`,
      `${place} \u00b7 ${pageOf} \u00b7 print at 100 %`,
    ),
  ];
  return { x: 0, y: 0, width: setup.width, height: setup.height, marks };
}

function pageName({ window, margin }: PageSetup, left: string, right: string): Mark[] {
  const baseline = margin + NAME_SIZE;
  const room = window.width - textWidth(right, NAME_SIZE) - 4;
  return [
    text('heading', fitted(left, room, NAME_SIZE), [window.x, baseline], NAME_SIZE),
    text('text', right, [window.x + window.width, baseline], NAME_SIZE, 'end'),
  ];
}

/**
 * Cover pages. The maps name page numbers, which follow the cover: so the cover is set once to count its pages,
 * and again with the numbers that follow from it.
 */
function coverPages(boards: readonly BoardPages[], options: PagesOptions): MarkedDrawing[] {
  const orientation = options.orientation === 'landscape' ? 'landscape' : 'portrait';
  const [setup] = pageSetups({ ...options, orientation }, 240);
  const width = setup.width - 2 * setup.margin;
  const height = setup.height - 2 * setup.margin;
  const pages = (first: number, total: number) =>
    stackBlocks(
      [headBlock(boards.length, total, width, options), ...mapBlocks(boards, first, width, options)],
      setup.margin,
      setup.margin,
      height,
    );
  const count = pages(1, 1).length;
  const total = count + boards.reduce((sum, { tiles }) => sum + tiles.length, 0);
  return pages(count + 1, total).map((marks) => ({
    x: 0,
    y: 0,
    width: setup.width,
    height: setup.height,
    marks,
  }));
}

/** Calibration squares, job and cautions as one block, in rows as the page is wide. */
function headBlock(boards: number, pages: number, width: number, options: PagesOptions): Block {
  const blocks = [calibrationBlock(), cautionBlock(), jobBlock(boards, pages, options)];
  const { placed, height } = arrangeBlocks(blocks, width);
  return {
    id: 'head',
    title: 'Calibration squares, job and cautions',
    width,
    height: height + COVER_GAP,
    marks: placed.flatMap(({ block, x, y }) => moveMarks(block.marks, x, y)),
  };
}

function mapBlocks(
  boards: readonly BoardPages[],
  first: number,
  width: number,
  options: PagesOptions,
): Block[] {
  let next = first;
  return boards.map(({ board, tiles }) => {
    const block = pageMap(board, tiles, next, width, options.unit);
    next += tiles.length;
    return block;
  });
}
