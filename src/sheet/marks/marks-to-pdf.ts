import { PDFDocument, type PDFFont, type PDFPage, PrintScaling, StandardFonts } from '@cantoo/pdf-lib';
import type { Line } from '../../geometry/shapes.ts';
import { formatNumber } from '../../svg/number.ts';
import { MM_PER_UNIT } from '../../units/length.ts';
import { encodable } from './base-font-text.ts';
import { MARK_STYLES } from './mark-styles.ts';
import {
  type ClipMark,
  type GroupMark,
  type Mark,
  type MarkedDrawing,
  type MarkRole,
  rectangle,
  type TextMark,
} from './marks.ts';

/**
 * The only door to the PDF library: drawings become pages of one vector PDF, a millimetre a millimetre. It asks
 * viewers not to scale (PrintScaling None, ISO 32000-1 table 150) and writes with the base fonts Helvetica and
 * Helvetica Bold, which every printer has. Those fonts hold Western European letters only: any other character
 * prints as a question mark.
 *
 * The content of a page is written as text (ISO 32000-1, annex A lists the operators) and packed at once: a job of
 * many boards has millions of points, for which the library's operator objects would take a gigabyte.
 */

/** What the document says of itself. */
export interface PdfFacts {
  readonly title: string;
  readonly subject: string;
}

/** A font of the document and the name it has on a page. */
interface PageFont {
  readonly font: PDFFont;
  readonly name: string;
}

/** Units of the page content in a millimetre: whole numbers, a hundredth of a millimetre, finer than any printer. */
const UNITS_PER_MM = 100;

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
  const plain = await document.embedFont(StandardFonts.Helvetica);
  const bold = await document.embedFont(StandardFonts.HelveticaBold);
  for (const drawing of drawings) {
    const page = document.addPage([points(drawing.width), points(drawing.height)]);
    const content = pageContent(drawing, pageFont(page, plain), pageFont(page, bold));
    const stream = document.context.stream(await packed(content), { Filter: 'FlateDecode' });
    page.node.addContentStream(document.context.register(stream));
  }
  return document.save();
}

/** Packed by the platform (Compression Streams, WHATWG): many times faster than packing in script. */
async function packed(content: string): Promise<Uint8Array> {
  const stream = new Blob([content]).stream().pipeThrough(new CompressionStream('deflate'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

function pageFont(page: PDFPage, font: PDFFont): PageFont {
  return { font, name: page.node.newFontDictionary(font.name, font.ref).asString() };
}

/** Millimetres as PDF points, 72 to the inch. */
function points(mm: number): number {
  return mm / MM_PER_UNIT.pt;
}

function pageContent(drawing: MarkedDrawing, plain: PageFont, bold: PageFont): string {
  const scale = points(1) / UNITS_PER_MM;
  const left = points(-drawing.x);
  const bottom = points(drawing.y + drawing.height);
  // y runs down, as everywhere else: only text has to be turned back up.
  const frame = [scale, 0, 0, -scale, left, bottom].map(precise).join(' ');
  const write: TextWriter = (mark) => textContent(mark, MARK_STYLES[mark.role].bold ? bold : plain);
  return ['q', `${frame} cm`, '1 J 1 j', markContent(drawing.marks, write), 'Q'].join('\n');
}

type TextWriter = (mark: TextMark) => string;

/** Shapes of one role that follow each other are one path when nothing but a line is drawn: it is painted once. */
function markContent(marks: readonly Mark[], write: TextWriter): string {
  const content: string[] = [];
  let role: MarkRole | undefined;
  const endPath = () => {
    if (role !== undefined) content.push(paintOperator(role));
    role = undefined;
  };
  for (const mark of marks) {
    if (mark.kind !== 'line' && mark.kind !== 'rings') {
      endPath();
      content.push(otherContent(mark, write));
      continue;
    }
    if (mark.role !== role || MARK_STYLES[mark.role].fill !== undefined) {
      endPath();
      content.push(stateContent(mark.role));
      role = mark.role;
    }
    const lines = mark.kind === 'rings' ? mark.rings : [mark.points];
    for (const each of lines) content.push(pathContent(each, mark.kind === 'rings'));
  }
  endPath();
  return content.join('\n');
}

function otherContent(mark: ClipMark | GroupMark | TextMark, write: TextWriter): string {
  switch (mark.kind) {
    case 'text':
      return write(mark);
    case 'clip':
      return clipContent(mark, write);
    case 'group':
      return markContent(mark.marks, write);
  }
}

function clipContent({ window, shift, marks }: ClipMark, write: TextWriter): string {
  const { minX, minY, maxX, maxY } = window;
  const edge = pathContent(rectangle(minX, minY, maxX - minX, maxY - minY), true);
  const moved = `1 0 0 1 ${units(shift[0])} ${units(shift[1])} cm`;
  return ['q', edge, 'W n', moved, markContent(marks, write), 'Q'].join('\n');
}

function stateContent(role: MarkRole): string {
  const style = MARK_STYLES[role];
  const dash = (style.dash ?? []).map(units).join(' ');
  return [
    style.stroke === undefined ? '' : `${rgb(style.stroke)} RG ${units(style.width)} w`,
    style.fill === undefined ? '' : `${rgb(style.fill)} rg`,
    `[${dash}] 0 d`,
  ].join(' ');
}

function pathContent(line: Line, closed: boolean): string {
  let content = '';
  for (let i = 0; i < line.length; i++)
    content += `${units(line[i][0])} ${units(line[i][1])} ${i === 0 ? 'm' : 'l'} `;
  return closed && line.length > 0 ? `${content}h` : content;
}

function paintOperator(role: MarkRole): string {
  const style = MARK_STYLES[role];
  if (style.fill === undefined) return 'S';
  return style.stroke === undefined ? 'f*' : 'B*';
}

function textContent(mark: TextMark, { font, name }: PageFont): string {
  const { fill = '#000000' } = MARK_STYLES[mark.role];
  const words = encodable(mark.text);
  const share = { start: 0, middle: 0.5, end: 1 }[mark.anchor];
  const x = mark.at[0] - (share === 0 ? 0 : share * font.widthOfTextAtSize(words, mark.size));
  const place = `1 0 0 -1 ${units(x)} ${units(mark.at[1])} Tm`;
  return `BT ${rgb(fill)} rg ${name} ${units(mark.size)} Tf ${place} ${font.encodeText(words)} Tj ET`;
}

function units(mm: number): number {
  return Math.round(mm * UNITS_PER_MM);
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
