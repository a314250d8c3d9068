import { writeDocument } from '../svg/write.ts';
import type { MarkedDrawing } from './marks/marks.ts';
import { drawingToSvg } from './marks/marks-to-svg.ts';
import type { SheetPage } from './pages.ts';

/** One page as an SVG file at true scale. */
export function pageToSvg({ number, name, drawing }: SheetPage): string {
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
 */
export async function pagesToPdf(pages: readonly SheetPage[], title: string): Promise<Uint8Array> {
  // Loaded when it is asked for: the PDF library is a third of what the whole command line has to load.
  const { drawingsToPdf } = await import('./marks/marks-to-pdf.ts');
  const subject = 'Print at 100 %, actual size. Measure the squares first.';
  return drawingsToPdf(drawingsOf(pages), { title, subject });
}

/** One drawing after the other: each is written and given up before the next is made. */
function* drawingsOf(pages: readonly SheetPage[]): Generator<MarkedDrawing> {
  for (const page of pages) yield page.drawing;
}
