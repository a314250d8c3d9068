import {
  PDFDocument,
  type PDFFont,
  PDFName,
  type PDFPage,
  PrintScaling,
  StandardFonts,
} from '@cantoo/pdf-lib';
import { encodable } from './base-font-text.ts';
import type { MarkedDrawing } from './marks.ts';
import { PageContent, points, type TextRun } from './page-content.ts';

/**
 * The only door to the PDF library: drawings become pages of one vector PDF, a millimetre a millimetre. It asks
 * viewers not to scale (PrintScaling None, ISO 32000-1 table 150) and writes with the base fonts Helvetica and
 * Helvetica Bold, which every printer has. Those fonts hold Western European letters only: any other character
 * prints as a question mark, and the file says beside it what the text is.
 */

/**
 * Pages that are packed while the next one is drawn: the platform packs in a thread of its own, and what it takes of
 * time is mostly waiting for it.
 */
const AT_ONCE = 4;

/** What the document says of itself. */
export interface PdfFacts {
  readonly title: string;
  readonly subject: string;
}

/**
 * All drawings as pages of one PDF, each as large as its window. Same input, same bytes. A drawing is asked for when
 * the one before it is written: of a long job one drawing is held at a time, besides the packed content of its pages.
 */
export async function drawingsToPdf(drawings: Iterable<MarkedDrawing>, facts: PdfFacts): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(encodable(facts.title), { showInWindowTitleBar: true });
  document.setSubject(encodable(facts.subject));
  document.setCreator('fretlay');
  document.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const fonts = {
    plain: await document.embedFont(StandardFonts.Helvetica),
    bold: await document.embedFont(StandardFonts.HelveticaBold),
  };
  const content = new PageContent((text, bold) => [baseRun(text, bold ? fonts.bold : fonts.plain)]);
  const packing: { readonly page: PDFPage; readonly content: Promise<Uint8Array> }[] = [];
  // In the order of the pages, whichever is packed first: same input, same bytes.
  const addFirst = async () => {
    const first = packing.shift();
    if (first !== undefined) addContent(document, first.page, await first.content);
  };
  for (const drawing of drawings) {
    const page = document.addPage([points(drawing.width), points(drawing.height)]);
    for (const font of [fonts.plain, fonts.bold])
      page.node.setFontDictionary(PDFName.of(font.name), font.ref);
    packing.push({ page, content: packed(content.write(drawing)) });
    if (packing.length >= AT_ONCE) await addFirst();
  }
  while (packing.length > 0) await addFirst();
  return document.save();
}

function addContent(document: PDFDocument, page: PDFPage, content: Uint8Array): void {
  const stream = document.context.stream(content, { Filter: 'FlateDecode' });
  page.node.addContentStream(document.context.register(stream));
}

/** Packed by the platform (Compression Streams, WHATWG): many times faster than packing in script. */
async function packed(content: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const packing = new CompressionStream('deflate');
  const writer = packing.writable.getWriter();
  const written = writer.write(content).then(() => writer.close());
  const bytes = await new Response(packing.readable).arrayBuffer();
  await written;
  return new Uint8Array(bytes);
}

function baseRun(text: string, font: PDFFont): TextRun {
  const words = encodable(text);
  return {
    font: `/${font.name}`,
    encoded: `${font.encodeText(words)}`,
    width: font.widthOfTextAtSize(words, 1),
    ...(words === text ? {} : { actual: text }),
  };
}
