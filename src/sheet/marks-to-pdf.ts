import {
  beginText,
  clip,
  closePath,
  concatTransformationMatrix,
  endPath,
  endText,
  fillEvenOdd,
  LineCapStyle,
  LineJoinStyle,
  lineTo,
  moveTo,
  PDFDocument,
  type PDFFont,
  PDFOperator,
  PDFOperatorNames,
  type PDFPage,
  PrintScaling,
  popGraphicsState,
  pushGraphicsState,
  StandardFonts,
  setDashPattern,
  setFillingRgbColor,
  setFontAndSize,
  setLineCap,
  setLineJoin,
  setLineWidth,
  setStrokingRgbColor,
  setTextMatrix,
  showText,
  stroke,
} from '@cantoo/pdf-lib';
import type { Line } from '../geometry/shapes.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import { MARK_STYLES } from './mark-styles.ts';
import { type Mark, type MarkedDrawing, type MarkRole, rectangle, type TextMark } from './marks.ts';

/**
 * The only door to the PDF library: drawings become pages of one vector PDF, a millimetre a millimetre. It asks
 * viewers not to scale (PrintScaling None, ISO 32000-1 table 150) and writes with the base fonts Helvetica and
 * Helvetica Bold, which every printer has. Those fonts hold Western European letters only: any other character
 * prints as a question mark.
 */

/** What the document says of itself. */
export interface PdfFacts {
  readonly title: string;
  readonly subject: string;
}

interface Fonts {
  readonly plain: PDFFont;
  readonly bold: PDFFont;
}

/** All drawings as pages of one PDF, each as large as its window. Same input, same bytes. */
export async function drawingsToPdf(
  drawings: readonly MarkedDrawing[],
  facts: PdfFacts,
): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(encodable(facts.title), { showInWindowTitleBar: true });
  document.setSubject(encodable(facts.subject));
  document.setCreator('fretlay');
  document.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const fonts: Fonts = {
    plain: await document.embedFont(StandardFonts.Helvetica),
    bold: await document.embedFont(StandardFonts.HelveticaBold),
  };
  for (const drawing of drawings) {
    const page = document.addPage([points(drawing.width), points(drawing.height)]);
    page.pushOperators(...pageOperators(drawing, page, fonts));
  }
  return document.save();
}

/** Millimetres as PDF points, 72 to the inch. */
function points(mm: number): number {
  return mm / MM_PER_UNIT.pt;
}

function pageOperators(drawing: MarkedDrawing, page: PDFPage, fonts: Fonts): PDFOperator[] {
  const plain = page.node.newFontDictionary('Plain', fonts.plain.ref);
  const bold = page.node.newFontDictionary('Bold', fonts.bold.ref);
  const scale = points(1);
  // Millimetres with y down, as everywhere else: only text has to be turned back up.
  const frame = concatTransformationMatrix(
    scale,
    0,
    0,
    -scale,
    -drawing.x * scale,
    (drawing.y + drawing.height) * scale,
  );
  const write = (mark: TextMark) => {
    const { bold: heavy } = MARK_STYLES[mark.role];
    return textOperators(mark, heavy ? fonts.bold : fonts.plain, heavy ? bold : plain);
  };
  return [
    pushGraphicsState(),
    frame,
    setLineCap(LineCapStyle.Round),
    setLineJoin(LineJoinStyle.Round),
    ...markOperators(drawing.marks, write),
    popGraphicsState(),
  ];
}

type TextWriter = (mark: TextMark) => PDFOperator[];

function markOperators(marks: readonly Mark[], write: TextWriter): PDFOperator[] {
  const operators: PDFOperator[] = [];
  let role: MarkRole | undefined;
  for (const mark of marks) {
    if (mark.kind === 'group') {
      operators.push(...markOperators(mark.marks, write));
      role = undefined;
    } else if (mark.kind === 'clip') {
      operators.push(...clipOperators(mark, write));
      role = undefined;
    } else if (mark.kind === 'text') {
      operators.push(...write(mark));
      role = undefined;
    } else {
      // The state stays as it is while the role does.
      if (mark.role !== role) operators.push(...stateOperators(mark.role));
      role = mark.role;
      const closed = mark.kind === 'rings';
      const lines = mark.kind === 'rings' ? mark.rings : [mark.points];
      for (const each of lines) operators.push(...pathOperators(each, closed));
      operators.push(paint(mark.role));
    }
  }
  return operators;
}

function clipOperators(mark: Extract<Mark, { kind: 'clip' }>, write: TextWriter): PDFOperator[] {
  const { minX, minY, maxX, maxY } = mark.window;
  return [
    pushGraphicsState(),
    ...pathOperators(rectangle(minX, minY, maxX - minX, maxY - minY), true),
    clip(),
    endPath(),
    ...markOperators(mark.marks, write),
    popGraphicsState(),
  ];
}

function stateOperators(role: MarkRole): PDFOperator[] {
  const style = MARK_STYLES[role];
  return [
    ...(style.stroke === undefined
      ? []
      : [setStrokingRgbColor(...rgb(style.stroke)), setLineWidth(style.width)]),
    ...(style.fill === undefined ? [] : [setFillingRgbColor(...rgb(style.fill))]),
    setDashPattern([...(style.dash ?? [])], 0),
  ];
}

function pathOperators(line: Line, closed: boolean): PDFOperator[] {
  const operators = line.map(([x, y], i) =>
    i === 0 ? moveTo(rounded(x), rounded(y)) : lineTo(rounded(x), rounded(y)),
  );
  return closed && line.length > 0 ? [...operators, closePath()] : operators;
}

function paint(role: MarkRole): PDFOperator {
  const style = MARK_STYLES[role];
  if (style.fill === undefined) return stroke();
  return style.stroke === undefined ? fillEvenOdd() : PDFOperator.of(PDFOperatorNames.FillEvenOddAndStroke);
}

function textOperators(
  mark: TextMark,
  font: PDFFont,
  name: Parameters<typeof setFontAndSize>[0],
): PDFOperator[] {
  const { fill = '#000000' } = MARK_STYLES[mark.role];
  const words = encodable(mark.text);
  const width = font.widthOfTextAtSize(words, mark.size);
  const x = mark.at[0] - { start: 0, middle: width / 2, end: width }[mark.anchor];
  return [
    beginText(),
    setFillingRgbColor(...rgb(fill)),
    setFontAndSize(name, mark.size),
    setTextMatrix(1, 0, 0, -1, rounded(x), rounded(mark.at[1])),
    showText(font.encodeText(words)),
    endText(),
  ];
}

/** To a thousandth of a millimetre, as in the SVG: the file stays small, and nothing prints finer. */
function rounded(mm: number): number {
  return Math.round(mm * 1000) / 1000;
}

function rgb(colour: string): [number, number, number] {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255];
}

/** Characters of Windows-1252 above Latin-1, which the base fonts hold as well. */
const WINDOWS_1252 =
  '\u20ac\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u017d\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u017e\u0178';

/** Text with a question mark for every character that the base fonts lack; accents they lack are dropped first. */
function encodable(text: string): string {
  let kept = '';
  for (const character of text) {
    kept += isEncodable(character) ? character : withoutAccent(character);
  }
  return kept;
}

function withoutAccent(character: string): string {
  const base = [...character.normalize('NFKD')].filter(isEncodable).join('');
  return base === '' ? '?' : base;
}

function isEncodable(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return (code >= 0x20 && code < 0x7f) || (code >= 0xa0 && code <= 0xff) || WINDOWS_1252.includes(character);
}
