/** Greatest shortfall in mm of a distance that still passes: a hundred times the grid the layout is written on. */
export const DISTANCE_TOLERANCE = 0.01;

/** Greatest error in degrees of a rotation that still passes. */
export const ANGLE_TOLERANCE = 1e-6;

/** Relative error of a stated figure that still passes: rounding of the file. */
export const FIGURE_TOLERANCE = 1e-6;

/**
 * Error of the areas of a board as a share of it that still passes: they are those of shapes rounded to the grid, many
 * of them, and make the whole board only so closely.
 */
export const AREA_TOLERANCE = 1e-5;

/** How far the edges of a board may lie off where they are measured, mm: half a step of the grid, on a narrow board more than that share. */
export const EDGE_TOLERANCE = 5e-5;

/** How much too wide the path of the blade may be taken, mm: an area along an edge is told so closely. */
export const PATH_TOLERANCE = 0.05;
