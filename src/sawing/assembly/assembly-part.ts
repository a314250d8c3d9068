import type { Region } from '../../geometry/shapes.ts';
import type { GrainRule } from '../../model/batch.ts';

/** The wood of one layer. */
export interface LayerWood {
  readonly species: string;
  /** mm */
  readonly thickness: number;
  readonly grain: GrainRule;
}

/** A part of the pattern with its wood, on the way into its place. */
export interface AssemblyPart {
  readonly layer: string;
  readonly part: string;
  /** In the frame of the drawing, mm. */
  readonly region: Region;
  readonly wood: LayerWood;
}
