import type { Point } from '../geometry/shapes.ts';
import type { GrainRule } from './batch.ts';
import type { SomeOf } from './stated.ts';

/** What the saw is fitted with. Lengths in mm. */
export interface SawFitting {
  /** Width of the cut. */
  readonly kerf: number;
  /** Width of the blade, front to back: sets the tightest curve. */
  readonly bladeWidth: number;
  /** Diameter of the drilled hole the blade is threaded through. */
  readonly hole: number;
}

/** What a pattern is checked for. Lengths in mm. */
export interface PatternCheckOptions {
  readonly saw?: SomeOf<SawFitting> | undefined;
  /** Grain by layer name; `along` the drawing's x axis when left out. */
  readonly grain?: Readonly<Record<string, GrainRule>> | undefined;
  /** Thinnest neck that runs along the grain (default 1.6). */
  readonly neckAlong?: number | undefined;
  /** Thinnest neck that runs across the grain (default 3.2). */
  readonly neckAcross?: number | undefined;
  /** Parts smaller than this both ways are held in a carrier (default 50.8). */
  readonly holdSize?: number | undefined;
}

/** One place the saw or the wood will have trouble with. */
export interface Finding {
  readonly kind:
    | 'neck-thin'
    | 'neck-short-grain'
    | 'turn-tight'
    | 'opening-small'
    | 'lost-in-kerf'
    | 'part-small';
  readonly severity: 'warning' | 'note';
  readonly layer: string;
  readonly part: string;
  /** Where, finished mm in the frame of the drawing. */
  readonly at: Point;
  /** The two sides of a neck; undefined for other findings. */
  readonly span: readonly [Point, Point] | undefined;
  /** What was measured and what it should be at least, mm. */
  readonly size: number;
  /** mm */
  readonly limit: number;
  /** What is the matter and what to do, one sentence each. */
  readonly message: string;
  readonly advice: string;
}

/** Findings that say the same thing, told once: all of one kind in a part, and those of its copies. */
export interface FindingGroup {
  /** One or more, all of one kind and layer. */
  readonly findings: readonly Finding[];
  /** Names of the parts they are in. */
  readonly parts: readonly string[];
  readonly message: string;
  readonly advice: string;
}

/** What the saw meets in one part. */
export interface PartCheck {
  readonly layer: string;
  readonly part: string;
  /** Number of corners where the blade is turned on the spot. */
  readonly sharpTurns: number;
  /** Width of the thinnest neck below the limit looked for, mm; undefined when there is none. */
  readonly thinnestNeck: number | undefined;
}

/** The saw's view of a pattern. */
export interface PatternCheck {
  readonly saw: SawFitting;
  readonly findings: readonly Finding[];
  /** The same findings, those that say the same thing together. */
  readonly groups: readonly FindingGroup[];
  readonly parts: readonly PartCheck[];
}
