import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type AutomatedBrowser, BROWSERS, NOT_INSTALLED } from './automated-browsers.ts';
import { demoByNode, EFFORT, pageIn } from './demo-page.ts';

/** The layout file as the page hands it out: it is caught where the page makes an address of it. */
const LAY_OUT = `
  const address = URL.createObjectURL;
  let layout;
  URL.createObjectURL = (blob) => {
    if (blob.type === 'application/json') layout = blob;
    return address.call(URL, blob);
  };
  document.querySelector('[name=effort]').value = '${EFFORT}';
  document.querySelector('#demo button').click();
  while (!document.getElementById('stop').disabled) await new Promise((later) => setTimeout(later, 100));
  return { status: document.getElementById('status').textContent, layout: await layout?.text() };`;

describe.each(Object.entries(BROWSERS))('the example page in %s', (name, start) => {
  describe.skipIf(start === undefined)(start === undefined ? `(${NOT_INSTALLED[name]})` : 'opened', () => {
    let folder: string;
    let browser: AutomatedBrowser;

    beforeAll(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'fretlay-page-'));
      browser = await (start as () => Promise<AutomatedBrowser>)();
      await browser.open(`file://${pageIn(folder)}`);
    }, 60_000);

    afterAll(async () => {
      await browser?.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it('lays the demo out in workers exactly as Node does with the same seed, effort and workers', async () => {
      const found = (await browser.run(LAY_OUT)) as { status: string; layout: string };
      expect(found.status).toMatch(/^12 of 12 sets on \d+ boards.*Checked: least/);
      expect(found.layout === (await demoByNode())).toBe(true);
    }, 150_000);

    it('prints one page of the drawing to a page of letter paper, upright or across', async (test) => {
      const asked = await browser.run(`
          return [...document.querySelectorAll('#pages style')].map(({ textContent }) =>
            textContent.match(/size: (\\S+)mm (\\S+)mm/).slice(1).map((mm) => Math.round((mm * 72) / 25.4)));`);
      const printed = await browser.print();
      test.skip(printed === undefined, 'its driver does not print');
      const pdf = await PDFDocument.load(printed as Uint8Array);
      const sizes = pdf.getPages().map((page) => page.getSize());
      expect(sizes.map(({ width, height }) => [Math.round(width), Math.round(height)])).toEqual(asked);
      // ANSI/ASME Y14.1 size A, 8.5 x 11 in, in points; the demo has boards that lie along and across.
      expect(new Set(sizes.map(({ width }) => Math.round(width)))).toEqual(new Set([612, 792]));
    });
  });
});
