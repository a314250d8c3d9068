import { regionBounds } from '../../geometry/ring.ts';
import { type Box, boxesMeet, boxHolds } from '../../geometry/shapes.ts';
import { crossCuts } from '../../model/cross-cuts.ts';
import type { LaidBoard, Offcut } from '../../model/layout.ts';
import { grainMarks } from '../board/board-marks.ts';
import { letters } from '../marks/letters.ts';
import {
  type DrawnMark,
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
import type { BoxedMarks } from './boxed-marks.ts';
import { BESIDE, edgesBeside } from './edges-beside.ts';
import { keeperNames } from './keeper-names.ts';
import { neededWindows, type Place, SPARE, seamBetween, withinSeams } from './needed-windows.ts';
import { type PageOptions, type PageSetup, pageSetups } from './page-setup.ts';
import { coverage, type Extent, windowStarts } from './tiling.ts';

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
export type SkippedTile = Place;

/**
 * Gives the drawing of a board. It is asked once to set the pages, and again for each page: whoever prints many
 * boards keeps but one drawing at a time.
 */
export type DrawnBoard = () => BoxedMarks;

/** Name of a page of a board as its map shows it: `B2` is the second row of column B. */
export function tileName({ row, column }: Pick<BoardTile, 'row' | 'column'>): string {
  return `${letters(column)}${row + 1}`;
}

/**
 * What every page repeats or shows only the edge of, and knots, which are on the wood: a page with nothing else is not printed.
 * Where a board is cross-cut stands by measure on its map.
 */
const MERE_FRAME: ReadonlySet<MarkRole> = new Set([
  'board-edge',
  'usable-edge',
  'rest-edge',
  'caption',
  'section',
  'section-name',
  'keeper',
  'grain',
  'grain-head',
  'defect',
  'defect-hatch',
]);

/** Texts that are worth no page of their own; one that no page shows whole is left out. */
const MERE_NAMES: ReadonlySet<MarkRole> = new Set(['caption', 'section-name']);

/** Texts that are best whole on one page: each is read by itself. */
const READ_WHOLE: ReadonlySet<MarkRole> = new Set(['label', 'reported-label', 'part-number']);

/** What a join mark does not stand on where there is another place. */
const KEEP_CLEAR: ReadonlySet<MarkRole> = new Set([
  'label',
  'reported-label',
  'part-number',
  'caption',
  'section-name',
  'cut-number',
  'hole-centre',
  'opening-edge',
  'leader-end',
]);

/** What join marks are drawn over; all else stays to be seen on them, above all the lines to saw along. */
const GROUND: ReadonlySet<MarkRole> = new Set(['board-edge', 'usable-edge', 'defect', 'defect-hatch']);

/** Half the size of a join mark, mm, and how many stand along each seam of a page. */
const JOIN_ARM = 2;
const JOINS_PER_PAGE = 3;

/**
 * The pages a board needs, row by row, in the orientation that needs fewer, and of two that need as many in the one
 * that shows more parts whole; empty ones left out.
 */
export function boardTiles(board: LaidBoard, drawn: DrawnBoard, options: PageOptions): BoardTile[] {
  const marks = drawn();
  const content = contentOf(board, marks);
  const joined = (tiles: readonly BoardTile[]) =>
    content.parts.filter((part) => !isShownWhole(part, tiles)).length;
  // Of a roll as much as has to be seen: the rest of a long board is no reason for a metre of paper.
  const { minX, maxX } = content.counted;
  // Portrait comes first and keeps its place when both are as good.
  return pageSetups(options, maxX - minX + 2 * SPARE)
    .map((setup) => tilesOf(content, drawn, setup))
    .sort((a, b) => a.length - b.length || joined(a) - joined(b))[0];
}

/** True when one of the pages shows all of a box. */
function isShownWhole(box: Box, pages: readonly Pick<BoardTile, 'window'>[]): boolean {
  return pages.some(({ window }) => boxHolds(window, box));
}

/** The pages a drawing needs in one setup, row by row. */
export function boardTilesIn(board: LaidBoard, drawn: DrawnBoard, setup: PageSetup): BoardTile[] {
  return tilesOf(contentOf(board, drawn()), drawn, setup);
}

/**
 * Windows are set in mm of the board; one that would show nothing but frame is no page, and every page knows which
 * those are.
 */
function tilesOf(content: BoardContent, drawn: DrawnBoard, setup: PageSetup): BoardTile[] {
  // A cross-cut beside its part is worth no page more, nor is a text in one piece: the cuts are given up for one before the
  // texts. And fewest rows are not always fewest pages: of those that cover the whole drawing more may be empty.
  const { texts, withCuts, counted, marks } = content;
  const ways = [
    { texts, withCuts, counted },
    ...(withCuts.length === 0 ? [] : [{ texts, withCuts: [], counted }]),
    { texts: [], withCuts: [], counted },
    { texts, withCuts, counted: marks.whole },
    ...(withCuts.length === 0 ? [] : [{ texts, withCuts: [], counted: marks.whole }]),
  ].map((way) => windowsOf({ ...content, ...way }, setup));
  const { windows, places, needed } = ways.reduce((best, way) =>
    way.needed.length < best.needed.length ? way : best,
  );
  const { xs, ys } = windows;
  const printed = needed.map((place) => ({ place, window: place.window, own: withinSeams(place, windows) }));
  const keepers = keeperNames(content.offcuts, content.marks, printed);
  const clear = [...content.clear, ...[...keepers.values()].flat().map(textBox)];
  const grid = {
    ...{ rows: ys.length, columns: xs.length },
    skipped: places.filter((each) => !needed.includes(each)),
  };
  const names = new Set(needed.map(tileName));
  const isPrinted = (column: number, row: number) => names.has(tileName({ row, column }));
  const seams = [
    ...seamMarks(xs, ys, setup, clear, isPrinted),
    ...seamMarks(ys, xs, turned(setup), clear.map(exchanged), (row, column) => isPrinted(column, row)).map(
      mirrored,
    ),
  ];
  return printed.map((page): BoardTile => {
    // Of the seams only what this page shares with a neighbour.
    const joins = seams.filter((mark) => boxesMeet(shapeBox(mark), page.window));
    const own = { joins, keepers: keepers.get(page) ?? [] };
    return lookedUp({ setup, ...page.place, ...grid }, needed, own, drawn);
  });
}

/** The windows that cover a board, and which of them are worth a page. */
function windowsOf(content: BoardContent, setup: PageSetup) {
  const { width, height } = setup.window;
  const { xs, ys } = windowCorners(content, setup);
  const viewAt = (x: number, y: number): Box => ({ minX: x, minY: y, maxX: x + width, maxY: y + height });
  const places = ys.flatMap((y, row) => xs.map((x, column) => ({ row, column, window: viewAt(x, y) })));
  const windows = { xs, ys, width, height };
  return { windows, places, needed: neededWindows(places, windows, content.boxes) };
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
  { joins, keepers }: { readonly joins: readonly SeamMark[]; readonly keepers: readonly TextMark[] },
  drawn: DrawnBoard,
): BoardTile {
  return {
    ...page,
    get marks() {
      const boxed = drawn();
      const seen = boxed.marks.filter(
        ({ role }, i) =>
          boxed.meets(i, page.window, 1) && (!MERE_NAMES.has(role) || isShownWhole(boxed.box(i), printed)),
      );
      const isGround = ({ role }: DrawnMark) => GROUND.has(role);
      return [
        ...seen.filter(isGround),
        ...joins,
        ...seen.filter((mark) => !isGround(mark)),
        ...keepers,
        ...grainOn(page.window, boxed.grainRow),
      ];
    },
  };
}

/** Least of a board on a page for which an arrow stands there, mm: less is a strip that its neighbour shows, too. */
const SOME_BOARD = 20;

/** The arrow for the grain above what a page shows of its board, whole on that page; none where the row is on another one. */
function grainOn(window: Box, row: Box | undefined): Mark[] {
  if (row === undefined || row.minY < window.minY || row.maxY > window.maxY) return [];
  const minX = Math.max(row.minX, window.minX);
  const maxX = Math.min(row.maxX, window.maxX);
  return maxX - minX < SOME_BOARD ? [] : grainMarks({ ...row, minX, maxX });
}

/** What decides which windows of a board are pages, and where they lie: the same for every setup. */
interface BoardContent {
  readonly marks: BoxedMarks;
  /** Boxes of what has to be on the paper: the parts with all that is drawn on them, and the edges of the board beside them. */
  readonly boxes: readonly Box[];
  /** The box around all of these, and that around what is worth seeing. */
  readonly counted: Box;
  readonly named: Box;
  /** What join marks keep clear of. */
  readonly clear: readonly Box[];
  /** The boxes of the parts, and of the texts that name them. */
  readonly parts: readonly Box[];
  readonly texts: readonly Box[];
  /** From the cross-cut left of a part to the far end of the part, mm along the board: the end that its sheet is laid by. */
  readonly withCuts: readonly Extent[];
  readonly offcuts: readonly Offcut[];
}

function contentOf(board: LaidBoard, marks: BoxedMarks): BoardContent {
  const boxesOf = (isWanted: (role: MarkRole) => boolean) => marks.indices(isWanted).map((i) => marks.box(i));
  const boxes = [...boxesOf((role) => !MERE_FRAME.has(role)), ...edgesBeside(marks.marks, board.placements)];
  const counted = hull(boxes);
  const parts = board.placements.map(({ region }) => regionBounds(region));
  return {
    ...{ marks, boxes, counted, parts },
    named: hull([counted, ...boxesOf((role) => role === 'section-name')]),
    clear: boxesOf((role) => KEEP_CLEAR.has(role)),
    withCuts: crossCuts(board).flatMap((cut) =>
      parts
        .filter(({ minX }) => minX > cut && minX < cut + BESIDE)
        .map(({ maxX }) => ({ from: cut, to: maxX })),
    ),
    texts: boxesOf((role) => READ_WHOLE.has(role)),
    offcuts: board.offcuts ?? [],
  };
}

/**
 * Left sides and upper sides of the windows, mm of the board. Each direction is covered by itself: pages are a grid, for
 * seams have to run straight through from page to page to be trimmed and joined.
 */
function windowCorners(
  { marks, counted, named, parts, texts, withCuts }: BoardContent,
  { window, overlap }: PageSetup,
): { xs: number[]; ys: number[] } {
  const along = (
    from: 'minX' | 'minY',
    to: 'maxX' | 'maxY',
    size: number,
    partsByCuts: readonly Extent[] = [],
  ) => {
    const spared = (box: Box) => ({ from: box[from] - SPARE, to: box[to] + SPARE });
    const extent = (box: Box) => ({ from: box[from], to: box[to] });
    const windows = { size, overlap };
    const covered = coverage(extent(marks.whole), spared(named), spared(counted), windows);
    return windowStarts(covered, windows, parts.map(extent), texts.map(extent), partsByCuts);
  };
  return { xs: along('minX', 'maxX', window.width, withCuts), ys: along('minY', 'maxY', window.height) };
}

/** The box around boxes; that of a mark without points, which is inside out, changes nothing. */
function hull(boxes: readonly Box[]): Box {
  return boxes.reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
}

type SeamMark = LineMark | RingsMark;

/**
 * What joins neighbouring columns: in the middle of their overlap a line to trim one of them along, with bow ties
 * that both pages show at the same place of the board. A bow tie cannot be taken for a hole to drill.
 *
 * @param keepClear what the marks should not stand on: texts and holes
 * @param isPrinted whether a column has a page in a row: nothing is joined to one that is left out
 */
function seamMarks(
  xs: readonly number[],
  ys: readonly number[],
  { window }: PageSetup,
  keepClear: readonly Box[],
  isPrinted: (column: number, row: number) => boolean,
): SeamMark[] {
  const third = window.height / JOINS_PER_PAGE;
  return xs.slice(1).flatMap((_, i) => {
    const seam = seamBetween(xs, i + 1, window.width);
    return ys.flatMap((y, row): SeamMark[] => {
      if (!isPrinted(i, row) || !isPrinted(i + 1, row)) return [];
      const ties = Array.from({ length: JOINS_PER_PAGE }, (_, k) =>
        bowTie(seam, clearPlace(seam, y + (k + 0.5) * third, third, keepClear)),
      );
      return [line('trim', [seam, y], [seam, y + window.height]), ...ties];
    });
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
