import type { Layout } from '../model/layout.ts';
import { drawingsToPdf } from './marks-to-pdf.ts';
import { layoutPages, type PagesOptions } from './pages.ts';

/**
 * All pages of a layout as one vector PDF at true scale. Viewers are asked not to scale it; the calibration
 * squares on the first page and the rules on every page tell whether a printer did.
 */
export async function drawPdf(layout: Layout, options: PagesOptions): Promise<Uint8Array> {
  const pages = layoutPages(layout, options);
  return drawingsToPdf(
    pages.map(({ drawing }) => drawing),
    {
      title: `Placement sheets, ${options.job}`,
      subject: 'Print at 100 %, actual size. Measure the squares first.',
    },
  );
}
