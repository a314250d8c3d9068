import { FretlayError } from '../../issues/fretlay-error.ts';
import { USUAL_PAGE } from '../../model/usual-settings.ts';
import { LONGEST_PAGE, PAPER_SIZES, type PaperName } from '../../units/paper.ts';
import { windowCount } from './tiling.ts';

/** What a placement sheet is printed on: a paper by name, a size in mm, or a roll of a width in mm. */
export type Paper =
  | PaperName
  | { readonly width: number; readonly height: number }
  | { readonly roll: number };

/** How pages are set up. Lengths in mm. */
export interface PageOptions {
  /** Default A4. */
  readonly paper?: Paper | undefined;
  /** `fewest` takes the way that needs fewer pages. Default `fewest`; a roll always runs along the board. */
  readonly orientation?: 'portrait' | 'landscape' | 'fewest' | undefined;
  /** Edge the printer cannot print on. Default 6.35 mm (1/4 in), which home printers keep (common practice). */
  readonly margin?: number | undefined;
  /** How far neighbouring pages show the same. Default 12 mm (common practice: 10 to 15 mm). */
  readonly overlap?: number | undefined;
}

/** One page with the window in which the board is seen, mm from the upper left corner of the paper. */
export interface PageSetup {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  readonly overlap: number;
  readonly window: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
}

/** Strip above the window for the page's name and a rule, and beside it for a rule, mm. */
const HEAD = 9;
const SIDE = 5;

/** Length of a page cut from a roll where nothing on it asks for more, mm. */
export const ROLL_PAGE = 240;

/** Smallest window that is still worth a page, mm. */
const SMALLEST_WINDOW = 60;

/**
 * The page setups to choose from: one, or both ways round when the way that needs fewer pages is wanted.
 *
 * @param length of what is to be drawn along x, mm: the length of a page cut from a roll, or of several that are joined where
 *   one would be longer than a page of a PDF may be
 * @throws FretlayError when the paper, margin and overlap leave no room
 */
export function pageSetups(options: PageOptions, length: number): PageSetup[] {
  const { paper = 'a4', orientation = 'fewest' } = options;
  const { margin = USUAL_PAGE.margin, overlap = USUAL_PAGE.overlap } = options;
  if (typeof paper === 'object' && 'roll' in paper) {
    // As long as need be: what is short asks for no longer roll, and for no other paper.
    const around = 2 * margin + SIDE;
    const count = windowCount(length, { size: LONGEST_PAGE - around, overlap });
    const share = (length + (count - 1) * overlap) / count;
    return [checked(Math.max(share, SMALLEST_WINDOW, 2 * overlap) + around, paper.roll, margin, overlap)];
  }
  const [a, b] = typeof paper === 'string' ? PAPER_SIZES[paper] : ([paper.width, paper.height] as const);
  const short = Math.min(a, b);
  const long = Math.max(a, b);
  const portrait = () => checked(short, long, margin, overlap);
  const landscape = () => checked(long, short, margin, overlap);
  if (orientation === 'fewest') return [portrait(), landscape()];
  return [orientation === 'portrait' ? portrait() : landscape()];
}

function checked(width: number, height: number, margin: number, overlap: number): PageSetup {
  const window = {
    x: margin + SIDE,
    y: margin + HEAD,
    width: width - 2 * margin - SIDE,
    height: height - 2 * margin - HEAD,
  };
  const smallest = Math.min(window.width, window.height);
  const usable = margin >= 0 && overlap >= 0 && smallest >= SMALLEST_WINDOW && overlap <= smallest / 2;
  if (usable && Number.isFinite(width + height)) return { width, height, margin, overlap, window };
  const told = (mm: number) => Number(mm.toFixed(2));
  throw new FretlayError([
    {
      kind: 'page-too-small',
      severity: 'error',
      message: 'paper, printer margin and overlap leave too little room on a page',
      expected: `a window of at least ${SMALLEST_WINDOW} mm and an overlap of at most half of it`,
      received: `paper ${told(width)} x ${told(height)} mm, margin ${told(margin)} mm, overlap ${told(overlap)} mm`,
      remedy: 'Take a larger paper, or a smaller margin or overlap.',
      where: { field: 'paper' },
    },
  ]);
}
