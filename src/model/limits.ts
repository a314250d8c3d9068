/**
 * Copies of all parts that are laid out in one batch, and so the most there can be of anything that is counted in a job or a
 * layout: sets, copies, boards alike, strips, slices. Beyond it the search would run for hours before it has a first
 * answer, and what is done once for each copy as well; a larger number is a slip of the pen.
 */
export const MOST_COPIES = 10_000;

/**
 * Greatest distance in mm that a vein may lie outside its part: it may end on the outline, and run along it. What is laid out
 * may not lie farther off than what passes as a layout.
 */
export const MOST_VEIN_OUTSIDE = 0.05;

/**
 * Greatest change of moisture that a piece is asked to stand, percentage points: wood of a heated home has about 6 %, wood dried
 * in the open air 12 to 20 (common practice, no source).
 */
export const MOST_MOISTURE_CHANGE = 20;
