import type { Line, Point } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { Section } from './layout.ts';

/** A least, a likely and a greatest value of something that is only estimated, in the unit of the field that holds it. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** A saw blade as the maker has it. Lengths in mm. Numbers differ between makers, so a number is only a name. */
export interface Blade {
  readonly name: string;
  /** Front to back: sets the tightest curve. */
  readonly width: number;
  /** Side to side. */
  readonly thickness: number;
  readonly teethPerInch: number;
  /** Diameter of the hole drilled for it. */
  readonly hole: number;
  /** Width of the cut it makes. */
  readonly kerf: number;
  /** True when the kerf was measured on a test cut, false when it is a typical value. */
  readonly kerfMeasured: boolean;
  /** Thickest wood of 1000 lbf hardness it is the first choice for. */
  readonly upTo: number;
}

/** What the saw meets in one kind of part, found by the check of the pattern. Lengths in mm. */
export interface SawnPart {
  readonly layer: string;
  readonly part: string;
  /** Corners where the blade is turned on the spot. */
  readonly sharpTurns: number;
  /** Width of the thinnest neck that is below its limit, and where it is in the frame of the drawing. */
  readonly thinnestNeck: number | undefined;
  readonly neckAt: Point | undefined;
  /** Radius of the tightest bend of the outline, then of each opening; undefined when nothing bends tightly. */
  readonly tightestBends: readonly (number | undefined)[];
}

/** What a cut goes along; a tab is the last of an outline, left standing to hold a small part. */
export type CutKind = 'opening' | 'vein' | 'outline' | 'tab';

/** How the blade gets to the start of a cut. */
export type CutEntry =
  /** Through a drilled hole: the blade is unclamped and threaded. */
  | 'hole'
  /** Through a cut made before it. */
  | 'earlier cut'
  /** Out of the line of the opening or outline that comes next: the blade turns in, saws the vein and backs out. */
  | 'in passing'
  /** Through the waste, from the edge of the board or from where a part was. */
  | 'waste';

/** One pass of the saw. */
export interface Cut {
  /** Its place in the order of its board, from 1. */
  readonly number: number;
  readonly kind: CutKind;
  /** Index of the part in the placements of its board. */
  readonly placement: number;
  readonly layer: string;
  readonly part: string;
  /** From 1. */
  readonly set: number;
  /** Index of the opening, the vein, or the piece of the outline; a tab has that of the piece it was left of, or of the one
   * before it where it parts two. */
  readonly piece: number;
  /** The path from its start, board mm. A closed path does not repeat its first point. */
  readonly line: Line;
  readonly closed: boolean;
  /** Of the line, mm. */
  readonly length: number;
  /** Sawn through waste before the line: from the hole, the edge of the board or an earlier cut. Empty when there is none. */
  readonly leadIn: Line;
  /** False when parts bar every straight way: the lead-in then winds between them, and is longer than it is here. */
  readonly leadInClear: boolean;
  /** Name of the blade. */
  readonly blade: string;
  readonly entry: CutEntry;
  /** True when the part lies free in the hand already. */
  readonly partFree: boolean;
  /** True when the part comes free with this cut. */
  readonly frees: boolean;
  /** Why it comes at this place, for a person. */
  readonly reason: string;
}

/** A hole to drill before any sawing, board mm. */
export interface DrilledHole {
  readonly at: Point;
  /** What its blade asks for, mm. */
  readonly diameter: number;
  /** What the blade just passes, mm: the diagonal of its section. */
  readonly least: number;
  /** Widest hole that fits in the waste there, mm; left out where a vein is entered through the part itself. */
  readonly room?: number;
  /** Number of the cut it is for. */
  readonly cut: number;
}

/** The order of work on one board. Lengths in mm. */
export interface BoardPlan {
  readonly board: string;
  readonly species: string;
  /** Wood under the blade: that of the whole stack. */
  readonly thickness: number;
  /** Boards that lie on one another and are sawn at once; 1 when left out. */
  readonly stack?: number;
  /** How often the same work is done, on one board or stack after the other. */
  readonly copies: number;
  /** From the left; one when the whole board is sawn as it is. */
  readonly sections: readonly Pick<Section, 'from' | 'to'>[];
  /** In the order of drilling. */
  readonly holes: readonly DrilledHole[];
  readonly cuts: readonly Cut[];
  /** What the blade saws on one board: the lines of the cuts, without their lead-ins. */
  readonly cutLength: number;
  /** What it saws besides, through waste, to get to them. */
  readonly leadInLength: number;
  /** Outline that lies on the edge of the board or of a section and is not sawn. */
  readonly sharedEdges: number;
  /** How far the board is moved under the blade between cuts. */
  readonly travel: number;
  /** The same stages with the cuts of each taken from left to right along the board. */
  readonly travelLeftToRight: number;
  /** Corners where the blade is turned on the spot; a vein sawn in passing is one to turn in and one to go on. */
  readonly sharpTurns: number;
}

/** How often a blade is used and for what. */
export interface BladeUse {
  readonly blade: Blade;
  readonly why: string;
  /** What it saws in the whole batch, lead-ins too, mm. */
  readonly sawn: number;
  /** Blades that the batch will wear out. */
  readonly worn: Range;
}

/** Every cut of every board, in order. */
export interface CutPlan {
  readonly boards: readonly BoardPlan[];
  /** Length of the tabs by which small parts hang in the board, mm; undefined when they are sawn last, without tabs. */
  readonly tab: number | undefined;
  readonly blades: readonly BladeUse[];
  /** Number of blade changes when every board is finished before the next is begun. */
  readonly bladeChanges: number;
  /** Number of blade changes when all boards of one wood are taken through one blade before the next is fitted. */
  readonly bladeChangesGrouped: number;
  /** Sums over all boards, repeated work counted as often. Lengths in mm. */
  readonly cutLength: number;
  /** Sawn besides, through waste, to get to the lines, mm. */
  readonly leadInLength: number;
  /** Outline on the edges of boards and sections, not sawn. */
  readonly sharedEdges: number;
  /** Way between cuts, mm. */
  readonly travel: number;
  /** The same with the cuts of each stage taken from left to right along the board, mm. */
  readonly travelLeftToRight: number;
  /** Number of holes to drill. */
  readonly holes: number;
  /** How many times the blade is threaded. */
  readonly threadings: number;
  /** Number of corners where the blade is turned on the spot. */
  readonly sharpTurns: number;
  /** What to mind, in plain words. */
  readonly cautions: readonly string[];
  readonly issues: readonly Issue[];
}
