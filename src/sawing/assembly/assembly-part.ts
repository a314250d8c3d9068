import type { Region } from '../../geometry/shapes.ts';
import type { GrainRule } from '../../model/batch.ts';
import type { PartName } from '../../model/same-part.ts';

/** The wood of one layer. */
export interface LayerWood {
  readonly species: string;
  /** mm */
  readonly thickness: number;
  readonly grain: GrainRule;
}

/** A kind of part that is there, and how many of it one piece has. */
export interface PartInPiece extends PartName {
  /** 1 when left out. */
  readonly copiesPerSet?: number | undefined;
}

/** A part of the pattern with its wood, on the way into its place. */
export interface AssemblyPart {
  readonly layer: string;
  readonly part: string;
  /** In the frame of the drawing, mm. */
  readonly region: Region;
  readonly wood: LayerWood;
  /** In one piece. */
  readonly copies: number;
}
