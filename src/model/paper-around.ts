/** Paper left around the pattern of a part to cut along and to hold, mm: printed so, and charged so. */
export const PAPER_AROUND = 3;
