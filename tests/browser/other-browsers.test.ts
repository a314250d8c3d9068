import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWorker } from '../../dist/cli/search-workers.js';
import { readJob, runJob } from '../../dist/index.js';
import { type AutomatedBrowser, BROWSERS, NOT_INSTALLED } from './automated-browsers.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const EFFORT = 0.2;

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

let byNode: Promise<string> | undefined;

/** The layout file of the demo as Node makes it; made once. */
function laidOutByNode(): Promise<string> {
  const read = (fixture: string) => readFileSync(path.join(root, 'fixtures/lake-shore', fixture), 'utf8');
  byNode ??= runJob(readJob(read('job.json')), read('pattern.svg'), {
    effort: EFFORT,
    workers: 2,
    startWorker,
  }).then(({ layout }) => JSON.stringify(layout));
  return byNode;
}

describe.each(Object.entries(BROWSERS))('the example page in %s', (name, start) => {
  describe.skipIf(start === undefined)(start === undefined ? `(${NOT_INSTALLED[name]})` : 'opened', () => {
    let folder: string;
    let browser: AutomatedBrowser;

    beforeAll(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'fretlay-page-'));
      const file = path.join(folder, 'fretlay.html');
      execFileSync(process.execPath, [path.join(root, 'docs/browser/make-page.mjs'), file]);
      browser = await (start as () => Promise<AutomatedBrowser>)();
      await browser.open(`file://${file}`);
    }, 60_000);

    afterAll(async () => {
      await browser?.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it('lays the demo out in workers exactly as Node does with the same seed, effort and workers', async () => {
      const found = (await browser.run(LAY_OUT)) as { status: string; layout: string };
      expect(found.status).toMatch(/^12 of 12 sets on \d+ boards.*Checked: least/);
      expect(found.layout === (await laidOutByNode())).toBe(true);
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
