import { regionBounds } from '../../geometry/ring.ts';
import { type Box, boundsOf } from '../../geometry/shapes.ts';
import type { BoardPlan } from '../../model/cut-plan.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { grainArrow } from '../marks/arrow.ts';
import { type GroupMark, type Mark, text } from '../marks/marks.ts';
import { textBox } from '../marks/text-width.ts';
import { keeperMarks } from './keeper-marks.ts';
import { type LabelList, listBelow } from './label-list.ts';
import { type OutsideLabel, type OutsideLabels, placeOutside } from './outside-labels.ts';
import { PartDrawer } from './part-marks.ts';
import { planMarks, sectionLines, sectionMarks } from './plan-marks.ts';
import { thickLines } from './rest-edge-marks.ts';
import { stockMarks } from './stock-marks.ts';
import { straightEdge, topEdgeStoodOn } from './straight-edge.ts';
import { wholeBox } from './whole-box.ts';

/** A board drawn at true scale in its own frame, with the box that its drawing takes, mm. */
export interface BoardMarks {
  readonly marks: readonly Mark[];
  readonly box: Box;
  /** The row above the board for the arrow that tells the grain, where it is left to the pages; see {@link grainMarks}. */
  readonly grainRow?: Box;
}

/** What may be known of a board besides its layout. */
export interface BoardExtras {
  /** The order of work on the board, when it is planned. */
  readonly plan?: BoardPlan | undefined;
  /** In which drills are taken, and lengths written (default mm). */
  readonly unit?: DisplayUnit | undefined;
  /**
   * The least that a page shows of the board along it, mm, where it is cut into pages. Each has an arrow of its own then, for
   * one on the board would be cut off at the edge of a page.
   */
  readonly pageWidth?: number | undefined;
}

/** Room above the board for the names of its sections, mm. */
const SECTION_ROW = 4;

/** Distance from the board to the line of text above and below it, mm. */
const GAP = 3;
const TEXT_SIZE = 3;

/** From the line of text below the board to the list of what numbers stand for, mm. */
const LIST_GAP = 2;

/** What a page shows beyond the end of its board and beyond its texts, mm. */
const PAGE_SPARE = 4;
/** How far the end of a board may be from its first part for a page to begin there, mm: beyond that it begins at the part. */
const NEAR_END = 15;

/**
 * Everything that is drawn on the board and close around it: edges, defects, parts with their labels, grain and
 * rest edge.
 *
 * @param drawer what was found for other boards is used again when they share a drawer
 */
export function boardMarks(
  board: LaidBoard,
  { plan, unit = 'mm', pageWidth }: BoardExtras = {},
  drawer: PartDrawer = new PartDrawer(),
): BoardMarks {
  const keepers = keeperMarks(board.offcuts ?? []);
  const {
    parts,
    cores,
    above: labelsAbove,
    below,
    right,
    ...named
  } = partMarks(board, keepers, plan, drawer);
  const above = Math.max(labelsAbove, sectionsOf(board, plan).length > 1 ? SECTION_ROW : 0);
  const box = wholeBox(board);
  // Labels that found no room on the board stand next to it; grain and rest edge are named outside of them.
  const top = box.minY - above - GAP - TEXT_SIZE;
  const bottom = box.maxY + below + GAP + TEXT_SIZE;
  // Below the name of the edge, which is looked for beside it.
  const list = listUnder(board, named, { top: bottom + LIST_GAP, left: box.minX, pageWidth });
  const grainRow = { minX: box.minX, minY: top, maxX: box.maxX, maxY: top + TEXT_SIZE };
  const marks: Mark[] = [
    { kind: 'group', id: 'board', title: `Board ${board.id}`, marks: [...stockMarks(board), ...keepers] },
    ...parts,
    ...(cores.length === 0 ? [] : [coreGroup(cores)]),
    ...(list === undefined ? [] : [listGroup(list.marks)]),
    ...(plan === undefined
      ? sectionGroups(sectionMarks(board, sectionsOf(board)))
      : [planGroup(planMarks(board, plan, [...keepers, ...parts], drawer, unit))]),
    ...(pageWidth === undefined ? [grainGroup(grainRow)] : []),
    {
      kind: 'group',
      id: 'rest-edge',
      title: 'Straight edge of the board',
      marks: restEdgeMarks(board, bottom),
    },
  ];
  return {
    marks,
    box: {
      minX: box.minX - 2,
      minY: top - 2,
      maxX: Math.max(box.maxX, right, list?.right ?? box.maxX) + 2,
      maxY: (list?.bottom ?? bottom) + 2,
    },
    ...(pageWidth === undefined ? {} : { grainRow }),
  };
}

function coreGroup(marks: readonly Mark[]): GroupMark {
  return { kind: 'group', id: 'saw-lines', title: 'White lines to saw along', marks };
}

/**
 * The list of what numbers stand for, where there are any. Below the parts, not below what is left of the board: a page would be
 * printed for the list alone.
 *
 * @param place where it begins, the left end of the board, and the least that a page shows, mm
 */
function listUnder(
  { placements }: LaidBoard,
  { listed, alike, nameless }: Pick<OutsideLabels, 'listed' | 'alike' | 'nameless'>,
  { top, left, pageWidth }: { top: number; left: number; pageWidth: number | undefined },
): LabelList | undefined {
  if (listed.length + alike.length + nameless === 0) return undefined;
  const boxes = placements.map(({ region }) => regionBounds(region));
  const minX = Math.min(...boxes.map((each) => each.minX));
  const maxX = Math.max(...boxes.map((each) => each.maxX));
  const page = pageWidth && pageWidth - PAGE_SPARE - Math.min(minX - left, NEAR_END);
  return listBelow(listed, alike, nameless, { minX, maxX, top, page });
}

function listGroup(marks: readonly Mark[]): GroupMark {
  return { kind: 'group', id: 'list', title: 'What the numbers of parts stand for', marks };
}

function planGroup(marks: readonly Mark[]): GroupMark {
  return { kind: 'group', id: 'plan', title: 'Order of the cuts, holes to drill', marks };
}

/** What a board is cross-cut into: of one whose cuts are not planned, what the layout says. */
function sectionsOf(board: LaidBoard, plan?: BoardPlan): BoardPlan['sections'] {
  return plan?.sections ?? board.sections ?? [];
}

function sectionGroups(marks: readonly Mark[]): GroupMark[] {
  return marks.length === 0
    ? []
    : [{ kind: 'group', id: 'sections', title: 'Cross-cuts between sections', marks }];
}

/**
 * One group for each placement, and how far labels reach above and below the board. The white lines of wide edges by
 * themselves, to be drawn over all parts: the band of a part that lies close would hide them.
 */
function partMarks(
  board: LaidBoard,
  keepers: readonly Mark[],
  plan: BoardPlan | undefined,
  drawer: PartDrawer,
): Omit<OutsideLabels, 'marks'> & { parts: GroupMark[]; cores: Mark[] } {
  const drawn = board.placements.map((placement) =>
    drawer.draw(placement, board.placements, plan !== undefined),
  );
  const wanted = board.placements.flatMap((placement, i): OutsideLabel[] => {
    const { anchor } = drawn[i];
    if (anchor === undefined) return [];
    return [{ placement, anchor, number: i + 1, reported: drawer.numberOf(placement) }];
  });
  const sections = sectionsOf(board, plan);
  const set = [...keepers, ...sectionMarks(board, sections), ...drawn.flatMap(({ marks }) => marks)];
  const texts = set.flatMap((mark) => (mark.kind === 'text' ? [textBox(mark)] : []));
  const outside = placeOutside(wanted, board, {
    taken: texts,
    cuts: sectionLines(board, sections),
    roomIn: (placement, blocks) => drawer.smallRoom(placement, blocks),
  });
  const parts = board.placements.map(
    (placement, i): GroupMark => ({
      kind: 'group',
      id: `part-${i + 1}`,
      title: placementName(placement),
      marks: [...drawn[i].marks.filter((mark) => !isCore(mark)), ...(outside.marks.get(placement) ?? [])],
    }),
  );
  const { marks: _, ...around } = outside;
  const cores = drawn.flatMap(({ marks }) => marks.filter(isCore));
  return { parts, cores, ...around };
}

function isCore(mark: Mark): boolean {
  return mark.kind === 'rings' && mark.role === 'wide-edge-core';
}

/** The name of a copy in words: layer, part, set, and whether it lies face down. */
function placementName({ layer, part, set, turnedOver }: Placement): string {
  return `${layer} ${part}, set ${set}${turnedOver ? ', turned over' : ''}`;
}

function grainGroup(row: Box): GroupMark {
  return { kind: 'group', id: 'grain', title: 'Direction of the grain', marks: grainMarks(row) };
}

/**
 * The big arrow in the row above a board, or above what a page shows of it: the grain runs along x on every board.
 *
 * @param row from one end of what is shown to the other, mm
 */
export function grainMarks(row: Box): Mark[] {
  const length = Math.min(140, (row.maxX - row.minX) * 0.6);
  const middle = (row.minX + row.maxX) / 2;
  const words = length > 60 ? 'grain' : '';
  const level = (row.minY + row.maxY) / 2;
  if (words === '') return grainArrow(middle, level, length, 4);
  const half = (length - 16) / 2;
  return [
    ...grainArrow(middle - 8 - half / 2, level, half, 4),
    text('caption', words, [middle, level + 1], TEXT_SIZE, 'middle'),
    ...grainArrow(middle + 8 + half / 2, level, half, 4),
  ];
}

/**
 * The straight edge thickened on its outer side so that no saw line is covered, and named below it, and so is a top edge that
 * parts stand on. Where there is none, that is said, for the name of an edge that is not there is looked for in vain.
 */
function restEdgeMarks(board: LaidBoard, bottom: number): Mark[] {
  const caption = (words: string, { minX, maxX }: Box) =>
    text('caption', words, [(minX + maxX) / 2, bottom], TEXT_SIZE, 'middle');
  const sides = straightEdge(board);
  const top = topEdgeStoodOn(board) ?? [];
  const above = thickLines(top, 'top');
  if (sides === undefined)
    return [...above, caption('no straight edge along the grain here', boundsOf(board.usable.outline))];
  const words =
    top.length === 0 ? 'straight edge of the board' : 'straight edge; parts stand on the top edge too';
  return [...above, ...thickLines(sides, 'straight'), caption(words, boundsOf(sides.flat()))];
}
