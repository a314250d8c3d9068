import { type Line, movedBox, type Point } from '../../geometry/shapes.ts';
import type { Block } from './block.ts';
import type { GroupMark, Mark } from './marks.ts';

/** Gap between blocks, mm. */
const GAP = 6;

/** A block with the place of its upper left corner. */
export interface SetBlock {
  readonly block: Block;
  readonly x: number;
  readonly y: number;
}

/** Blocks in rows of at most `width` mm, in the order given and `gap` mm apart, and the height they take together. */
export function arrangeBlocks(
  blocks: readonly Block[],
  width: number,
  gap = GAP,
): { readonly placed: readonly SetBlock[]; readonly width: number; readonly height: number } {
  const placed: SetBlock[] = [];
  let x = 0;
  let y = 0;
  let rowHeight = 0;
  let widest = 0;
  for (const block of blocks) {
    // A hair more: columns that make the width have sums with a last digit.
    if (x > 0 && x + block.width > width + 1e-9) {
      x = 0;
      y += rowHeight + gap;
      rowHeight = 0;
    }
    placed.push({ block, x, y });
    widest = Math.max(widest, x + block.width);
    x += block.width + gap;
    rowHeight = Math.max(rowHeight, block.height);
  }
  return { placed, width: widest, height: y + rowHeight };
}

/** The marks of a block as one group, its upper left corner at (x, y) mm. */
export function blockGroup({ id, title, marksAt }: Block, x: number, y: number): GroupMark {
  return { kind: 'group', id, title, marks: { [Symbol.iterator]: () => marksAt(x, y)[Symbol.iterator]() } };
}

/** A block of marks that are drawn once from its own corner (0, 0), and moved to where it stands. */
export function drawnBlock(block: Omit<Block, 'marksAt'>, marks: readonly Mark[]): Block {
  return { ...block, marksAt: (x, y) => moveMarks(marks, x, y) };
}

/** Marks moved by (dx, dy) mm. */
export function moveMarks(marks: Iterable<Mark>, dx: number, dy: number): Mark[] {
  return Array.from(marks, (mark) => movedMark(mark, dx, dy));
}

function movedMark(mark: Mark, dx: number, dy: number): Mark {
  switch (mark.kind) {
    case 'group':
      return { ...mark, marks: moveMarks(mark.marks, dx, dy) };
    case 'clip': {
      const window = movedBox(mark.window, dx, dy);
      return { ...mark, window, shift: [mark.shift[0] + dx, mark.shift[1] + dy] };
    }
    case 'map':
      return { ...mark, shift: [mark.shift[0] + dx, mark.shift[1] + dy] };
    case 'text':
      return { ...mark, at: [mark.at[0] + dx, mark.at[1] + dy] };
    case 'line':
      return { ...mark, points: movedLine(mark.points, dx, dy) };
    case 'rings':
      return { ...mark, rings: mark.rings.map((ring) => movedLine(ring, dx, dy)) };
  }
}

function movedLine(line: Line, dx: number, dy: number): Line {
  return line.map((point): Point => [point[0] + dx, point[1] + dy]);
}
