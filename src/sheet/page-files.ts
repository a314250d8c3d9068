import { listOf, number, record, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Layout } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { writeDocument } from '../svg/write.ts';
import { PartDrawer } from './board/part-marks.ts';
import { markedDrawingCheck } from './marks/mark-checks.ts';
import type { MarkedDrawing } from './marks/marks.ts';
import type { PackedContent, PdfPages } from './marks/marks-to-pdf.ts';
import { drawingToSvg } from './marks/marks-to-svg.ts';
import {
  type BoardPages,
  bindPages,
  type PagesOptions,
  type SheetPage,
  setBoards,
  windowMark,
} from './pages.ts';
import { frameMarks, nameMarks, onPaper } from './paper/page-frame.ts';
import { drawerCheck, foreignPlans, pagesCheck } from './sheet-checks.ts';

/** What is asked of a page itself; its drawing is made when it is asked for, and so checked there, once. */
const pageCheck = record(
  { number: number({ least: 1, most: 1e6, whole: true }), name: words() },
  'Hand in pages of `boardPages` or `partPages`.',
);

/**
 * One page as an SVG file at true scale.
 *
 * @throws FretlayError for what is no page
 */
export function pageToSvg(page: SheetPage): string {
  throwOnErrors(pageCheck('page', page));
  const { number, name, drawing } = page;
  throwOnErrors(markedDrawingCheck('page.drawing', drawing));
  return writeDocument(
    drawingToSvg(drawing, {
      title: `Page ${number}, ${name}`,
      description: 'A page of placement sheets, to be printed at 100 %.',
    }),
  );
}

/**
 * Pages as one vector PDF at true scale. Viewers are asked not to scale it; the calibration squares on the first
 * page and the rules on every page tell whether a printer did.
 *
 * @throws FretlayError for what are no pages, and a title that is no text
 */
export async function pagesToPdf(pages: readonly SheetPage[], title: string): Promise<Uint8Array> {
  throwOnErrors([...listOf(pageCheck)('pages', pages), ...words()('title', title)]);
  const pdf = await beginPdf(title);
  await addDrawings(pdf, drawingsOf(pages));
  return pdf.save();
}

/** The pages of whole boards as one PDF, and how many they are. */
export interface BoardsPdf {
  readonly pages: number;
  readonly pdf: Uint8Array;
}

/**
 * The pages of `boardPages` as one PDF like that of `pagesToPdf`, each board drawn only once: its pages are written
 * while it is at hand, and their numbers and the cover when it is known how many pages there are.
 *
 * @param drawer share one with other drawings of the layout: room for labels is then found once
 * @throws FretlayError as `boardPages` and `pagesToPdf` do
 */
export async function boardsToPdf(
  layout: Layout,
  options: PagesOptions,
  title: string,
  drawer?: PartDrawer,
): Promise<BoardsPdf> {
  throwOnErrors([
    ...layoutCheck('layout', layout),
    ...pagesCheck('options', options),
    ...words()('title', title),
    ...drawerCheck('drawer', drawer),
  ]);
  throwOnErrors(foreignPlans('options.plans', options.plans, layout.boards));
  const pdf = await beginPdf(title);
  const boards: BoardPages[] = [];
  const windows: PackedContent[] = [];
  for (const board of setBoards(layout, options, drawer ?? new PartDrawer(options))) {
    boards.push(board);
    for (const tile of board.tiles) windows.push(await pdf.pack(onPaper(tile.setup, [windowMark(tile)])));
  }
  const { cover, following } = bindPages(layout, boards, options);
  await addDrawings(pdf, cover);
  // Most pages have the same one, some hundreds of ticks long.
  const frames = new Map<string, PackedContent>();
  for (const [i, { setup, words }] of following.entries()) {
    const alike = JSON.stringify(setup);
    const frame = frames.get(alike) ?? (await pdf.pack(onPaper(setup, frameMarks(setup, options.unit))));
    frames.set(alike, frame);
    const names = await pdf.pack(onPaper(setup, nameMarks(setup, words)));
    await pdf.add(setup.width, setup.height, [windows[i], frame, names]);
  }
  return { pages: cover.length + following.length, pdf: await pdf.save() };
}

/** One drawing after the other: each is written and given up before the next is made. */
function* drawingsOf(pages: readonly SheetPage[]): Generator<MarkedDrawing> {
  for (const [i, { drawing }] of pages.entries()) {
    throwOnErrors(markedDrawingCheck(`pages[${i}].drawing`, drawing));
    yield drawing;
  }
}

/** Each drawing as a page. */
async function addDrawings(pdf: PdfPages, drawings: Iterable<MarkedDrawing>): Promise<void> {
  const packed: { width: number; height: number; content: PackedContent }[] = [];
  for (const drawing of drawings) {
    const { width, height } = drawing;
    packed.push({ width, height, content: await pdf.pack(drawing) });
  }
  for (const { width, height, content } of packed) await pdf.add(width, height, [content]);
}

async function beginPdf(title: string): Promise<PdfPages> {
  // Loaded when it is asked for: the PDF library is a third of what the whole command line has to load.
  const { PdfPages } = await import('./marks/marks-to-pdf.ts');
  return PdfPages.begin({ title, subject: 'Print at 100 %, actual size. Measure the squares first.' });
}
