import type { Box, Line, Region, Ring } from '../geometry/shapes.ts';
import type { GrainRule } from './batch.ts';

/** The layout file, version 1: all placements on all boards. What sheets, plans and the verifier rely on. */
export interface Layout {
  readonly format: 'fretlay-layout';
  readonly version: 1;
  readonly unit: 'mm';
  readonly kerf: number;
  readonly clearance: number;
  readonly edgeMargin: number;
  /** Number of sets asked for. */
  readonly sets: number;
  /** True when the parts of a set that are of one species, thickness and height of stack have to come from one board. */
  readonly setsTogether?: boolean;
  /** What one set consists of: the check that sets are complete counts against this. */
  readonly setContents: readonly SetContent[];
  readonly boards: readonly LaidBoard[];
  readonly unplaced: readonly Unplaced[];
  readonly figures: Figures;
}

/** One kind of part in a set, with the rules its placements have to keep. */
export interface SetContent {
  readonly part: string;
  readonly layer: string;
  readonly copiesPerSet: number;
  readonly grain: GrainRule;
  /** Degrees. */
  readonly grainTolerance: number;
  readonly turnOver: boolean;
  /** True when the part stands on a straight edge of the board: no edge margin is kept there. */
  readonly restEdge?: boolean;
  /** The part as drawn, mm: what every placement is checked against; may be left out. */
  readonly region?: Region;
}

/** One board with what lies on it. */
export interface LaidBoard {
  /** Unique in the layout: the stock id and a number. */
  readonly id: string;
  /** Id of the stock entry the board is taken from. */
  readonly stock: string;
  readonly species: string;
  /** mm */
  readonly thickness: number;
  /** More than 1: a stack, or the same layout again. */
  readonly copies: number;
  /** The board before any trim, mm; that of `usable` when left out. */
  readonly outline?: Ring;
  /** What is ripped off its edges and cross-cut off its ends first; left out when nothing is. */
  readonly trimmed?: TrimmedSides;
  /** What may be used of the board, mm. */
  readonly usable: Region;
  /** True when its top (small y) edge is straight too: parts with a rest edge may stand on it, head down. */
  readonly straightTopEdge?: boolean;
  readonly placements: readonly Placement[];
  /** Names of the boards of the stack, from the top; the board itself when left out. */
  readonly pieces?: readonly string[];
  /** Thickness in mm the board is planed to before it is sawn; left out when it is used as it is. */
  readonly planeTo?: number;
  /**
   * Number of slices the board is resawn into, each planed to `planeTo`; this is the layout of one. The surplus
   * of one too thick to be planed is resawn off. Left out when it is not resawn.
   */
  readonly slices?: number;
  /** Number of strips a board is ripped into along the grain; this is one of them. Left out when it is not ripped. */
  readonly strips?: number;
  /** Number of lengths a board, or each of its strips, is cross-cut into; this is one of them. Left out when it is not. */
  readonly lengths?: number;
  /** The lengths the board is cross-cut to before it is sawn, from the left; left out when it stays whole. */
  readonly sections?: readonly Section[];
  /** What is worth keeping of the board afterwards. */
  readonly offcuts?: readonly Offcut[];
  /** Where the whole area of the board goes. */
  readonly areas?: BoardAreas;
}

/** How much is ripped off the edges of a board and cross-cut off its ends before the paper goes on, mm; 0 where nothing is. */
export interface TrimmedSides {
  readonly topEdge: number;
  readonly straightEdge: number;
  readonly leftEnd: number;
  readonly rightEnd: number;
}

/** A length cross-cut from a board so that it swings in the saw's throat; the saw's kerf lies between two. */
export interface Section {
  /** From 1, from the left end. */
  readonly number: number;
  /** Along the board, mm. */
  readonly from: number;
  /** Along the board, mm. */
  readonly to: number;
}

/** An offcut that is large enough to keep. */
export interface Offcut {
  /** Unique in the layout: the board's id, `keeper` and a number. */
  readonly id: string;
  /** Its true outline, board mm. */
  readonly region: Region;
  /** The largest upright rectangle in it, mm. */
  readonly rectangle: Box;
  /** mm2 */
  readonly area: number;
  /** Straight saw cuts that part it from the board, in an order that does; none when the blade freed it. */
  readonly lines: readonly Line[];
}

/** Areas in mm2 that together make the whole board. */
export interface BoardAreas {
  /** The whole board before any trim. */
  readonly board: number;
  /** Ripped and cross-cut off before layout. */
  readonly trims: number;
  readonly defects: number;
  /** Solid area of the parts. */
  readonly parts: number;
  /** Waste that falls out of the parts' openings. */
  readonly openings: number;
  /** What the blade and the straight cuts remove. */
  readonly kerf: number;
  readonly keepers: number;
  /** All the rest. */
  readonly scrap: number;
}

/** One copy of a part on a board. */
export interface Placement {
  readonly part: string;
  readonly layer: string;
  /** Which set the copy belongs to, from 1. */
  readonly set: number;
  /** Translation in mm, applied last. */
  readonly x: number;
  /** mm */
  readonly y: number;
  /** Degrees, clockwise as seen, applied after turning over. */
  readonly rotation: number;
  /** Mirrored in x before anything else: cut face down. */
  readonly turnedOver: boolean;
  /** As placed, true geometry without kerf, board mm. */
  readonly region: Region;
  readonly veins: readonly Line[];
}

/** A copy that found no place, and why. */
export interface Unplaced {
  readonly part: string;
  readonly layer: string;
  /** From 1. */
  readonly set: number;
  readonly why: string;
}

/** Figures of a layout, of all boards or of one species. Areas mm2, lengths mm. */
export interface Totals {
  /** Boards with something on them; a board in copies counts each. */
  readonly boards: number;
  readonly parts: number;
  /** Solid area of the placed parts. */
  readonly partArea: number;
  /** Usable area of the boards that carry something. */
  readonly boardArea: number;
  /** partArea / boardArea. */
  readonly yield: number;
  /** Exact board feet of the boards used. */
  readonly boardFeet: number;
  /** Outlines, openings and veins of the placed parts: those of a stack count each, though one cut saws all its boards. */
  readonly cutLength: number;
  /** Openings of the placed parts, those of a stack each: holes to drill where nothing is stacked. */
  readonly openings: number;
}

/** Totals of the layout and of each species in it. */
export interface Figures extends Totals {
  /** Number of sets with every copy placed. */
  readonly completeSets: number;
  readonly bySpecies: Readonly<Record<string, Totals>>;
}
