import type { Line, Region } from '../geometry/shapes.ts';
import type { Board } from './stock.ts';

/** How the grain of the board has to run in a part. */
export type GrainRule = 'along' | 'across' | 'free';

/** How the copies of one part may lie on a board. */
export interface PlacingRules {
  /** `along`: the drawing's x axis along the grain (0 or 180 degrees); `across`: 90 or 270; `free`: any way. */
  readonly grain: GrainRule;
  /** Degrees either way a part may be turned off its grain direction; 0 for none. */
  readonly grainTolerance: number;
  /** Whether the part may be turned over (cut with its face down). */
  readonly turnOver: boolean;
  /** Whether the part's rest edge has to lie on the straight (large y) edge of the board, or on its top edge where that is straight too. */
  readonly restEdge: boolean;
}

/** Whether rules ask for what cannot be: a bottom on the straight edge lies along the board, as its grain does. */
export function standsAcrossGrain({
  grain,
  grainTolerance,
  restEdge,
}: Pick<PlacingRules, 'grain' | 'grainTolerance' | 'restEdge'>): boolean {
  return restEdge && grain === 'across' && grainTolerance < 90;
}

/** Edge margins that a part keeps across the board, both together, mm: what stands on the straight edge keeps none there. */
export function marginsAcross({ restEdge }: Pick<PlacingRules, 'restEdge'>, edgeMargin: number): number {
  return restEdge ? edgeMargin : 2 * edgeMargin;
}

/** One kind of part to lay out, with the number of copies. */
export interface Demand {
  readonly part: string;
  readonly layer: string;
  /** True outline and openings in the frame of the drawing, mm. */
  readonly region: Region;
  readonly veins: readonly Line[];
  readonly copiesPerSet: number;
  readonly species: string;
  /** Thickness asked for, mm. */
  readonly thickness: number;
  readonly rules: PlacingRules;
  /** How many boards are fastened together and sawn at once, at most; 1 when left out. */
  readonly stack?: number | undefined;
}

/** A copy that lies where the maker has put it; the search works around it. */
export interface Pin {
  readonly layer: string;
  readonly part: string;
  /** Id of the board entry. */
  readonly board: string;
  /** Which of its boards, from 1. */
  readonly number: number;
  /** Along the board, mm: where the origin of the part's drawing comes to lie, as in a placement. */
  readonly x: number;
  /** Across the board, mm. */
  readonly y: number;
  /** Degrees, clockwise as seen. */
  readonly rotation: number;
  /** Mirrored in x before it is turned; not when left out. */
  readonly turnedOver?: boolean | undefined;
}

/** How large an offcut has to be to be kept: a rectangle of this size has to fit in it. */
export interface KeepRule {
  /** Along the grain, mm. */
  readonly length: number;
  /** Across the grain, mm. */
  readonly width: number;
}

/** What can be swung and handled at the saw, mm. */
export interface SawReach {
  /** From the blade to the back of the saw; undefined when there is no limit. */
  readonly throat: number | undefined;
  /** Greatest length of a board at the saw; undefined when there is no limit. */
  readonly longest: number | undefined;
}

/** A batch to be laid out: plain data, no search settings. */
export interface Batch {
  /** Number of finished sets. */
  readonly sets: number;
  /** One part or more: a batch of nothing is refused. */
  readonly demands: readonly Demand[];
  readonly boards: readonly Board[];
  /** Width the blade removes, mm. */
  readonly kerf: number;
  /** Extra gap asked for between parts on top of the kerf, mm. */
  readonly clearance: number;
  /** Gap between parts and the edge of the usable board (and of defects), mm. */
  readonly edgeMargin: number;
  /** Greatest difference in mm between a board's thickness and the one asked for. */
  readonly thicknessTolerance: number;
  /** Greatest deviation of the flattened outlines from the true curves, mm: added to every gap. */
  readonly outlineTolerance: number;
  /** How large an offcut has to be to be kept; 8 x 3 in when left out. */
  readonly keep?: KeepRule | undefined;
  /** Copies that lie where the maker has put them; none when left out. */
  readonly pins?: readonly Pin[] | undefined;
  /**
   * True when the parts of a set that are of one wood come from one board, so that colour and figure match; parts of one
   * layer then have one `stack`.
   */
  readonly setsTogether?: boolean | undefined;
  /** Width of the straight cuts that part sections and keepers from a board, mm; 1/8 in when left out. */
  readonly crosscutKerf?: number | undefined;
  /** Boards are cross-cut to sections that fit the saw; they stay whole when left out. */
  readonly reach?: SawReach | undefined;
}
