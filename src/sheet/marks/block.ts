import type { Mark } from './marks.ts';

/**
 * What stands beside the board and never on it: the calibration squares, the title block and the cautions. Each
 * block is drawn from its own corner (0, 0), so that a sheet or a page can set it where there is room.
 */
export interface Block {
  readonly id: string;
  readonly title: string;
  readonly width: number;
  readonly height: number;
  /**
   * Its marks with its upper left corner at (x, y) mm; of a large block each is made when it is asked for, and again
   * when asked for again.
   */
  readonly marksAt: (x: number, y: number) => Iterable<Mark>;
}
