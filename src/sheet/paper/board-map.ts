import { type Box, boundsOf, boxesMeet, boxRing, middleOf, type Point } from '../../geometry/shapes.ts';
import { crossCutLines, ripsBeforeCrossCuts } from '../../model/cross-cuts.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { widestPlace } from '../board/part-label.ts';
import type { Block } from '../marks/block.ts';
import {
  line,
  type MapMark,
  type Mark,
  type MarkRole,
  rectangle,
  rings,
  type TextMark,
  text,
} from '../marks/marks.ts';
import { textBox, textWidth, wrapped } from '../marks/text-width.ts';
import { type BoardTile, type SkippedTile, tileName } from './board-tiles.ts';

/**
 * Small maps of a board for the cover: which page goes where, or which part. A map is as wide as the cover allows, or where
 * maps stand side by side as narrow as its names still have room, and at most 60 mm high; one of crowded parts twice that.
 */
const HIGHEST = 60;
const HIGHEST_CROWDED = 120;
/** Above a map: a line of text, and each further one, mm. */
const HEAD = 8;
const HEAD_STEP = 3.8;
const TEXT_SIZE = 3;
const NAME_SIZE = 2.6;
/** Of the numbers of parts, mm. */
const NUMBER_SIZES = [NAME_SIZE, 1.9];

/** What stands above a map. */
export interface MapHead {
  readonly board: string;
  /** Which pages are mapped; empty where none are. */
  readonly pages: string;
  /** That the board has no straight edge, and where it is cross-cut; empty where neither is to be said. */
  readonly more: string;
}

/** The numbers of pages are known last: whatever they are, they take no other line. */
const ANY_PAGES = 'pages 0000 to 0000';

function headLines({ board, pages, more }: MapHead, width: number): string[] {
  const inLines = (words: string) => wrapped(words, width - 2, TEXT_SIZE);
  const isOneLine = pages !== '' && textWidth(`${board}, ${ANY_PAGES}`, TEXT_SIZE) <= width - 2;
  const named = isOneLine ? [`${board}, ${pages}`] : [...inLines(board), ...inLines(pages)];
  return [...named, ...inLines(more)];
}

/**
 * A map of the pages of a board, each with its name; where nothing is to print, what page is not there: a page that is
 * missing is else looked for in the printer.
 *
 * @param widths it may take, mm: the first in which every name has room is taken, or else the last
 */
export function pageMap(
  board: LaidBoard,
  tiles: readonly BoardTile[],
  head: MapHead,
  widths: readonly number[],
): Block {
  const skipped = tiles[0]?.skipped ?? [];
  const all = [...tiles, ...skipped];
  const windows = all.map(({ window }) => window);
  const marks = (map: BoardMap) => {
    const frame = (role: MarkRole, { minX, minY, maxX, maxY }: Box) =>
      rings(
        role,
        rectangle(minX, minY, maxX - minX, maxY - minY).map((corner) => map.point(corner)),
      );
    return [
      ...skipped.map(({ window }) => frame('map-skipped', window)),
      ...tiles.map(({ window }) => frame('map-page', window)),
      ...tiles.flatMap((tile) => nameMarks(map, tileName(tile), ownPart(tile, all), 'heading')),
      ...skipped.flatMap((tile) => nameMarks(map, `no ${tileName(tile)}`, ownPart(tile, all), 'caption')),
    ];
  };
  const box = mappedBox(board, { windows, marks });
  const names = [...tiles.map(tileName), ...skipped.map((tile) => `no ${tileName(tile)}`)];
  const room = all.map((tile) => ownPart(tile, all));
  const isLegible = (width: number) => {
    const scale = mapScale(box, width, HIGHEST);
    return room.every(
      ({ minX, minY, maxX, maxY }, i) =>
        nameRoom(names[i]) <= (maxX - minX) * scale && NAME_ROW <= (maxY - minY) * scale,
    );
  };
  return mapBlock(board, head, firstOrLast(widths, isLegible), { windows, marks });
}

/** Height and width of a name with the white under it, mm. */
const NAME_ROW = 1.4 * NAME_SIZE;
function nameRoom(name: string): number {
  return textWidth(name, NAME_SIZE) + 1;
}

function firstOrLast(widths: readonly number[], isLegible: (width: number) => boolean): number {
  return widths.slice(0, -1).find(isLegible) ?? widths[widths.length - 1];
}

function nameMarks(map: BoardMap, name: string, box: Box, role: MarkRole): Mark[] {
  const [x, y] = map.point(middleOf(box));
  const room = nameRoom(name);
  // White under the name: it stands on parts of any shape.
  const paper = rectangle(x - room / 2, y - NAME_ROW / 2, room, NAME_ROW);
  return [rings('paper', paper), text(role, name, [x, y + 0.36 * NAME_SIZE], NAME_SIZE, 'middle')];
}

/** What of its window a page does not share with the pages beside it: there no edge of theirs runs. */
function ownPart(tile: SkippedTile, tiles: readonly SkippedTile[]): Box {
  const { row, column, window } = tile;
  const own = { ...window };
  for (const other of tiles) {
    if (other.row === row && other.column === column - 1) own.minX = Math.max(own.minX, other.window.maxX);
    if (other.row === row && other.column === column + 1) own.maxX = Math.min(own.maxX, other.window.minX);
    if (other.column === column && other.row === row - 1) own.minY = Math.max(own.minY, other.window.maxY);
    if (other.column === column && other.row === row + 1) own.maxY = Math.min(own.maxY, other.window.minY);
  }
  return own;
}

/**
 * A map of the parts of a board, each with its number on it: the first placement has number 1. Where numbers would be
 * printed over each other the map is higher, as far as its width lets it; those that have no room then either are left
 * out, for the parts themselves are printed with number and board.
 *
 * @param places where the number of each part may stand: see {@link partPlaces}
 * @param widths it may take, mm: the first in which every number has room is taken, or else the last
 */
export function partMap(
  board: LaidBoard,
  places: readonly Point[],
  head: MapHead,
  widths: readonly number[],
): Block {
  const marks = (map: BoardMap) => numbersApart(places.map((place) => map.point(place)));
  const overlay = { windows: [], marks };
  const box = mappedBox(board, overlay);
  const isRoomy = (width: number) =>
    marks(new BoardMap(box, mapScale(box, width, HIGHEST), [0, 0])).length === places.length;
  const width = firstOrLast(widths, isRoomy);
  return mapBlock(board, head, width, overlay, isRoomy(width) ? HIGHEST : HIGHEST_CROWDED);
}

/** Where the numbers of the parts of a board stand on its map, in its frame: found once, for a map may be set more often. */
export function partPlaces({ placements }: LaidBoard): Point[] {
  return placements.map(widestPlace);
}

/** The numbers from 1 at their places, in the larger type if it has room; one that would touch another is left out. */
function numbersApart(places: readonly Point[]): TextMark[] {
  const taken: Box[] = [];
  return places.flatMap(([x, y], i) => {
    const found = NUMBER_SIZES.map((size) =>
      text('heading', `${i + 1}`, [x, y + 0.36 * size], size, 'middle'),
    ).find((each) => !taken.some((other) => boxesMeet(other, textBox(each))));
    if (found === undefined) return [];
    taken.push(textBox(found));
    return [found];
  });
}

/** What a map shows on top of the board. */
interface Overlay {
  /** What has to be seen besides the board, in its frame. */
  readonly windows: readonly Box[];
  readonly marks: (map: BoardMap) => Iterable<Mark>;
}

/**
 * The block of a map, named by what stands above it. All is drawn when it is asked for and where it stands: what the scale
 * makes of the board is known beforehand, where on the paper it comes is not.
 */
function mapBlock(
  board: LaidBoard,
  head: MapHead,
  width: number,
  overlay: Overlay,
  highest = HIGHEST,
): Block {
  const box = mappedBox(board, overlay);
  const scale = mapScale(box, width, highest);
  const { usable, placements } = board;
  const lines = headLines(head, width);
  const top = HEAD + (lines.length - 1) * HEAD_STEP;
  return {
    ...{ id: `map-${board.id}`, title: `Map of board ${board.id}`, width },
    height: top + (box.maxY - box.minY) * scale + 1,
    *marksAt(x, y) {
      const map = new BoardMap(box, scale, [x + 1, y + top]);
      for (const [i, words] of lines.entries())
        yield text('text', words, [x + 1, y + 5 + i * HEAD_STEP], TEXT_SIZE);
      yield map.smaller([
        ...placements.map(({ region }) => rings('map-part', region.outline, ...region.openings)),
        rings('board-edge', usable.outline),
      ]);
      for (const cut of crossCutLines(board)) yield line('section', ...cut.map((at) => map.point(at)));
      for (const rip of ripsBeforeCrossCuts(board)) yield line('keeper', ...rip.map((at) => map.point(at)));
      yield* overlay.marks(map);
    },
  };
}

/** What a map shows, in the frame of the board. */
function mappedBox(board: LaidBoard, { windows }: Overlay): Box {
  return boundsOf([board.usable.outline, ...windows.map(boxRing)].flat());
}

/** Millimetres of the map for one of the board. */
function mapScale({ minX, minY, maxX, maxY }: Box, width: number, highest: number): number {
  return Math.min((width - 2) / (maxX - minX), highest / (maxY - minY));
}

/** From the frame of a board to a place on paper, smaller. */
class BoardMap {
  readonly #box: Box;
  readonly #scale: number;
  readonly #at: Point;

  /** @param at where the upper left corner of the box is on the paper, mm */
  constructor(box: Box, scale: number, at: Point) {
    this.#box = box;
    this.#scale = scale;
    this.#at = at;
  }

  point([x, y]: Point): Point {
    return [
      (x - this.#box.minX) * this.#scale + this.#at[0],
      (y - this.#box.minY) * this.#scale + this.#at[1],
    ];
  }

  /** Marks in the frame of the board, shown on the map. */
  smaller(marks: MapMark['marks']): MapMark {
    return { kind: 'map', scale: this.#scale, shift: this.point([0, 0]), marks };
  }
}
