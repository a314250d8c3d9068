import type { Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';

/** Two parts that touch face to face when the piece is put together. */
export interface GlueJoint {
  readonly behind: { readonly layer: string; readonly part: string };
  readonly front: { readonly layer: string; readonly part: string };
  /** Where they touch, in the frame of the drawing, mm2 in all. */
  readonly contact: readonly Region[];
  /** mm2 */
  readonly contactArea: number;
  /** Where to spread glue so that none shows: the contact kept back from its edges. */
  readonly glue: readonly Region[];
  /** mm2 */
  readonly glueArea: number;
  /** How far the two move apart across the joint for the change of moisture, mm; undefined for a wood without figures. */
  readonly movement: number | undefined;
  readonly movementMethod: string;
  /** How their grains lie to one another: any way where the grain of one of them is free. */
  readonly grains: 'alike' | 'crossed' | 'any way';
  /** How often it is glued in one piece: once for each copy of the part that has more of them. */
  readonly copies: number;
}

/** A part in its place. Depths in mm from the back of the piece. */
export interface StandingPart {
  readonly layer: string;
  readonly part: string;
  readonly back: number;
  readonly front: number;
  /** How far its straight bottom is above the plane it stands on (below when negative); undefined when it does not stand. */
  readonly offPlane: number | undefined;
  /** Area of one face, mm2. */
  readonly area: number;
}

/** How the layers go together, from the back. */
export interface AssemblyPlan {
  /** In the order of gluing. */
  readonly parts: readonly StandingPart[];
  readonly joints: readonly GlueJoint[];
  /** Overall size, mm. */
  readonly width: number;
  /** mm */
  readonly height: number;
  /** mm */
  readonly depth: number;
  /** The plane the piece stands on, y in mm in the frame of the drawing; undefined when no part has a straight bottom. */
  readonly restPlane: number | undefined;
  /** Grams of glue for one piece, least and most. */
  readonly glueGrams: readonly [number, number];
  /** Of one finished piece with all copies of its parts, kg; undefined when a species is not in the table of woods. */
  readonly weight: number | undefined;
  /** Both faces of all copies of the parts of one piece, mm2. */
  readonly faces: number;
  /** Both faces and the edges of all copies, mm2: what is finished. */
  readonly surface: number;
  readonly issues: readonly Issue[];
}
