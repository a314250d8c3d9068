import { type Box, boundsOf, boxesMeet, type Point } from '../../geometry/shapes.ts';
import type { BoardPlan, Cut, DrilledHole } from '../../model/cut-plan.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { dot, flatMarks, line, type Mark, rectangle, rings, text } from '../marks/marks.ts';
import { ASCENT, textBox, textWidth } from '../marks/text-width.ts';
import { FreeSpace } from './free-space.ts';

/**
 * What a cut plan adds to a board: where it is cross-cut into sections, the holes to drill with their true
 * diameter, the tabs that hold small parts, and
 * at the start of every cut its place in the order.
 */

/** Size of the numbers, mm, and the free space around them. */
const NUMBER_SIZE = 2.1;
const CLEARANCE = 0.35;
/** Farthest a number may stand from the start of its cut, mm: beyond it, it would seem to belong elsewhere. */
const REACH = 6;
/** How far a cross reaches beyond its hole, mm. */
const CROSS = 0.8;
const SECTION_SIZE = 2.6;

/**
 * The marks of a plan. A number that finds no room by the start of its cut is left out; the cut list has it.
 *
 * @param drawn what is on the board already: no number is written over a text or a saw line
 */
export function planMarks(board: LaidBoard, plan: BoardPlan, drawn: readonly Mark[]): Mark[] {
  const holes = plan.holes.flatMap(holeMarks);
  const space = numberSpace(board);
  const taken = flatMarks([...drawn, ...holes]).flatMap((mark): Box[] => {
    if (mark.kind === 'text') return [textBox(mark)];
    return KEEP_CLEAR.has(mark.role)
      ? [boundsOf(mark.kind === 'line' ? mark.points : mark.rings.flat())]
      : [];
  });
  const numbers = plan.cuts.flatMap((cut) => numberMark(cut, space, taken));
  return [...sectionMarks(board, plan), ...tabMarks(plan), ...holes, ...numbers];
}

/** The stretches of outline that hold small parts until the last, thick: nobody should saw on into one. */
function tabMarks({ cuts }: BoardPlan): Mark[] {
  return cuts.filter(({ kind }) => kind === 'tab').map((cut) => line('tab', ...cut.line));
}

const KEEP_CLEAR: ReadonlySet<string> = new Set([
  'hole-centre',
  'grain',
  'grain-head',
  'leader',
  'leader-end',
  'weak',
]);

/** Everywhere on the board but along its saw lines: in parts, in openings and on waste alike. */
function numberSpace(board: LaidBoard): FreeSpace {
  const space = new FreeSpace(boundsOf(board.usable.outline), 0.4);
  space.freeInside(board.usable);
  space.takeAlong(board.usable.outline, CLEARANCE, true);
  for (const { region, veins } of board.placements) {
    for (const ring of [region.outline, ...region.openings]) space.takeAlong(ring, CLEARANCE, true);
    for (const vein of veins) space.takeAlong(vein, CLEARANCE, false);
  }
  return space;
}

function numberMark(cut: Cut, space: FreeSpace, taken: Box[]): Mark[] {
  const words = `${cut.number}`;
  const width = textWidth(words, NUMBER_SIZE);
  const free = (box: Box) => !taken.some((other) => boxesMeet(box, other, CLEARANCE));
  const box = space.nearestAccepted(width, NUMBER_SIZE, cut.line[0], REACH, free);
  if (box === undefined) return [];
  taken.push(box);
  const at: Point = [(box.minX + box.maxX) / 2, box.minY + ASCENT * NUMBER_SIZE];
  // White under it covers hatching only: there is no saw line here.
  const paper = rectangle(box.minX, box.minY, width, NUMBER_SIZE);
  return [rings('paper', paper), text('cut-number', words, at, NUMBER_SIZE, 'middle')];
}

function holeMarks({ at: [x, y], diameter }: DrilledHole): Mark[] {
  const arm = diameter / 2 + CROSS;
  return [
    line('hole-centre', [x - arm, y], [x + arm, y]),
    line('hole-centre', [x, y - arm], [x, y + arm]),
    rings('hole-centre', dot([x, y], diameter / 2)),
  ];
}

/** A line across the board where a section ends, named on both sides just above the board. */
function sectionMarks(board: LaidBoard, { sections }: BoardPlan): Mark[] {
  if (sections.length < 2) return [];
  const { minY, maxY } = boundsOf(board.usable.outline);
  return sections.flatMap(({ from, to }, i): Mark[] => [
    ...(i === 0 ? [] : [line('section', [from, minY], [from, maxY])]),
    text('caption', `section ${i + 1}`, [(from + to) / 2, minY - 1], SECTION_SIZE, 'middle'),
  ]);
}
