import { locateInRing, ringArea } from '../../geometry/ring.ts';
import type { Line, Ring } from '../../geometry/shapes.ts';
import { crossCutLines } from '../../model/cross-cuts.ts';
import type { BoardPlan, DrilledHole } from '../../model/cut-plan.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { drillFor } from '../../units/drills.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { dot, line, type Mark, rings, text } from '../marks/marks.ts';
import { cutNumberMarks, placeCutNumbers } from './cut-numbers.ts';
import { HOLE_CROSS, type PartDrawer } from './part-marks.ts';
import { topEdgeStoodOn } from './straight-edge.ts';
import { wholeBox } from './whole-box.ts';

/**
 * What a cut plan adds to a board: where it is cross-cut into sections, the holes to drill, each as wide
 * as its drill, the tabs that hold small parts, and at the start of every cut its place in the order.
 */

const SECTION_SIZE = 2.6;
/** From the board to the name of a section, and from a top edge that is drawn thick, mm. */
const NAME_ABOVE = 1;
const NAME_ABOVE_THICK = 2;

/**
 * The marks of a plan.
 *
 * @param drawn what is on the board already: no number is written over a text or a saw line
 * @param drawer remembers where numbers stand
 * @param unit of the drills that are taken
 */
export function planMarks(
  board: LaidBoard,
  plan: BoardPlan,
  drawn: readonly Mark[],
  drawer: PartDrawer,
  unit: DisplayUnit,
): Mark[] {
  const holes = plan.holes.flatMap((hole) => holeMarks(hole, unit));
  const sections = sectionMarks(board, plan.sections);
  const place = () => placeCutNumbers(board, plan.cuts, [...drawn, ...sections, ...holes]);
  const numbers = cutNumberMarks(plan.cuts, drawer.numberPlaces(plan, place));
  return [...sections, ...tabMarks(plan.cuts), ...holes, ...numbers];
}

/** The paper that one part is printed on by itself. */
export interface PartPaper {
  /** What is cut out around the part, in the frame of the board: numbers stand on it. */
  readonly outline: Ring;
  /** What is on it already: no number is written over a text or a saw line. */
  readonly drawn: readonly Mark[];
  /** Of the drills that are taken. */
  readonly unit: DisplayUnit;
}

/**
 * What a plan says of one part by itself: its holes, tabs and cuts, numbered as on the board.
 *
 * @param index of the part among the placements of the board
 */
export function partPlanMarks(board: LaidBoard, index: number, plan: BoardPlan, paper: PartPaper): Mark[] {
  const own = plan.cuts.filter(({ placement }) => placement === index);
  const holes = plan.holes.filter((hole) => homeOf(hole, board, plan) === index);
  const drilled = holes.flatMap((hole) => holeMarks(hole, paper.unit));
  // Alone on the paper: room for its numbers is looked for beside no other part.
  const usable = { outline: paper.outline, openings: [] };
  const alone = { ...board, usable, placements: [board.placements[index]] };
  const cuts = own.map((cut) => ({ ...cut, placement: 0 }));
  const places = placeCutNumbers(alone, cuts, [...paper.drawn, ...drilled]);
  return [...tabMarks(own), ...drilled, ...cutNumberMarks(cuts, places)];
}

/**
 * The part on whose paper a hole is drilled, by its index: that of its cut; but the hole through which the blade
 * comes to a part that lies in another one's opening is in that opening, and so on the other's paper.
 */
function homeOf({ at, cut }: DrilledHole, { placements }: LaidBoard, plan: BoardPlan): number | undefined {
  const owner = plan.cuts.find(({ number }) => number === cut)?.placement;
  if (owner === undefined || locateInRing(at, placements[owner].region.outline) >= 0) return owner;
  const around = placements.flatMap(({ region }, index) =>
    region.openings
      .filter((opening) => locateInRing(at, opening) >= 0)
      .map((opening) => ({ index, area: ringArea(opening) })),
  );
  // Of openings one in the other the innermost.
  return around.sort((a, b) => a.area - b.area)[0]?.index ?? owner;
}

/** The stretches of outline that hold small parts until the last, thick: nobody should saw on into one. */
function tabMarks(cuts: BoardPlan['cuts']): Mark[] {
  const tabs = cuts.filter(({ kind }) => kind === 'tab');
  return tabs.map((cut): Mark => ({ kind: 'line', role: 'tab', points: cut.line }));
}

/** The ring is as wide as the drill that the report names, which may be wider or finer than what the blade asks for. */
function holeMarks(hole: DrilledHole, unit: DisplayUnit): Mark[] {
  const [x, y] = hole.at;
  const { diameter } = drillFor(hole, unit);
  const arm = diameter / 2 + HOLE_CROSS;
  const ring = dot([x, y], diameter / 2);
  return [
    // White in the hole: hatching would blur the centre. No wider, for a line to saw along may run close by.
    rings('paper', ring),
    line('hole-centre', [x - arm, y], [x + arm, y]),
    line('hole-centre', [x, y - arm], [x, y + arm]),
    rings('hole-centre', ring),
  ];
}

/** The cross-cuts that part a board into its sections. */
export function sectionLines(board: LaidBoard, sections: BoardPlan['sections']): Line[] {
  return crossCutLines({ ...board, sections });
}

/** A line across the board where a section ends, and the name of each section just above the board. */
export function sectionMarks(board: LaidBoard, sections: BoardPlan['sections']): Mark[] {
  const { minY } = wholeBox(board);
  const named = sections.length < 2 ? [] : sections;
  const above = topEdgeStoodOn(board) === undefined ? NAME_ABOVE : NAME_ABOVE_THICK;
  const names = named.map(({ from, to }, i) =>
    text('section-name', `section ${i + 1}`, [(from + to) / 2, minY - above], SECTION_SIZE, 'middle'),
  );
  return [...sectionLines(board, sections).map((each) => line('section', ...each)), ...names];
}
