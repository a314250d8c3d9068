import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';
import { moveMarks } from './arrange.ts';
import { type BoardTile, tileName } from './board-tiles.ts';
import { type Mark, rectangle, rings, text } from './marks.ts';
import { fitted } from './text-width.ts';
import type { Block } from './title-blocks.ts';

const TEXT_SIZE = 3;
const NAME_SIZE = 2.6;

/** A small map of a board with its pages, as wide as the cover allows: where each page goes. */
export function pageMap(
  board: LaidBoard,
  tiles: readonly BoardTile[],
  firstPage: number,
  width: number,
  unit: DisplayUnit,
): Block {
  const box = boundsOf([
    ...board.usable.outline,
    ...tiles.flatMap(({ window }) =>
      rectangle(window.minX, window.minY, 0, 0).concat([[window.maxX, window.maxY]]),
    ),
  ]);
  const scale = Math.min((width - 2) / (box.maxX - box.minX), 60 / (box.maxY - box.minY));
  const top = 8;
  const map = ([x, y]: readonly [number, number]) =>
    [(x - box.minX) * scale + 1, (y - box.minY) * scale + top] as const;
  const marks: Mark[] = [
    ...board.placements.map(({ region }) =>
      rings('map-part', ...[region.outline, ...region.openings].map((ring) => ring.map(map))),
    ),
    rings('board-edge', board.usable.outline.map(map)),
    ...tiles.flatMap((tile) => tileMarks(tile, map)),
  ];
  const copies = board.copies > 1 ? `, ${board.copies} boards alike` : '';
  const last = firstPage + tiles.length - 1;
  const pages = tiles.length === 0 ? 'no pages' : `pages ${firstPage} to ${last}`;
  const thick = formatLength(board.thickness, unit, 2);
  const words = `${board.id}: ${board.species}, ${thick} thick${copies}, ${pages}`;
  marks.unshift(text('text', fitted(words, width - 2, TEXT_SIZE), [1, 5], TEXT_SIZE));
  const height = top + (box.maxY - box.minY) * scale + 1;
  return { id: `map-${firstPage}`, title: `Pages of board ${board.id}`, width, height, marks };
}

function tileMarks(
  tile: BoardTile,
  map: (point: readonly [number, number]) => readonly [number, number],
): Mark[] {
  const { minX, minY, maxX, maxY } = tile.window;
  const corner = map([minX, minY]);
  return [
    rings('map-page', rectangle(minX, minY, maxX - minX, maxY - minY).map(map)),
    text('heading', tileName(tile), [corner[0] + 1.2, corner[1] + NAME_SIZE + 0.6], NAME_SIZE),
  ];
}

/** Blocks set one below the other on as many pages as they need; each page as the marks on it. */
export function stackBlocks(blocks: readonly Block[], x: number, y: number, height: number): Mark[][] {
  const pages: Mark[][] = [[]];
  let used = 0;
  for (const block of blocks) {
    if (used > 0 && used + block.height > height) {
      pages.push([]);
      used = 0;
    }
    pages[pages.length - 1].push({
      kind: 'group',
      id: `${block.id}`,
      title: block.title,
      marks: moveMarks(block.marks, x, y + used),
    });
    used += block.height + 5;
  }
  return pages;
}
