/** Greatest shortfall in mm of a distance that still passes: a hundred times the grid the layout is written on. */
export const DISTANCE_TOLERANCE = 0.01;

/** Greatest error in degrees of a rotation that still passes. */
export const ANGLE_TOLERANCE = 1e-6;

/** Relative error of a stated figure that still passes: rounding of the file. */
export const FIGURE_TOLERANCE = 1e-6;
