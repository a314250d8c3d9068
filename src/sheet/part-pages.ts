import { type Box, boundsOf, boxIntersection, type Point } from '../geometry/shapes.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { BoardPlan } from '../model/cut-plan.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { PAPER_AROUND } from '../model/paper-around.ts';
import type { DisplayUnit } from '../units/length.ts';
import { headline } from './blocks/title-blocks.ts';
import { PartDrawer } from './board/part-marks.ts';
import { printedNames } from './board/part-names.ts';
import { partPlanMarks } from './board/plan-marks.ts';
import { edgesUnder, THICK_REACH, thickLines } from './board/rest-edge-marks.ts';
import { boardWords, mapWords, woodsHead } from './board-words.ts';
import { moveMarks } from './marks/arrange.ts';
import { line, type Mark, type MarkRole, rectangle, rolesOf, text } from './marks/marks.ts';
import { ASCENT, fitted, shortenedBeforeEnd, textWidth } from './marks/text-width.ts';
import { coverSheets, losesLetters, type PagesOptions, type SheetPage } from './pages.ts';
import { partMap, partPlaces } from './paper/board-map.ts';
import { type BoardTile, boardTilesIn, tileName } from './paper/board-tiles.ts';
import { BoxedMarks } from './paper/boxed-marks.ts';
import { coverPages } from './paper/cover.ts';
import { framedPage, NAME_SIZE as HEAD_SIZE } from './paper/page-frame.ts';
import { type PageSetup, pageSetups, ROLL_PAGE } from './paper/page-setup.ts';
import { shelve } from './paper/shelves.ts';
import { drawerCheck, foreignPlans, pagesCheck } from './sheet-checks.ts';

/** Between parts on the paper, mm. */
const GAP = 2;
const NAME_SIZE = 2.3;
const NAME_HEIGHT = 3.4;
/** From a part to what is written below it, mm. */
const BELOW = 1;
/** From the edge of a strip to the line that runs on, mm. */
const INSET = 0.5;
/** Narrowest piece: room for the number of a part and its board, mm. */
const NARROWEST = 34;

const DOT = ' \u00b7 ';

/** Parts lie as on their board; where one has no room for an arrow, its grain is told by this. */
const GRAIN = ' \u00b7 grain from left to right';

/** What is on strips besides the marks of their part. */
const JOINING: readonly MarkRole[] = ['trim', 'join'];

/** One part drawn by itself, with the line below it that tells where it goes. */
interface PartPiece {
  readonly board: LaidBoard;
  readonly placement: Placement;
  /** Layer, part and set; of a strip first which one it is. */
  readonly name: string;
  /** Its number and its board. */
  readonly where: string;
  readonly marks: readonly Mark[];
  /** In the frame of the board. */
  readonly box: Box;
}

/**
 * Pages of single parts, to be cut out and stuck one by one: less paper than whole boards. As few pages as rows of
 * parts need; a part larger than a page is in strips. Cover pages hold the calibration squares, the cautions and a map
 * of each board with the numbers of its parts. All in mm of paper.
 *
 * @param drawer share one with other drawings of the layout: room for labels is then found once
 * @throws FretlayError as `boardPages` does
 */
export function partPages(layout: Layout, options: PagesOptions, drawer?: PartDrawer): SheetPage[] {
  throwOnErrors([
    ...layoutCheck('layout', layout),
    ...pagesCheck('options', options),
    ...drawerCheck('drawer', drawer),
  ]);
  throwOnErrors(foreignPlans('options.plans', options.plans, layout.boards));
  const shared = drawer ?? new PartDrawer(options);
  const boards = layout.boards.filter(carriesParts);
  const pieces = boards.flatMap((board) =>
    board.placements.map((_, i) => partPiece(board, i, options.plans?.get(board.id), shared, options.unit)),
  );
  const longest = Math.max(ROLL_PAGE, ...pieces.map(({ box }) => box.maxX - box.minX));
  // A part in one piece is worth a page more: strips have to be joined before they are stuck on.
  const { setup, pages, joints } = pageSetups(options, longest)
    .map((each) => setPieces(pieces, each))
    .sort((a, b) => a.joints - b.joints || a.pages.length - b.pages.length)[0];
  const places = boards.map(partPlaces);
  const blocks = (widths: readonly number[]) =>
    boards.map((board, i) => {
      const [words, more] = [boardWords, mapWords].map((say) => say(board, options.unit));
      return partMap(board, places[i], { board: words, pages: '', more }, widths);
    });
  const drawn = new Set([
    ...rolesOf(pieces.flatMap(({ marks }) => marks)),
    ...rolesOf(pages.flatMap(({ marks }) => marks)),
    ...(joints > 0 ? JOINING : []),
  ]);
  const cover = coverPages(
    { boards, drawn, following: pages.length, blocks, lossy: losesLetters(layout, options) },
    options,
  );
  const total = cover.length + pages.length;
  return [
    ...coverSheets(cover),
    ...pages.map(({ marks, boards: own }, i): SheetPage => {
      const number = cover.length + i + 1;
      const right = [`page ${number} of ${total}`, 'print at 100 %'];
      const room = setup.window.width - textWidth(GRAIN, HEAD_SIZE);
      const subject = `${woodsHead(own, options.unit, room, HEAD_SIZE)}${GRAIN}`;
      const names = { subject, left: headline(options), right };
      return {
        number,
        name: `parts ${i + 1}`,
        get drawing() {
          return framedPage(setup, marks, names, options.unit);
        },
      };
    }),
  ];
}

interface PageOfPieces {
  readonly marks: Mark[];
  /** That of each piece. */
  readonly boards: LaidBoard[];
}

/** Pieces set on pages of one setup. */
interface SetPieces {
  readonly setup: PageSetup;
  readonly pages: readonly PageOfPieces[];
  /** How many strips have to be joined to another one. */
  readonly joints: number;
}

/** Pieces in rows, those larger than a page in strips that are joined. */
function setPieces(pieces: readonly PartPiece[], setup: PageSetup): SetPieces {
  const { x, y, width, height } = setup.window;
  // Strips are set like parts: the rest of a long part shares a page with other pieces.
  const strips = pieces.flatMap((piece, i) => stripsOf(piece, i + 1, setup));
  const sizes = strips.map(({ box }) => ({ width: box.maxX - box.minX, height: box.maxY - box.minY }));
  const pages: PageOfPieces[] = [];
  shelve(sizes, { width, height }, GAP).forEach((place, i) => {
    const { board, marks, box, name, where } = strips[i];
    const moved = moveMarks(marks, x + place.x - box.minX, y + place.y - box.minY);
    while (pages.length <= place.page) pages.push({ marks: [], boards: [] });
    pages[place.page].boards.push(board);
    const title = `${name}, ${where}`;
    pages[place.page].marks.push({ kind: 'group', id: `piece-${i + 1}`, title, marks: moved });
  });
  return { setup, pages, joints: strips.length - pieces.length };
}

/**
 * A piece as it is when it fits on a page, else its strips, each named and with the marks that join them.
 *
 * @param count of the pieces up to this one. With the place of a strip it makes the id to clip by, which has to be the
 *   only one on its page: names of boards may differ in letters that an id cannot hold
 */
function stripsOf(piece: PartPiece, count: number, setup: PageSetup): PartPiece[] {
  const { window } = setup;
  const { board, placement, marks, box } = piece;
  if (box.maxX - box.minX <= window.width && box.maxY - box.minY <= window.height) return [piece];
  // The name of a strip stands above it, in the window too.
  const room = { ...setup, window: { ...window, height: window.height - NAME_HEIGHT } };
  const drawn = new BoxedMarks({ marks, box });
  const tiles = boardTilesIn({ ...board, placements: [placement] }, () => drawn, room);
  return tiles.map((tile): PartPiece => {
    const seen = boxIntersection(tile.window, box);
    const strip = `strip ${tileName(tile)} of ${tiles.length}:`;
    const width = Math.max(NARROWEST, seen.maxX - seen.minX);
    // Which strip of which copy comes first: on a narrow one the end of the line is cut off.
    const words = stripWords(`${strip} ${piece.where}`, piece.name, width);
    const baseline: Point = [seen.minX, seen.minY - NAME_HEIGHT + 0.8 + ASCENT * NAME_SIZE];
    return {
      ...piece,
      name: `${strip} ${piece.name}`,
      marks: [
        {
          kind: 'clip',
          id: `strip-${count}-${tileName(tile)}`,
          window: seen,
          shift: [0, 0],
          marks: tile.marks,
        },
        ...straightOn(seen, tile),
        text('caption', words, baseline, NAME_SIZE),
      ],
      box: { ...seen, minY: seen.minY - NAME_HEIGHT, maxX: seen.minX + width },
    };
  });
}

function stripWords(strip: string, name: string, width: number): string {
  return textWidth(strip, NAME_SIZE) > width
    ? fitted(strip, width, NAME_SIZE, shortenedBeforeEnd)
    : fitted(`${strip}${DOT}${name}`, width, NAME_SIZE);
}

/**
 * The line beside the part that runs straight on from strip to strip. The seam of a low part is too short for its bow tie to
 * tell the direction: off by half a millimetre on 20 mm, the next strip would be off by 7 mm at its end. Of strips in rows and
 * columns the seams are as long as a page.
 */
function straightOn({ minX, minY, maxX, maxY }: Box, { rows, columns }: BoardTile): Mark[] {
  if (rows === 1) return [line('straight-on', [minX, minY + INSET], [maxX, minY + INSET])];
  return columns === 1 ? [line('straight-on', [minX + INSET, minY], [minX + INSET, maxY])] : [];
}

/** A part by itself: nothing lies in its openings on the paper, even where it does on the board. */
function partPiece(
  board: LaidBoard,
  index: number,
  plan: BoardPlan | undefined,
  drawer: PartDrawer,
  unit: DisplayUnit,
): PartPiece {
  const placement = board.placements[index];
  const number = index + 1;
  const { marks: drawn, anchor } = drawer.draw(placement, [placement], plan !== undefined);
  const { minX, minY, maxX, maxY } = boundsOf(placement.region.outline);
  const outline = rectangle(
    minX - PAPER_AROUND,
    minY - PAPER_AROUND,
    maxX - minX + 2 * PAPER_AROUND,
    maxY - minY + PAPER_AROUND + 1,
  );
  const edges = edgesUnder(board, placement);
  const thick = [...thickLines(edges.straight, 'straight'), ...thickLines(edges.top, 'top')];
  const own = [...thick, ...drawn];
  const planned = plan === undefined ? [] : partPlanMarks(board, index, plan, { outline, drawn: own, unit });
  const marks = [...own, ...planned];
  // A small part still needs room below it for its number and board.
  const width = Math.max(NARROWEST, maxX - minX);
  const { layer, part } = printedNames(placement, drawer.numberOf(placement));
  const where = `${number} on ${shortenedBeforeEnd(board.id, 24)}`;
  const name = [layer, part, placement.set].join(DOT);
  const fits = textWidth(name, NAME_SIZE) <= width;
  // The set is never cut off: copies of a part differ in nothing else.
  const ofSet = `${DOT}${placement.set}`;
  const partOfSet = `${fitted(part, width - textWidth(ofSet, NAME_SIZE), NAME_SIZE)}${ofSet}`;
  // A part without room for its label has it on the line below, with its number.
  // On a line of its own: of a long name the end is cut off, and this must not be.
  const over = placement.turnedOver ? ['turned over'] : [];
  const names = fits ? [name] : [fitted(layer, width, NAME_SIZE), partOfSet];
  const lines = [
    fitted(where, width, NAME_SIZE, shortenedBeforeEnd),
    ...(anchor === undefined ? [] : [...names, ...over]),
  ];
  const below = maxY + (edges.straight.length === 0 ? BELOW : THICK_REACH + BELOW / 2);
  const named = lines.map((words, i) =>
    text('label', words, [minX, below + (ASCENT + 1.15 * i) * NAME_SIZE], NAME_SIZE),
  );
  const bottom = below + lines.length * NAME_HEIGHT;
  const box = {
    minX: minX - PAPER_AROUND,
    minY: minY - PAPER_AROUND,
    maxX: minX + width + PAPER_AROUND,
    maxY: bottom,
  };
  return { board, placement, name, where, marks: [...marks, ...named], box };
}
