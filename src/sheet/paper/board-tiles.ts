import { type Box, boundsOf, boxesMeet, boxHolds } from '../../geometry/shapes.ts';
import type { LaidBoard } from '../../model/layout.ts';
import type { BoardMarks } from '../board/board-marks.ts';
import {
  flatMarks,
  type LineMark,
  line,
  type Mark,
  type MarkRole,
  type RingsMark,
  rings,
  shapeBox,
  type TextMark,
} from '../marks/marks.ts';
import { textBox } from '../marks/text-width.ts';
import { edgesBeside } from './edges-beside.ts';
import { type PageOptions, type PageSetup, pageSetups } from './page-setup.ts';
import { coverage, windowStarts } from './tiling.ts';

/** One page of a board: which window of the board it shows. */
export interface BoardTile {
  readonly setup: PageSetup;
  /** From 0. */
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
  /** Windows that hold nothing to print, by the name their page would have: the same for all pages of a board. */
  readonly skipped: readonly SkippedTile[];
  /** The window in the frame of the board, mm. */
  readonly window: Box;
  /** What is seen in the window, in the frame of the board. Looked up in the drawing of the board when asked for. */
  readonly marks: readonly Mark[];
}

/** A window for which no page is printed. */
export type SkippedTile = Pick<BoardTile, 'row' | 'column' | 'window'>;

/**
 * Gives the drawing of a board. It is asked once to set the pages, and again for each page: whoever prints many
 * boards keeps but one drawing at a time.
 */
export type DrawnBoard = () => BoardMarks;

/** Letters of a page's column by its index from 0: A to Z, then AA and so on. */
export function columnName(column: number): string {
  const letter = String.fromCharCode(65 + (column % 26));
  return column < 26 ? letter : columnName(Math.floor(column / 26) - 1) + letter;
}

/** Name of a page of a board as its map shows it: `B2` is the second row of column B. */
export function tileName({ row, column }: Pick<BoardTile, 'row' | 'column'>): string {
  return `${columnName(column)}${row + 1}`;
}

/** What every page repeats or shows only the edge of: a page with nothing else is not printed. */
const MERE_FRAME: ReadonlySet<MarkRole> = new Set([
  'board-edge',
  'usable-edge',
  'rest-edge',
  'caption',
  'section-name',
  'keeper',
  'grain',
  'grain-head',
]);

/** Texts that are worth no page of their own; one that no page shows whole is left out. */
const MERE_NAMES: ReadonlySet<MarkRole> = new Set(['caption', 'section-name']);

/** What a join mark does not stand on where there is another place. */
const KEEP_CLEAR: ReadonlySet<MarkRole> = new Set([
  'label',
  'caption',
  'section-name',
  'hole-centre',
  'opening-edge',
  'leader-end',
]);

/** Half the size of a join mark, mm, and how many stand along each seam of a page. */
const JOIN_ARM = 2;
const JOINS_PER_PAGE = 3;

/**
 * The pages a board needs, row by row, in the orientation that needs fewer, and of two that need as many in the one
 * that shows more parts whole; empty ones left out.
 */
export function boardTiles(board: LaidBoard, drawn: DrawnBoard, options: PageOptions): BoardTile[] {
  const { box } = drawn();
  const parts = board.placements.map(({ region }) => boundsOf(region.outline));
  const joined = (tiles: readonly BoardTile[]) => parts.filter((part) => !isShownWhole(part, tiles)).length;
  // Portrait comes first and keeps its place when both are as good.
  return pageSetups(options, box.maxX - box.minX)
    .map((setup) => boardTilesIn(board, drawn, setup))
    .sort((a, b) => a.length - b.length || joined(a) - joined(b))[0];
}

/** True when one of the pages shows all of a box. */
function isShownWhole(box: Box, pages: readonly Pick<BoardTile, 'window'>[]): boolean {
  return pages.some(({ window }) => boxHolds(window, box));
}

interface BoxedMark {
  readonly mark: LineMark | RingsMark | TextMark;
  readonly box: Box;
}

/** Boxes of the marks of drawings that are in use: every page of a board asks for them. */
const boxedDrawings = new WeakMap<BoardMarks, readonly BoxedMark[]>();

function boxedMarks(drawn: BoardMarks): readonly BoxedMark[] {
  const known = boxedDrawings.get(drawn);
  if (known !== undefined) return known;
  const boxed = flatMarks(drawn.marks).map((mark) => ({
    mark,
    box: mark.kind === 'text' ? textBox(mark) : shapeBox(mark),
  }));
  boxedDrawings.set(drawn, boxed);
  return boxed;
}

/**
 * The pages a drawing needs in one setup, row by row. Windows are set in mm of the board; one that would show nothing but
 * frame is no page, and every page knows which those are.
 */
export function boardTilesIn(board: LaidBoard, drawn: DrawnBoard, setup: PageSetup): BoardTile[] {
  const { window } = setup;
  const all = drawn();
  const flat = boxedMarks(all);
  const counts = counting(board, flat);
  const { xs, ys } = windowCorners(board, all.box, flat, counts, setup);
  const clear = flat.filter(({ mark }) => KEEP_CLEAR.has(mark.role)).map(({ box }) => box);
  const seams = [
    ...seamMarks(xs, ys, setup, clear),
    ...seamMarks(ys, xs, turned(setup), clear.map(exchanged)).map(mirrored),
  ];
  const { width, height } = window;
  const viewAt = (x: number, y: number): Box => ({ minX: x, minY: y, maxX: x + width, maxY: y + height });
  const places = ys.flatMap((y, row) => xs.map((x, column) => ({ row, column, window: viewAt(x, y) })));
  // The frame of a board runs through every page: by itself it is not worth one.
  const isWorthAPage = ({ window }: SkippedTile) => counts.some((box) => boxesMeet(box, window));
  const grid = { rows: ys.length, columns: xs.length, skipped: places.filter((each) => !isWorthAPage(each)) };
  const printed = places.filter(isWorthAPage);
  return printed.map((place): BoardTile => {
    // Of the seams only what this page shares with a neighbour.
    const joins = seams.filter((mark) => boxesMeet(shapeBox(mark), place.window));
    return lookedUp({ setup, ...place, ...grid }, printed, joins, drawn);
  });
}

/**
 * A page whose marks are looked up when asked for. A function of its own, so that a page holds on to nothing else: made
 * where pages are set, it would keep the marks of its board, and a job the marks of all its boards.
 *
 * @param printed all pages of the board
 */
function lookedUp(
  page: Omit<BoardTile, 'marks'>,
  printed: readonly Pick<BoardTile, 'window'>[],
  joins: readonly SeamMark[],
  drawn: DrawnBoard,
): BoardTile {
  return {
    ...page,
    get marks() {
      const seen = boxedMarks(drawn()).filter(
        ({ mark, box }) =>
          boxesMeet(box, page.window, 1) && (!MERE_NAMES.has(mark.role) || isShownWhole(box, printed)),
      );
      return [...seen.map(({ mark }) => mark), ...joins];
    },
  };
}

/** Boxes of all that has to be on the paper: the parts with their marks, and the edges of the board beside them. */
function counting(board: LaidBoard, flat: readonly BoxedMark[]): Box[] {
  const edges = edgesBeside(
    flat.map(({ mark }) => mark),
    board.placements,
  );
  return [...flat.filter(({ mark }) => !MERE_FRAME.has(mark.role)).map(({ box }) => box), ...edges];
}

/**
 * Left sides and upper sides of the windows, mm of the board. Each direction is covered by itself: pages are a grid, for
 * seams have to run straight through from page to page to be trimmed and joined.
 */
function windowCorners(
  board: LaidBoard,
  all: Box,
  flat: readonly BoxedMark[],
  counts: readonly Box[],
  { window, overlap }: PageSetup,
): { xs: number[]; ys: number[] } {
  const content = hull(counts);
  const names = flat.filter(({ mark }) => mark.role === 'section-name').map(({ box }) => box);
  const named = hull([...counts, ...names]);
  const parts = board.placements.map(({ region }) => boundsOf(region.outline));
  const along = (from: 'minX' | 'minY', to: 'maxX' | 'maxY', size: number) => {
    const extent = (box: Box) => ({ from: box[from], to: box[to] });
    const covered = coverage(extent(all), extent(named), extent(content), size, overlap);
    return windowStarts(covered, size, overlap, parts.map(extent));
  };
  return { xs: along('minX', 'maxX', window.width), ys: along('minY', 'maxY', window.height) };
}

/** The box around boxes, with the width of the widest line to spare. */
function hull(boxes: readonly Box[]): Box {
  const spare = 1;
  return {
    minX: Math.min(...boxes.map((box) => box.minX)) - spare,
    minY: Math.min(...boxes.map((box) => box.minY)) - spare,
    maxX: Math.max(...boxes.map((box) => box.maxX)) + spare,
    maxY: Math.max(...boxes.map((box) => box.maxY)) + spare,
  };
}

type SeamMark = LineMark | RingsMark;

/**
 * What joins neighbouring columns: in the middle of their overlap a line to trim one of them along, with bow ties
 * that both pages show at the same place of the board. A bow tie cannot be taken for a hole to drill.
 *
 * @param keepClear what the marks should not stand on: texts and holes
 */
function seamMarks(
  xs: readonly number[],
  ys: readonly number[],
  { window }: PageSetup,
  keepClear: readonly Box[],
): SeamMark[] {
  const third = window.height / JOINS_PER_PAGE;
  return xs.slice(1).flatMap((x, i) => {
    const seam = (x + xs[i] + window.width) / 2;
    return ys.flatMap((y): SeamMark[] => [
      line('trim', [seam, y], [seam, y + window.height]),
      ...Array.from({ length: JOINS_PER_PAGE }, (_, k) =>
        bowTie(seam, clearPlace(seam, y + (k + 0.5) * third, third, keepClear)),
      ),
    ]);
  });
}

/** The place along a seam nearest to `middle` where a mark stands on nothing to be kept clear. */
function clearPlace(seam: number, middle: number, room: number, keepClear: readonly Box[]): number {
  const reach = room / 2 - 2 * JOIN_ARM;
  for (let away = 0; away <= reach; away += JOIN_ARM) {
    for (const y of [middle - away, middle + away]) {
      const box = { minX: seam - JOIN_ARM, minY: y - JOIN_ARM, maxX: seam + JOIN_ARM, maxY: y + JOIN_ARM };
      if (!keepClear.some((other) => boxesMeet(box, other, 1))) return y;
    }
  }
  return middle;
}

/** Two triangles that meet at the place itself. */
function bowTie(x: number, y: number): RingsMark {
  const arm = JOIN_ARM;
  return rings(
    'join',
    [
      [x, y],
      [x - arm, y - arm],
      [x - arm, y + arm],
    ],
    [
      [x, y],
      [x + arm, y - arm],
      [x + arm, y + arm],
    ],
  );
}

/** Rows join like columns with x and y exchanged. */
function turned(setup: PageSetup): PageSetup {
  const { x, y, width, height } = setup.window;
  return { ...setup, window: { x: y, y: x, width: height, height: width } };
}

function exchanged({ minX, minY, maxX, maxY }: Box): Box {
  return { minX: minY, minY: minX, maxX: maxY, maxY: maxX };
}

function mirrored(mark: SeamMark): SeamMark {
  return mark.kind === 'line'
    ? { ...mark, points: mark.points.map(([x, y]) => [y, x] as const) }
    : { ...mark, rings: mark.rings.map((ring) => ring.map(([x, y]) => [y, x] as const)) };
}
