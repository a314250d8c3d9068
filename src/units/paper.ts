/**
 * Paper sizes in millimetres, portrait: [width, height].
 * A sizes: ISO 216. Letter (ANSI A) and Tabloid (ANSI B): ANSI/ASME Y14.1. Legal: 8.5 in x 14 in, common practice.
 */
export const PAPER_SIZES = {
  letter: [215.9, 279.4],
  legal: [215.9, 355.6],
  tabloid: [279.4, 431.8],
  a4: [210, 297],
  a3: [297, 420],
} as const satisfies Record<string, readonly [number, number]>;

/** Longest side of a page of a PDF, mm: 14,400 units of 1/72 in (ISO 32000-1, annex C). A reader need not show or print more. */
export const LONGEST_PAGE = 5080;

/** A paper size by name. */
export type PaperName = keyof typeof PAPER_SIZES;
