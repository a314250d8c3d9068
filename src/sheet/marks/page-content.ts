import type { Line, Point } from '../../geometry/shapes.ts';
import { formatNumber } from '../../svg/number.ts';
import { MM_PER_UNIT } from '../../units/length.ts';
import { ContentBytes } from './content-bytes.ts';
import { MARK_STYLES, type MarkStyle } from './mark-styles.ts';
import {
  type ClipMark,
  type LineMark,
  type MapMark,
  type Mark,
  type MarkedDrawing,
  type MarkRole,
  type RingsMark,
  rectangle,
  type TextMark,
} from './marks.ts';
import { ThinnedLine } from './thinned-line.ts';

/**
 * Drawings as the content of PDF pages (ISO 32000-1, annex A lists the operators). It is written here and not through
 * the library's operator objects, which for the millions of points of a big job would take a gigabyte.
 */

/** A stretch of a text in one font, as that font encodes it. */
export interface TextRun {
  /** Name of the font on the page, with its slash. */
  readonly font: string;
  /** The encoded text as a PDF string with its brackets. */
  readonly encoded: string;
  /** Share of the font size that it is wide. */
  readonly width: number;
  /** What the text is where the font lacks letters of it; left out where it prints as it is. */
  readonly actual?: string;
}

/** How a text is set: in which fonts, and how wide it is. */
export type TextSetter = (text: string, bold: boolean) => readonly TextRun[];

/** Units of the page content in a millimetre: whole numbers, a hundredth of a millimetre, finer than any printer. */
const PAGE_UNITS_PER_MM = 100;

/** From how many points on a shape is written from a corner of its own, with short numbers that copies share. */
const LONG = 24;
const PAGE_CORNER: Point = [0, 0];

/** How lines and areas of every role are painted: a page changes its look some hundred times, between few looks. */
const LOOKS = forEveryRole(stateOperators);
/** The colour that texts of every role are filled with. */
const INKS = forEveryRole(({ fill = '#000000' }) => rgb(fill));

/** Millimetres as PDF points, 72 to the inch. */
export function points(mm: number): number {
  return mm / MM_PER_UNIT.pt;
}

/** Writes one page after the other. */
export class PageContent {
  readonly #bytes = new ContentBytes();
  readonly #thinned = new ThinnedLine();
  /** Texts as they are set, plain and bold: rules and names say the same on every page. */
  readonly #runs = [new Map<string, readonly TextRun[]>(), new Map<string, readonly TextRun[]>()] as const;
  readonly #set: TextSetter;
  /** How long a millimetre of the marks is on the page, mm: maps are smaller. */
  #scale = 1;

  constructor(set: TextSetter) {
    this.#set = set;
  }

  /** The content of the page of a drawing. */
  write(drawing: MarkedDrawing): Uint8Array<ArrayBuffer> {
    const scale = points(1) / PAGE_UNITS_PER_MM;
    const left = points(-drawing.x);
    const bottom = points(drawing.y + drawing.height);
    // y runs down, as everywhere else: only text has to be turned back up.
    const frame = [scale, 0, 0, -scale, left, bottom].map(precise).join(' ');
    this.#bytes.ascii(`q\n${frame} cm\n1 J 1 j\n`);
    this.#marks(drawing.marks);
    this.#bytes.ascii('Q');
    return this.#bytes.take();
  }

  /**
   * Short shapes of one role that follow each other are one path when nothing but a line is drawn: it is painted once.
   * Long ones are written as seen from their first point: copies of a part that lie the same way are then the same
   * bytes, which pack to almost nothing.
   */
  #marks(marks: Iterable<Mark>): void {
    let role: MarkRole | undefined;
    let isBegun = false;
    const finish = () => {
      if (role !== undefined && isBegun) this.#paint(role);
      isBegun = false;
    };
    for (const mark of marks) {
      if (mark.kind !== 'line' && mark.kind !== 'rings') {
        finish();
        role = undefined;
        this.#other(mark);
        continue;
      }
      const isLong = pointCount(mark) >= LONG;
      if (isLong || mark.role !== role || MARK_STYLES[mark.role].fill !== undefined) finish();
      if (mark.role !== role) {
        role = mark.role;
        this.#bytes.ascii(LOOKS[role]);
      }
      if (isLong) {
        this.#long(mark);
      } else {
        this.#shape(mark, PAGE_CORNER);
        isBegun = true;
      }
    }
    finish();
  }

  #long(mark: LineMark | RingsMark): void {
    const [x, y] = firstPoint(mark);
    this.#bytes.ascii(`q 1 0 0 1 ${units(x * this.#scale)} ${units(y * this.#scale)} cm\n`);
    this.#shape(mark, [x, y]);
    this.#paint(mark.role);
    this.#bytes.ascii('Q\n');
  }

  #shape(mark: LineMark | RingsMark, origin: Point): void {
    if (mark.kind === 'line') this.#path(mark.points, false, origin);
    else for (const ring of mark.rings) this.#path(ring, true, origin);
  }

  #other(mark: Exclude<Mark, { kind: 'line' | 'rings' }>): void {
    if (mark.kind === 'text') this.#text(mark);
    else if (mark.kind === 'clip') this.#clip(mark);
    else if (mark.kind === 'map') this.#map(mark);
    else this.#marks(mark.marks);
  }

  #clip({ window, shift, marks }: ClipMark): void {
    const { minX, minY, maxX, maxY } = window;
    this.#bytes.ascii('q\n');
    this.#path(rectangle(minX, minY, maxX - minX, maxY - minY), true, PAGE_CORNER);
    this.#bytes.ascii(`W n\n1 0 0 1 ${units(shift[0])} ${units(shift[1])} cm\n`);
    this.#marks(marks);
    this.#bytes.ascii('Q\n');
  }

  #map({ scale, shift, marks }: MapMark): void {
    this.#bytes.ascii(`q 1 0 0 1 ${units(shift[0])} ${units(shift[1])} cm\n`);
    this.#scale = scale;
    this.#marks(marks);
    this.#scale = 1;
    this.#bytes.ascii('Q\n');
  }

  #path(line: Line, closed: boolean, origin: Point): void {
    const bytes = this.#bytes;
    const thinned = this.#thinned;
    thinned.set(line, closed, origin, PAGE_UNITS_PER_MM * this.#scale);
    for (let i = 0; i < thinned.count; i += 2) {
      bytes.integer(thinned.coordinates[i]);
      bytes.integer(thinned.coordinates[i + 1]);
      bytes.ascii(i === 0 ? 'm\n' : 'l\n');
    }
    if (closed && thinned.count > 0) bytes.ascii('h\n');
  }

  #runsOf(text: string, bold: boolean): readonly TextRun[] {
    const known = this.#runs[bold ? 1 : 0];
    const runs = known.get(text) ?? this.#set(text, bold);
    known.set(text, runs);
    return runs;
  }

  #paint(role: MarkRole): void {
    const style = MARK_STYLES[role];
    if (style.fill === undefined) this.#bytes.ascii('S\n');
    else this.#bytes.ascii(style.stroke === undefined ? 'f*\n' : 'B*\n');
  }

  #text(mark: TextMark): void {
    const runs = this.#runsOf(mark.text, MARK_STYLES[mark.role].bold);
    const width = mark.size * runs.reduce((sum, run) => sum + run.width, 0);
    const x = mark.at[0] - { start: 0, middle: 0.5, end: 1 }[mark.anchor] * width;
    const size = units(mark.size);
    // Within one text object each string begins where the one before it ended.
    const shown = runs.map((run) => withActual(`${run.font} ${size} Tf ${run.encoded} Tj`, run)).join(' ');
    this.#bytes.ascii(`BT ${INKS[mark.role]} rg 1 0 0 -1 ${units(x)} ${units(mark.at[1])} Tm ${shown} ET\n`);
  }
}

/** Says what a text is that the font cannot print: for search, copying and reading aloud (ISO 32000-1, 14.9.4). */
function withActual(shown: string, { actual }: TextRun): string {
  if (actual === undefined) return shown;
  let units16 = '';
  for (let i = 0; i < actual.length; i++) units16 += actual.charCodeAt(i).toString(16).padStart(4, '0');
  return `/Span <</ActualText <feff${units16}>>> BDC ${shown} EMC`;
}

function pointCount(mark: LineMark | RingsMark): number {
  if (mark.kind === 'line') return mark.points.length;
  let count = 0;
  for (const ring of mark.rings) count += ring.length;
  return count;
}

function firstPoint(mark: LineMark | RingsMark): Point {
  return (
    (mark.kind === 'line' ? mark.points[0] : mark.rings.find(({ length }) => length > 0)?.[0]) ?? PAGE_CORNER
  );
}

function forEveryRole(operators: (style: MarkStyle) => string): Readonly<Record<MarkRole, string>> {
  const roles = Object.keys(MARK_STYLES) as MarkRole[];
  return Object.fromEntries(roles.map((role) => [role, operators(MARK_STYLES[role])])) as Record<
    MarkRole,
    string
  >;
}

function stateOperators({ stroke, fill, width, dash }: MarkStyle): string {
  return [
    stroke === undefined ? '' : `${rgb(stroke)} RG ${units(width)} w`,
    fill === undefined ? '' : `${rgb(fill)} rg`,
    `[${(dash ?? []).map(units).join(' ')}] 0 d\n`,
  ].join(' ');
}

function units(mm: number): number {
  return Math.round(mm * PAGE_UNITS_PER_MM);
}

/** Numbers of the frame need more digits than a drawing: they are multiplied by thousands of units. */
function precise(value: number): string {
  return value.toFixed(8);
}

/** A colour `#rrggbb` as the three numbers 0 to 1 that PDF wants. */
function rgb(colour: string): string {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255]
    .map((part) => formatNumber(part / 255))
    .join(' ');
}
