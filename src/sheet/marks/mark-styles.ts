import type { MarkRole } from './marks.ts';

/**
 * How every role looks. The sheet has to read in black and white: meaning is carried by width, hatching and
 * shape, colour only helps. Three inks besides black, chosen apart in hue for colour-blind eyes (blue against
 * brick) and all dark enough to print as grey lines.
 *
 * Widths are from the series 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0 mm of ISO 128 (from memory). The saw line is
 * thinner than any kerf, so that the sawyer can tell on which side of it to follow.
 */
export interface MarkStyle {
  /** Colour of the line, or none. */
  readonly stroke: string | undefined;
  /** Width of the line, mm. */
  readonly width: number;
  /** Colour of the inside (or of the text), or none. */
  readonly fill: string | undefined;
  /** Lengths of dash and gap in mm for a broken line. */
  readonly dash: readonly number[] | undefined;
  readonly bold: boolean;
}

/** Width of the line to saw along, mm. */
export const SAW_LINE_WIDTH = 0.25;

const BLACK = '#111111';
const GREY = '#6b6b6b';
const BRICK = '#9a3412';
const BLUE = '#1e4e8c';

/**
 * For sheets that dark wood shows through: of a brightness between white and black, so that it stands off from both
 * (and as a grey, too) by the contrast that WCAG 2.1, 1.4.11 asks of lines, 3 to 1.
 */
const ORANGE = '#d95f02';

function stroke(colour: string, width: number, dash?: readonly number[]): MarkStyle {
  return { stroke: colour, width, fill: undefined, dash, bold: false };
}

function fill(colour: string, bold = false): MarkStyle {
  return { stroke: undefined, width: 0, fill: colour, dash: undefined, bold };
}

/** The look of each role. */
export const MARK_STYLES: Readonly<Record<MarkRole, MarkStyle>> = {
  'board-edge': stroke(GREY, 0.35),
  'usable-edge': stroke(GREY, 0.18, [3, 1.5]),
  'rest-edge': stroke(BLACK, 1),
  defect: { ...stroke(GREY, 0.35), fill: '#e4e4e4' },
  'defect-hatch': stroke(GREY, 0.25),
  'part-edge': stroke(BLACK, SAW_LINE_WIDTH),
  'opening-edge': stroke(BLACK, SAW_LINE_WIDTH),
  'bright-edge': stroke(ORANGE, 0.35),
  'wide-edge': stroke(BLACK, 1.2),
  'wide-edge-core': stroke('#ffffff', 0.5),
  'waste-hatch': stroke(BRICK, 0.13),
  vein: stroke(BLUE, 0.13),
  'vein-end': fill(BLUE),
  'hole-centre': stroke(BLACK, 0.18),
  'cut-number': fill(BRICK, true),
  'cut-lead': stroke(BRICK, 0.13),
  unnumbered: fill(BRICK),
  tab: stroke(BRICK, 1),
  paper: fill('#ffffff'),
  section: stroke(BLACK, 0.35, [6, 1.5, 1, 1.5]),
  'section-name': fill(GREY),
  keeper: stroke(GREY, 0.35, [4, 2]),
  weak: stroke(BRICK, 0.25),
  grain: stroke(GREY, 0.18),
  'grain-head': fill(GREY),
  label: fill(BLACK),
  'reported-label': fill(BLACK),
  'part-number': fill(BLACK),
  leader: stroke(GREY, 0.13),
  'leader-end': fill(GREY),
  calibration: stroke(BLACK, 0.18),
  frame: stroke(GREY, 0.18),
  text: fill(BLACK),
  heading: fill(BLACK, true),
  caption: fill(GREY),
  rule: stroke(BLACK, 0.13),
  trim: stroke(GREY, 0.13, [1, 2]),
  join: { ...stroke(BLACK, 0.13), fill: '#bdbdbd' },
  'straight-on': stroke(GREY, 0.18, [8, 2]),
  'map-part': { ...stroke(GREY, 0.13), fill: '#e3e3e3' },
  'map-page': stroke(BLACK, 0.25, [2, 1]),
  'map-skipped': stroke(GREY, 0.13, [0.5, 1]),
  'picture-wood-1': { ...stroke(BLACK, 0.5), fill: '#efdfbb' },
  'picture-wood-2': { ...stroke(BLACK, 0.5), fill: '#b98a63' },
  'picture-wood-3': { ...stroke(BLACK, 0.5), fill: '#a9c6d8' },
  'picture-wood-4': { ...stroke(BLACK, 0.5), fill: '#8f9f6a' },
  'picture-wood-5': { ...stroke(BLACK, 0.5), fill: '#e3b7c4' },
  'picture-wood-6': { ...stroke(BLACK, 0.5), fill: '#fbf9f3' },
  'picture-ground': stroke(GREY, 0.5),
  'picture-section': stroke(BLACK, 1.2, [12, 4, 2, 4]),
  'picture-board': { ...stroke(GREY, 0.8), fill: '#f6f1e7' },
  'picture-part': { ...stroke(BLACK, 0.5), fill: '#d9c3a0' },
  'picture-number': fill(BLACK, true),
};

/** Faces that share the widths of text-width.ts, then whatever sans-serif there is. */
export const FONT_FAMILY = 'Helvetica, Arial, Liberation Sans, sans-serif';
