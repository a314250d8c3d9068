import { keyBlock } from '../blocks/key-block.ts';
import { calibrationBlock, cautionBlock, jobBlock, type TitleFacts } from '../blocks/title-blocks.ts';
import { arrangeBlocks, moveMarks } from '../marks/arrange.ts';
import type { Block } from '../marks/block.ts';
import type { Mark, MarkedDrawing } from '../marks/marks.ts';
import { type PageOptions, type PageSetup, pageSetups } from './page-setup.ts';

/** Gap between blocks of a cover, mm. */
const GAP = 5;
/** Length of a cover cut from a roll, mm. */
const ROLL_LENGTH = 240;

/** What the cover says of the pages that follow it. */
export interface CoverContent {
  readonly boards: number;
  /** What is drawn on the pages that follow: the key explains it. */
  readonly drawn: readonly Mark[];
  /** Pages that follow the cover. */
  readonly following: number;
  /** The blocks below the head, given the width they may take (mm) and the number of the page after the cover. */
  readonly blocks: (width: number, firstPage: number) => readonly Block[];
}

/**
 * Cover pages: calibration squares, cautions, job and key, then blocks that name page numbers. Those follow from how
 * many pages the cover takes: so it is set once to count them, and again with the right numbers.
 */
export function coverPages(content: CoverContent, options: TitleFacts & PageOptions): MarkedDrawing[] {
  const setup = coverSetup(options);
  const width = setup.width - 2 * setup.margin;
  const height = setup.height - 2 * setup.margin;
  const set = (count: number) => {
    const head = headBlock(content, count + content.following, width, options);
    return stackBlocks([head, ...content.blocks(width, count + 1)], setup.margin, height);
  };
  // Page numbers of any length take the same room here, so that the second setting has as many pages as the first.
  return set(set(1).length).map((marks) => ({ x: 0, y: 0, width: setup.width, height: setup.height, marks }));
}

function coverSetup(options: PageOptions): PageSetup {
  const orientation = options.orientation === 'landscape' ? 'landscape' : 'portrait';
  return pageSetups({ ...options, orientation }, ROLL_LENGTH)[0];
}

/** Calibration squares, cautions, job and key as one block, in rows as the page is wide. */
function headBlock({ boards, drawn }: CoverContent, pages: number, width: number, facts: TitleFacts): Block {
  const blocks = [calibrationBlock(), cautionBlock(), jobBlock(boards, pages, facts), keyBlock(drawn)];
  const { placed, height } = arrangeBlocks(blocks, width);
  const marks = placed.flatMap(({ block, x, y }) => moveMarks(block.marks, x, y));
  return { id: 'head', title: 'Calibration squares, cautions, job and key', width, height, marks };
}

/** Blocks set one below the other on as many pages as they need; each page as the marks on it. */
function stackBlocks(blocks: readonly Block[], margin: number, height: number): Mark[][] {
  const pages: Mark[][] = [[]];
  let used = 0;
  for (const { id, title, marks, height: needed } of blocks) {
    if (used > 0 && used + needed > height) {
      pages.push([]);
      used = 0;
    }
    const moved = moveMarks(marks, margin, margin + used);
    pages[pages.length - 1].push({ kind: 'group', id, title, marks: moved });
    used += needed + GAP;
  }
  return pages;
}
