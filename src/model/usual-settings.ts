/** What is taken where neither a job nor a caller of the library says. Lengths in mm; common practice, no source. */

/** Parts smaller than this both ways are hard to hold: 2 in. */
export const USUAL_HOLD_SIZE = 50.8;

/** Ends of lines up to this far apart are joined. */
export const USUAL_JOIN_GAP = 0.2;

/** How a piece is glued up. */
export const USUAL_GLUE_UP = {
  /** How far a bottom may be off the plane the piece stands on. */
  restTolerance: 0.2,
  /** How far glue is kept back from the edges of a joint so that none squeezes out. */
  glueMargin: 3,
  /** Change of moisture the piece has to stand, percentage points: from a dry to a humid home. */
  moistureChange: 5,
} as const;

/** Edge of a page that a printer cannot print on, and how far neighbouring pages show the same. */
export const USUAL_PAGE = { margin: 6.35, overlap: 12 } as const;
