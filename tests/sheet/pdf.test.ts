import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import { describe, expect, test } from 'vitest';
import type { Layout } from '../../src/model/layout.ts';
import { partKey } from '../../src/model/same-part.ts';
import { encodable } from '../../src/sheet/marks/base-font-text.ts';
import { textWidth } from '../../src/sheet/marks/text-width.ts';
import { boardsToPdf, pagesToPdf } from '../../src/sheet/page-files.ts';
import { boardPages, type PagesOptions } from '../../src/sheet/pages.ts';
import { PAPER_SIZES, type PaperName } from '../../src/units/paper.ts';
import { outsideCheck } from '../outside-check.ts';
import { HOSTILE_NAMES, handBoard, handLayout, placed } from './hand-layout.ts';
import { handPlan } from './hand-plan.ts';
import { hasPoppler, lineCentres, PIXELS_PER_MM, rastersOfPdf, scan, textOfPdf } from './raster.ts';

const FACTS = { job: 'Lake shore', unit: 'mm', kerf: 1 } as const;
/** What a program does to print a layout. */
async function drawPdf(layout: Layout, options: PagesOptions): Promise<Uint8Array> {
  return (await boardsToPdf(layout, options, `Placement sheets, ${options.job}`)).pdf;
}

/** Width and height in points, as tables of paper sizes for PDF give them. */
const POINTS: Readonly<Record<PaperName, readonly number[]>> = {
  letter: [612, 792],
  legal: [612, 1008],
  tabloid: [792, 1224],
  a4: [595.276, 841.89],
  a3: [841.89, 1190.551],
};

const PAPERS = Object.keys(PAPER_SIZES) as PaperName[];

describe('the PDF', () => {
  test('has pages of true size and asks viewers not to scale', async () => {
    for (const paper of PAPERS) {
      const pdf = await PDFDocument.load(
        await drawPdf(handLayout(), { ...FACTS, paper, orientation: 'portrait' }),
      );
      for (const page of pdf.getPages()) {
        const { width, height } = page.getSize();
        PAPER_SIZES[paper].forEach((mm, i) => {
          expect([width, height][i]).toBeCloseTo((mm / 25.4) * 72, 3);
        });
      }
      const { width, height } = pdf.getPage(0).getSize();
      outsideCheck({
        what: `Page of the PDF on ${paper}, points`,
        source: 'ISO 32000-1, section 8.3.2.3: a unit is 1/72 in; sizes of ISO 216 and ANSI/ASME Y14.1',
        expected: POINTS[paper],
        found: [width, height],
        tolerance: 0.01,
      });
      // A side of whole points has no digits beyond: programs that round up would shrink the page.
      for (const [i, side] of POINTS[paper].entries()) {
        if (Number.isInteger(side)) expect([width, height][i]).toBe(side);
      }
      expect(pdf.catalog.getViewerPreferences()?.getPrintScaling()).toBe('None');
    }
  });

  test('is the same byte for byte when drawn again', async () => {
    const [first, second] = [await drawPdf(handLayout(), FACTS), await drawPdf(handLayout(), FACTS)];
    expect(Buffer.compare(first, second)).toBe(0);
  });

  test('is the same byte for byte when drawn beside another, on other paper', async () => {
    const small = { width: 130, height: 130 };
    const papers = [small, { width: 140, height: 130 }, small];
    const draw = (paper: (typeof papers)[number]) => drawPdf(handLayout(), { ...FACTS, paper });
    const alone: Uint8Array[] = [];
    for (const paper of papers) alone.push(await draw(paper));
    expect((await PDFDocument.load(alone[0])).getPageCount()).toBeGreaterThan(4);
    expect(await Promise.all(papers.map((paper) => draw(paper)))).toEqual(alone);
  });

  test('hostile names in every field leave a document that opens', async () => {
    const figures = handLayout().figures;
    const pages = (
      await PDFDocument.load(await drawPdf(handLayout(), { ...FACTS, paper: 'a3' }))
    ).getPageCount();
    for (const name of HOSTILE_NAMES) {
      const board = handBoard({ id: name, species: name });
      const named = {
        ...board,
        placements: board.placements.map((each) => ({ ...each, part: name, layer: name })),
      };
      const layout = handLayout({ boards: [named], figures });
      const pdf = await drawPdf(layout, { ...FACTS, paper: 'a3', job: name, design: name, date: name });
      expect((await PDFDocument.load(pdf)).getPageCount()).toBe(pages);
    }
  });
});

describe.skipIf(!hasPoppler())('the PDF as poppler renders it at 254 dpi', () => {
  test('shows the same whether boards are written while they are drawn or page by page', async () => {
    const board = handBoard();
    const layout = handLayout({ boards: [board, { ...board, id: 'second' }] });
    const options = { ...FACTS, plans: new Map([[board.id, handPlan(board)]]) };
    const { pages, pdf } = await boardsToPdf(layout, options, 'boards');
    const single = boardPages(layout, options);
    expect(single.length).toBe(pages);
    const looks = (file: Uint8Array) => rastersOfPdf(file, 1, pages).map(({ dark }) => Buffer.from(dark));
    const expected = looks(await pagesToPdf(single, 'pages'));
    expect(looks(pdf).map((page, i) => Buffer.compare(page, expected[i]))).toEqual(expected.map(() => 0));
  });

  test('prints nothing beyond the margin of a page: not the accents of capitals in its head', async () => {
    const board = handBoard({ id: '\u00c5\u00c4\u00d1 \u00c9g', species: '\u00c5' });
    const options = { ...FACTS, design: '\u00c5\u00c4g', margin: 6 };
    const pages = boardPages(handLayout({ boards: [board] }), options);
    const [page] = rastersOfPdf(await pagesToPdf(pages.slice(-1), 'a page'), 1, 1);
    const darkest = (y: number) => Math.max(...scan(page, 'across', y));
    const rows = Array.from({ length: 60 }, (_, i) => darkest(i / PIXELS_PER_MM));
    expect(rows.filter((dark) => dark > 0)).toEqual([]);
    // The accents are there, just below, and the lower line ends above the numbers of the rule.
    expect(darkest(6.3)).toBeGreaterThan(100);
    expect(darkest(11.6)).toBeLessThan(30);
  });

  const margin = 6.35;
  // The rules run along a window that begins this far right of the margin and below it.
  const [side, head] = [5, 9];
  const setups = [
    ...PAPERS.flatMap((paper) =>
      (['portrait', 'landscape'] as const).map((orientation) => ({
        paper,
        orientation,
        sizes: PAPER_SIZES[paper],
      })),
    ),
    { paper: { roll: 210 }, orientation: 'landscape', sizes: [210] } as const,
  ];
  test.each(setups)(
    'on $paper $orientation the 50 mm square and rules of 200 mm measure right within 0.1 mm',
    async ({ paper, orientation, sizes }) => {
      const pages = boardPages(handLayout(), { ...FACTS, paper, orientation });
      const pdf = await pagesToPdf([pages[0], pages[pages.length - 1]], 'cover and a page of the board');
      const [cover, page] = rastersOfPdf(pdf, 1, 2);
      for (const direction of ['across', 'down'] as const) {
        const [start, end] = lineCentres(scan(cover, direction, margin + 10));
        expect(Math.abs(start - margin)).toBeLessThan(0.1);
        expect(Math.abs(end - start - 50)).toBeLessThanOrEqual(0.1);
      }
      // 1.6 mm out from the window there are only the ticks of every 5 mm: the 41st stands at 200 mm.
      const across = lineCentres(scan(page, 'across', margin + head - 1.6)).filter(
        (at) => at > margin + side - 1,
      );
      const down = lineCentres(scan(page, 'down', margin + side - 1.6)).filter(
        (at) => at > margin + head - 1,
      );
      for (const ticks of [across, down]) {
        const steps = Math.min(40, ticks.length - 1);
        expect(steps).toBeGreaterThanOrEqual(34);
        expect(Math.abs(ticks[steps] - ticks[0] - 5 * steps)).toBeLessThanOrEqual(0.1);
      }
      // One way every page is long enough for the whole 200 mm.
      expect(Math.max(across.length, down.length)).toBeGreaterThanOrEqual(41);
      const height = orientation === 'portrait' ? Math.max(...sizes) : Math.min(...sizes);
      expect(Math.abs(page.height - height * PIXELS_PER_MM)).toBeLessThan(1.01);
    },
  );
});

describe.skipIf(!hasPoppler())('the text of the PDF as poppler reads it', () => {
  test('names are text, also those that look like markup or PDF syntax', async () => {
    const names = ['<script>alert(1)</script>', ') Tj ET Q (', '=cmd()', 'na\u00efve caf\u00e9'];
    for (const name of names) {
      const layout = handLayout({ boards: [handBoard({ id: name })] });
      const words = textOfPdf(await drawPdf(layout, { ...FACTS, job: name }));
      expect(words).toContain(name);
    }
  });

  test('a part whose name is lost in print has its number in the report before it', async () => {
    const names = ['\u05d0\u05d2\u05dd', '\u{1f986}', '\u6e56\u7554', 'x\u6e56'.repeat(5000)];
    const board = handBoard();
    const region = board.placements[2].region;
    for (const name of names) {
      const layout = handLayout({
        boards: [{ ...board, placements: [placed({ part: name, layer: 'L', region })] }],
      });
      const numbers = new Map([[partKey({ layer: 'L', part: name }), 17]]);
      expect(textOfPdf(await drawPdf(layout, { ...FACTS, numbers }))).toMatch(/no\. 17\b/);
    }
    const plain = handLayout();
    const numbers = new Map([[partKey({ layer: 'House', part: 'boathouse' }), 17]]);
    expect(textOfPdf(await drawPdf(plain, { ...FACTS, numbers }))).not.toContain('no. 17');
  });

  test('letters that the base fonts lack print as question marks, and are in the file as they were written', async () => {
    expect(encodable('\u05d0\u{1f986} \u0159eka')).toBe('?? reka');
    for (const name of ['\u6e56\u7554', '\u{1f986}', '\u0440\u0435\u043a\u0430', '\u0159eka']) {
      const words = textOfPdf(await drawPdf(handLayout(), { ...FACTS, job: name }));
      expect(words).toContain(name);
      expect(words.includes('? is a letter this font lacks')).toBe(encodable(name).includes('?'));
    }
  });
});

/** Adobe Font Metrics of Helvetica as the PDF library carries them. */
test('the table of widths is that of Helvetica, with a reserve', async () => {
  const document = await PDFDocument.create();
  const plain = await document.embedFont(StandardFonts.Helvetica);
  const bold = await document.embedFont(StandardFonts.HelveticaBold);
  for (let code = 32; code < 127; code++) {
    const character = String.fromCharCode(code);
    expect(textWidth(character, 10), character).toBeCloseTo(plain.widthOfTextAtSize(character, 10) * 1.12, 6);
  }
  for (const words of ['Lake shore, 12 sets', 'column A of E', 'Before you saw', 'Figures heron 3']) {
    expect(textWidth(words, 5)).toBeGreaterThanOrEqual(bold.widthOfTextAtSize(words, 5));
  }
});
