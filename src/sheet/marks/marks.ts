import { type Box, boundsOf, type Line, type Point, type Ring } from '../../geometry/shapes.ts';
import { plainText } from '../../issues/plain-text.ts';

/**
 * A drawing as a list of marks, before it becomes SVG, PDF or a picture in the report: what is drawn, where in
 * mm, and in which role. How a role looks (width, colour) is told in one table, mark-styles.ts.
 */
export type Mark = LineMark | RingsMark | TextMark | GroupMark | ClipMark | MapMark;

/** What a mark means; every role has its own look. */
export type MarkRole =
  | 'board-edge'
  | 'usable-edge'
  | 'rest-edge'
  | 'defect'
  | 'defect-hatch'
  | 'part-edge'
  | 'opening-edge'
  | 'bright-edge'
  | 'wide-edge'
  | 'wide-edge-core'
  | 'waste-hatch'
  | 'vein'
  | 'vein-end'
  | 'hole-centre'
  | 'cut-number'
  | 'cut-lead'
  | 'unnumbered'
  | 'tab'
  | 'paper'
  | 'section'
  | 'section-name'
  | 'keeper'
  | 'weak'
  | 'grain'
  | 'grain-head'
  | 'label'
  | 'reported-label'
  | 'part-number'
  | 'leader'
  | 'leader-end'
  | 'calibration'
  | 'frame'
  | 'text'
  | 'heading'
  | 'caption'
  | 'rule'
  | 'trim'
  | 'join'
  | 'straight-on'
  | 'map-part'
  | 'map-page'
  | 'map-skipped'
  | 'picture-wood-1'
  | 'picture-wood-2'
  | 'picture-wood-3'
  | 'picture-wood-4'
  | 'picture-wood-5'
  | 'picture-wood-6'
  | 'picture-ground'
  | 'picture-section'
  | 'picture-board'
  | 'picture-part'
  | 'picture-number';

/** An open line. */
export interface LineMark {
  readonly kind: 'line';
  readonly role: MarkRole;
  readonly points: Line;
}

/** Closed rings painted together; filled by the even-odd rule when the role has a fill. */
export interface RingsMark {
  readonly kind: 'rings';
  readonly role: MarkRole;
  readonly rings: readonly Ring[];
}

/** One line of text. */
export interface TextMark {
  readonly kind: 'text';
  readonly role: MarkRole;
  readonly text: string;
  /** On the baseline: the start, middle or end of the text as `anchor` says. */
  readonly at: Point;
  /** Size of the font in mm. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** Marks that belong together, such as one placed part. */
export interface GroupMark {
  readonly kind: 'group';
  /** Unique in the drawing, stable from run to run. */
  readonly id: string;
  /** What the group is, for a person who hovers over it or hears the drawing read out. */
  readonly title: string;
  /** In drawing order; of a large group each is made when it is asked for, and again when asked for again. */
  readonly marks: Iterable<Mark>;
}

/** Marks shown moved, and of them only what lies in a window: a page of a larger drawing. */
export interface ClipMark {
  readonly kind: 'clip';
  /** Unique in the drawing, stable from run to run. */
  readonly id: string;
  /** In the frame of the drawing that holds this mark. */
  readonly window: Box;
  /** By how much the marks are moved, mm: they stay as they are, for many pages show the same ones. */
  readonly shift: Point;
  readonly marks: readonly Mark[];
}

/**
 * Marks shown smaller, their lines as wide as ever: a map of a larger drawing. They stay as they are, for the outlines
 * of a board in a smaller copy would be as many points again as the board has.
 */
export interface MapMark {
  readonly kind: 'map';
  /** How long a millimetre of the marks is shown, mm. */
  readonly scale: number;
  /** By how much they are moved when they are smaller, mm. */
  readonly shift: Point;
  readonly marks: readonly (LineMark | RingsMark)[];
}

/** A drawing with the window of the plane it shows, mm. */
export interface MarkedDrawing {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** A line mark. */
export function line(role: MarkRole, ...points: Point[]): LineMark {
  return { kind: 'line', role, points };
}

/** A mark of closed rings. */
export function rings(role: MarkRole, ...closed: Ring[]): RingsMark {
  return { kind: 'rings', role, rings: closed };
}

/**
 * A mark of text: whatever the text holds, it becomes one line of printable characters.
 *
 * @param at on the baseline, mm
 * @param size of the font, mm
 */
export function text(
  role: MarkRole,
  content: string,
  at: Point,
  size: number,
  anchor: TextMark['anchor'] = 'start',
): TextMark {
  return { kind: 'text', role, text: plainText(content).replace(/\s+/g, ' ').trim(), at, size, anchor };
}

/** An upright rectangle in mm as a ring, by its upper left corner. */
export function rectangle(x: number, y: number, width: number, height: number): Ring {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

/** A circle in mm as a ring of 24 chords: marks only, never a line to saw along. */
export function dot([x, y]: Point, radius: number): Ring {
  return DIRECTIONS.map(([dx, dy]): Point => [x + radius * dx, y + radius * dy]);
}

/** Evenly all round. */
const DIRECTIONS: Ring = Array.from({ length: 24 }, (_, i): Point => {
  const angle = (i * Math.PI) / 12;
  return [Math.cos(angle), Math.sin(angle)];
});

/** A square on its corner as a ring, from its middle to a corner so far, mm: where the saw has to stop. */
export function diamond([x, y]: Point, radius: number): Ring {
  return [
    [x - radius, y],
    [x, y - radius],
    [x + radius, y],
    [x, y + radius],
  ];
}

/** A mark that is drawn itself, and holds no others. */
export type DrawnMark = LineMark | RingsMark | TextMark;

/** Every mark of groups and by itself, in drawing order. A page's view or a map of a drawing is not looked into. */
export function flatMarks(marks: Iterable<Mark>): DrawnMark[] {
  const flat: DrawnMark[] = [];
  addFlat(marks, flat);
  return flat;
}

/** Onto one list, whatever the depth: a board has some ten thousand marks, and a list for each would be felt. */
function addFlat(marks: Iterable<Mark>, flat: DrawnMark[]): void {
  for (const mark of marks) {
    if (mark.kind === 'group') addFlat(mark.marks, flat);
    else if (mark.kind !== 'clip' && mark.kind !== 'map') flat.push(mark);
  }
}

/** Every role that is drawn, in groups too. */
export function rolesOf(marks: Iterable<Mark>): Set<MarkRole> {
  return new Set(flatMarks(marks).map(({ role }) => role));
}

/** The box around the points of a line or of rings, without the width of its line, mm. */
export function shapeBox(mark: LineMark | RingsMark): Box {
  if (mark.kind === 'line') return boundsOf(mark.points);
  return mark.rings.length === 1 ? boundsOf(mark.rings[0]) : boundsOf(mark.rings.flat());
}
