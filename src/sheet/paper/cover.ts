import type { BoardPlan } from '../../model/cut-plan.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { keyBlocks } from '../blocks/key-block.ts';
import {
  calibrationBlocks,
  cautionBlock,
  jobBlock,
  TITLE_WIDTH,
  type TitleFacts,
} from '../blocks/title-blocks.ts';
import { arrangeBlocks, blockGroup, drawnBlock, type SetBlock } from '../marks/arrange.ts';
import type { Block } from '../marks/block.ts';
import type { MarkedDrawing, MarkRole } from '../marks/marks.ts';
import { type PageOptions, type PageSetup, pageSetups, ROLL_PAGE } from './page-setup.ts';

/** Gap between blocks of a cover, mm. */
const GAP = 5;

/** What the cover says of the pages that follow it. */
export interface CoverContent {
  /** The boards that carry parts. */
  readonly boards: readonly LaidBoard[];
  /** What is drawn on the pages that follow: the key explains it. */
  readonly drawn: ReadonlySet<MarkRole>;
  /** True when names hold letters that do not print. */
  readonly lossy: boolean;
  /** Pages that follow the cover. */
  readonly following: number;
  /** The blocks below the head, given the widths they may take (mm, each the narrowest that will do) and the number of the page
   * after the cover. */
  readonly blocks: (widths: readonly number[], firstPage: number) => readonly Block[];
}

/** What is said of the job, and the paper it is said on. */
type CoverOptions = Omit<TitleFacts, 'plan'> &
  PageOptions & {
    /** The order of work on boards, by the id of the board: the drills for all of them are named. */
    readonly plans?: ReadonlyMap<string, BoardPlan>;
  };

/**
 * Cover pages: calibration squares, cautions, job and key, then blocks that name page numbers. Those follow from how
 * many pages the cover takes: so it is set once to count them, and again with the right numbers. What is on a page is
 * put together when its marks are asked for: the maps of many boards have as many points as some boards.
 */
export function coverPages(content: CoverContent, options: CoverOptions): MarkedDrawing[] {
  const setup = coverSetup(options);
  const width = setup.width - 2 * setup.margin;
  const height = setup.height - 2 * setup.margin;
  const set = (columns: number, count: number) => {
    const head = headBlocks(content, count + content.following, { width, height }, options);
    const widths = Array.from({ length: columns }, (_, i) => columnWidth(width, columns - i));
    return stackBlocks([...head, ...content.blocks(widths, count + 1)], { width, height });
  };
  // Page numbers of any length take the same room here, so that the second setting has as many pages as the first.
  const counts = COLUMNS.filter(
    (columns) => columns === 1 || columnWidth(width, columns) >= NARROWEST_COLUMN,
  ).map((columns) => ({ columns, pages: set(columns, 1).length }));
  const { columns, pages } = counts.reduce((best, each) => (each.pages < best.pages ? each : best));
  return set(columns, pages).map((blocks) => ({
    ...{ x: 0, y: 0, width: setup.width, height: setup.height },
    get marks() {
      return blocks.map(({ block, x, y }) => blockGroup(block, setup.margin + x, setup.margin + y));
    },
  }));
}

/** How many maps may stand side by side: as few as take the fewest pages, for a larger map is easier to read. */
const COLUMNS = [1, 2, 3];

/** Narrowest map beside another, mm: what stands above it is to take few lines. */
const NARROWEST_COLUMN = 55;

function columnWidth(width: number, columns: number): number {
  return (width - (columns - 1) * GAP) / columns;
}

function coverSetup(options: PageOptions): PageSetup {
  const setupOf = (orientation: 'portrait' | 'landscape') =>
    pageSetups({ ...options, orientation }, ROLL_PAGE)[0];
  const setup = setupOf(options.orientation === 'landscape' ? 'landscape' : 'portrait');
  // Small paper is wide enough for the widest block one way round only.
  return setup.width - 2 * setup.margin < TITLE_WIDTH ? setupOf('landscape') : setup;
}

/**
 * Calibration squares, cautions, job and key in rows as the page is wide: as one block, or each row by itself where all
 * of them are higher than a page.
 */
function headBlocks(
  { boards, drawn, lossy }: CoverContent,
  pages: number,
  room: { readonly width: number; readonly height: number },
  options: CoverOptions,
): Block[] {
  const job = jobBlock(boards, pages, lossy, options, options.plans, room);
  const blocks = [
    ...calibrationBlocks(room.width),
    ...[cautionBlock(room.width), job],
    ...keyBlocks(drawn, room),
  ];
  const { placed, height } = arrangeBlocks(blocks, room.width);
  const rows = height <= room.height ? [0] : [...new Set(placed.map(({ y }) => y))];
  return rows.map((top, i) => {
    const own = rows.length === 1 ? placed : placed.filter(({ y }) => y === top);
    const lowest = Math.max(...own.map(({ block, y }) => y + block.height));
    return drawnBlock(
      {
        id: i === 0 ? 'head' : `head-${i + 1}`,
        title: 'Calibration squares, cautions, job and key',
        width: room.width,
        height: lowest - top,
      },
      own.flatMap(({ block, x, y }) => [...block.marksAt(x, y - top)]),
    );
  });
}

/** Blocks in rows, and the rows one below the other on as many pages as they need, by page. */
function stackBlocks(
  blocks: readonly Block[],
  room: { readonly width: number; readonly height: number },
): SetBlock[][] {
  const { placed } = arrangeBlocks(blocks, room.width, GAP);
  const pages: SetBlock[][] = [[]];
  // Where the rows of a page begin, were all of them on one.
  let top = 0;
  for (const first of new Set(placed.map(({ y }) => y))) {
    const row = placed.filter(({ y }) => y === first);
    const bottom = Math.max(...row.map(({ block, y }) => y + block.height));
    if (first > top && bottom - top > room.height) {
      pages.push([]);
      top = first;
    }
    pages[pages.length - 1].push(...row.map((each) => ({ ...each, y: each.y - top })));
  }
  return pages;
}
