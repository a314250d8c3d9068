import { type Box, boundsOf, boxesMeet, boxRing, type Point } from '../../geometry/shapes.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { crossCuts } from '../board/cross-cuts.ts';
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
import { fitted, textBox, textWidth } from '../marks/text-width.ts';
import { type BoardTile, type SkippedTile, tileName } from './board-tiles.ts';

/**
 * Small maps of a board for the cover: which page goes where, or which part. A map is as wide as the cover allows,
 * and at most 60 mm high; one of crowded parts twice that.
 */
const HIGHEST = 60;
const HIGHEST_CROWDED = 120;
const HEAD = 8;
const TEXT_SIZE = 3;
const NAME_SIZE = 2.6;
/** Of the numbers of parts, mm. */
const NUMBER_SIZES = [NAME_SIZE, 1.9];

/**
 * A map of the pages of a board, each with its name; where nothing is to print, what page is not there: a page that is
 * missing is else looked for in the printer.
 *
 * @param words the line above the map
 * @param width it may take, mm
 */
export function pageMap(board: LaidBoard, tiles: readonly BoardTile[], words: string, width: number): Block {
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
  return mapBlock(board, words, width, { windows, marks });
}

function nameMarks(map: BoardMap, name: string, { minX, minY, maxX, maxY }: Box, role: MarkRole): Mark[] {
  const [x, y] = map.point([(minX + maxX) / 2, (minY + maxY) / 2]);
  const room = textWidth(name, NAME_SIZE) + 1;
  // White under the name: it stands on parts of any shape.
  const paper = rectangle(x - room / 2, y - 0.7 * NAME_SIZE, room, 1.4 * NAME_SIZE);
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
 * @param words the line above the map
 * @param width it may take, mm
 */
export function partMap(board: LaidBoard, words: string, width: number): Block {
  const places = board.placements.map(widestPlace);
  const marks = (map: BoardMap) => numbersApart(places.map((place) => map.point(place)));
  const overlay = { windows: [], marks };
  const box = mappedBox(board, overlay);
  const isRoomy = (highest: number) =>
    marks(new BoardMap(box, mapScale(box, width, highest), [0, 0])).length === places.length;
  return mapBlock(board, words, width, overlay, isRoomy(HIGHEST) ? HIGHEST : HIGHEST_CROWDED);
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
 * The block of a map, named by one line of text. All is drawn when it is asked for and where it stands: what the scale
 * makes of the board is known beforehand, where on the paper it comes is not.
 */
function mapBlock(
  board: LaidBoard,
  words: string,
  width: number,
  overlay: Overlay,
  highest = HIGHEST,
): Block {
  const box = mappedBox(board, overlay);
  const scale = mapScale(box, width, highest);
  const { usable, placements } = board;
  const { minY, maxY } = boundsOf(usable.outline);
  return {
    ...{ id: `map-${board.id}`, title: `Map of board ${board.id}`, width },
    height: HEAD + (box.maxY - box.minY) * scale + 1,
    *marksAt(x, y) {
      const map = new BoardMap(box, scale, [x + 1, y + HEAD]);
      yield text('text', fitted(words, width - 2, TEXT_SIZE), [x + 1, y + 5], TEXT_SIZE);
      yield map.smaller([
        ...placements.map(({ region }) => rings('map-part', region.outline, ...region.openings)),
        rings('board-edge', usable.outline),
      ]);
      for (const cut of crossCuts(board))
        yield line('section', map.point([cut, minY]), map.point([cut, maxY]));
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
