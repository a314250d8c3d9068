import type { Box, Line, Point, Ring } from '../../geometry/shapes.ts';
import { plainText } from '../../svg/write.ts';

/**
 * A drawing as a list of marks, before it becomes SVG, PDF or a picture in the report: what is drawn, where in
 * mm, and in which role. How a role looks (width, colour) is told in one table, mark-styles.ts.
 */
export type Mark = LineMark | RingsMark | TextMark | GroupMark | ClipMark;

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
  | 'tab'
  | 'paper'
  | 'section'
  | 'section-name'
  | 'keeper'
  | 'weak'
  | 'grain'
  | 'grain-head'
  | 'label'
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
  readonly marks: readonly Mark[];
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
  return Array.from({ length: 24 }, (_, i) => {
    const angle = (i * Math.PI) / 12;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)] as const;
  });
}

/** Every mark of groups and by itself, in drawing order. A page's view of a drawing is not looked into. */
export function flatMarks(marks: readonly Mark[]): (LineMark | RingsMark | TextMark)[] {
  return marks.flatMap((mark) => {
    if (mark.kind === 'clip') return [];
    return mark.kind === 'group' ? flatMarks(mark.marks) : [mark];
  });
}

/** Every role that is drawn, in groups too. */
export function rolesOf(marks: readonly Mark[]): Set<MarkRole> {
  return new Set(flatMarks(marks).map(({ role }) => role));
}

/** The box around the points of a line or of rings, without the width of its line, mm. */
export function shapeBox(mark: LineMark | RingsMark): Box {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const points of mark.kind === 'line' ? [mark.points] : mark.rings) {
    // By index: this runs over every point of a job, and an iterator for each is felt.
    for (let i = 0; i < points.length; i++) {
      const x = points[i][0];
      const y = points[i][1];
      if (x < box.minX) box.minX = x;
      if (y < box.minY) box.minY = y;
      if (x > box.maxX) box.maxX = x;
      if (y > box.maxY) box.maxY = y;
    }
  }
  return box;
}
