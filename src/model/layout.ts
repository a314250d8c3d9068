import type { Line, Region } from '../geometry/shapes.ts';
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
  /** What may be used of the board, mm. */
  readonly usable: Region;
  readonly placements: readonly Placement[];
}

/** One copy of a part on a board. */
export interface Placement {
  readonly part: string;
  readonly layer: string;
  /** Which set the copy belongs to, from 1. */
  readonly set: number;
  /** Translation in mm, applied last. */
  readonly x: number;
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
  /** What the blade travels: outlines, openings and veins of the placed parts. */
  readonly cutLength: number;
  /** Openings of the placed parts: holes to drill. */
  readonly openings: number;
}

/** Totals of the layout and of each species in it. */
export interface Figures extends Totals {
  readonly completeSets: number;
  readonly bySpecies: Readonly<Record<string, Totals>>;
}
