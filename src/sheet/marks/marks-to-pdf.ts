import {
  PDFDocument,
  type PDFFont,
  PDFName,
  type PDFRef,
  PrintScaling,
  StandardFonts,
} from '@cantoo/pdf-lib';
import { encodable } from './base-font-text.ts';
import type { MarkedDrawing } from './marks.ts';
import { PageContent, points, type TextRun } from './page-content.ts';

/**
 * The only door to the PDF library: drawings become pages of one vector PDF, a millimetre a millimetre. It asks
 * viewers not to scale (PrintScaling None, ISO 32000-1 table 150) and writes with the base fonts Helvetica and
 * Helvetica Bold, which every printer has. Those fonts hold Western European letters only: others
 * are written in these as far as that goes, and the file says beside them what the text is.
 */

/**
 * Contents that are packed while the next one is drawn: the platform packs in a thread of its own, and what it takes of
 * time is mostly waiting for it.
 */
const AT_ONCE = 4;

/** What the document says of itself. */
export interface PdfFacts {
  readonly title: string;
  readonly subject: string;
}

/** Fewer bytes than this are left as they are: the name of a page, of which packing would save nothing. */
const WORTH_PACKING = 512;

/** A page, or what several pages share, as it stands in the file. */
export interface PackedContent {
  readonly bytes: Promise<Uint8Array>;
  readonly filter: { readonly Filter?: 'FlateDecode' };
}

/**
 * Pages of one PDF. Drawings are written one by one, each given up before the next is made, and bound into pages when it
 * is known which pages there are: of a job of any size one drawing is held at a time, besides the packed content of
 * its pages. Same input, same bytes.
 */
export class PdfPages {
  readonly #document: PDFDocument;
  readonly #fonts: readonly PDFFont[];
  readonly #content: PageContent;
  /** Contents that are being packed. */
  readonly #packing: Promise<Uint8Array>[] = [];
  readonly #bound = new Map<PackedContent, PDFRef>();

  private constructor(document: PDFDocument, plain: PDFFont, bold: PDFFont) {
    this.#document = document;
    this.#fonts = [plain, bold];
    this.#content = new PageContent((text, isBold) => [baseRun(text, isBold ? bold : plain)]);
  }

  /** A document without pages. */
  static async begin(facts: PdfFacts): Promise<PdfPages> {
    const document = await PDFDocument.create({ updateMetadata: false });
    // Shown by the viewer in its own fonts, which have all letters.
    document.setTitle(facts.title, { showInWindowTitleBar: true });
    document.setSubject(facts.subject);
    document.setCreator('fretlay');
    document.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
    const plain = await document.embedFont(StandardFonts.Helvetica);
    const bold = await document.embedFont(StandardFonts.HelveticaBold);
    return new PdfPages(document, plain, bold);
  }

  /** Writes a drawing, and packs it while the next one is drawn; waits while others are being packed. */
  async pack(drawing: MarkedDrawing): Promise<PackedContent> {
    const written = this.#content.write(drawing);
    if (written.length < WORTH_PACKING) return { bytes: Promise.resolve(written), filter: {} };
    const bytes = packed(written);
    this.#packing.push(bytes);
    if (this.#packing.length >= AT_ONCE) await this.#packing.shift();
    return { bytes, filter: { Filter: 'FlateDecode' } };
  }

  /** Adds a page, its size in mm, with contents one on top of the other: each drawn on paper of that size. */
  async add(width: number, height: number, contents: readonly PackedContent[]): Promise<void> {
    const page = this.#document.addPage([pageSide(width), pageSide(height)]);
    for (const font of this.#fonts) page.node.setFontDictionary(PDFName.of(font.name), font.ref);
    for (const content of contents) page.node.addContentStream(await this.#refOf(content));
  }

  /** The file. */
  save(): Promise<Uint8Array> {
    return this.#document.save();
  }

  async #refOf(content: PackedContent): Promise<PDFRef> {
    const { context } = this.#document;
    const ref =
      this.#bound.get(content) ??
      context.register(context.stream(await content.bytes, { ...content.filter }));
    this.#bound.set(content, ref);
    return ref;
  }
}

/**
 * A side of a page in points, without the last digits of the arithmetic: programs that round pages up to whole
 * points take 612.0000000000001 for 613 and draw the page smaller, to fit.
 */
function pageSide(mm: number): number {
  return Math.round(points(mm) * 1e4) / 1e4;
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
