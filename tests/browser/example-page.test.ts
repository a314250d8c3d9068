import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { installedChromium, NO_CHROMIUM } from './chromium.ts';
import { demoByNode, EFFORT, pageIn } from './demo-page.ts';

const program = installedChromium();

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

describe.skipIf(program === undefined)(
  `the example page${program === undefined ? ` (${NO_CHROMIUM})` : ''}`,
  () => {
    let folder: string;
    let browser: Browser;
    let page: Page;
    const asked: string[] = [];
    const faults: string[] = [];

    beforeAll(async () => {
      folder = mkdtempSync(path.join(tmpdir(), 'fretlay-page-'));
      browser = await chromium.launch({ executablePath: program, args: ['--no-sandbox'] });
      page = await browser.newPage({ viewport: { width: 1100, height: 1400 } });
      page.on('request', (request) => asked.push(request.url()));
      page.on('pageerror', (error) => faults.push(String(error)));
      page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
      await page.goto(`file://${pageIn(folder)}`);
    });

    afterAll(async () => {
      await browser?.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it('lays the demo out in workers exactly as Node does with the same seed, effort and workers', async () => {
      await page.getByLabel('Effort').fill(String(EFFORT));
      await page.getByRole('button', { name: 'Lay out twelve sets' }).click();
      await page.getByRole('heading', { name: 'Placement sheets' }).waitFor({ timeout: 50_000 });
      expect(await page.getByRole('status').textContent()).toMatch(
        /^12 of 12 sets on \d+ boards.*Checked: least/,
      );
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'Layout file' }).click(),
      ]);
      const inBrowser = readFileSync(await download.path(), 'utf8');
      expect(sha256(inBrowser)).toBe(sha256(await demoByNode()));
    });

    it('shows a sheet for every board that carries parts, with a description', async () => {
      const pictures = page.getByRole('img');
      expect(await pictures.count()).toBeGreaterThan(5);
      for (const picture of await pictures.all()) {
        expect(await picture.getAttribute('alt')).toMatch(/^Placement sheet of board .+ with \d+ parts?$/);
        expect(await picture.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(100);
      }
      if (process.env.PICTURES)
        await page.screenshot({ path: `${process.env.PICTURES}/page.png`, fullPage: true });
    });

    it('prints its pages at true scale, one page of the drawing to a page of letter paper', async () => {
      const drawn = await page.locator('#pages img').count();
      const bytes = await page.pdf({ preferCSSPageSize: true });
      if (process.env.PICTURES) writeFileSync(`${process.env.PICTURES}/page.pdf`, bytes);
      const pdf = await PDFDocument.load(bytes);
      expect(pdf.getPageCount()).toBe(drawn);
      // ANSI/ASME Y14.1 size A, 8.5 x 11 in, in points; the browser rounds to 1/100 in at worst.
      for (const { width, height } of pdf.getPages().map((sheet) => sheet.getSize())) {
        expect([width, height].sort((a, b) => a - b)[0]).toBeCloseTo(612, 0);
        expect([width, height].sort((a, b) => a - b)[1]).toBeCloseTo(792, 0);
      }
    });

    it('has nothing that the rules of accessibility find wrong', async () => {
      const axe = createRequire(import.meta.url).resolve('axe-core');
      await page.evaluate(readFileSync(axe, 'utf8'));
      const found = await page.evaluate(
        'axe.run().then(({ violations, passes }) => ({ violations: violations.map(({ id, nodes }) => [id, nodes[0].html]), passes: passes.length }))',
      );
      expect(found).toMatchObject({ violations: [] });
      expect((found as { passes: number }).passes).toBeGreaterThan(15);
    });

    it('opens a pattern of your own, and shows a hostile name as text', async () => {
      const file = path.join(folder, 'own.svg');
      writeFileSync(
        file,
        `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">
      <g id="&lt;img src=x onerror=alert(1)&gt;"><path id="tile" d="M10 10H50V40H10Z"/><text>no</text></g></svg>`,
      );
      await page.getByLabel('Pattern (SVG)').setInputFiles(file);
      await page.getByRole('spinbutton', { name: 'Sets' }).fill('3');
      await page.getByRole('button', { name: 'Lay out', exact: true }).click();
      await page.getByText('3 of 3 sets on 1 board,').waitFor();
      expect(await page.getByRole('img').count()).toBe(1);
      expect(await page.getByRole('listitem').first().textContent()).toMatch(/^Warning: .*text/);
      expect(await page.locator('#issues').textContent()).not.toMatch(/\d mm/);
    });

    it('takes the throat of the saw that its note on long boards asks for, and lays out in sections', async () => {
      const issues = page.locator('#issues');
      expect(await issues.textContent()).toContain('the job states no throat');
      await page.getByLabel('Throat of the saw').fill('16 in');
      await page.getByRole('button', { name: 'Lay out', exact: true }).click();
      // What is shown of the last pattern goes first.
      await page.getByText('the job states no throat').waitFor({ state: 'detached' });
      await page.getByText('3 of 3 sets on 1 board,').waitFor();
      expect(await issues.textContent()).not.toContain('the job states no throat');
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'Layout file' }).click(),
      ]);
      const layout = JSON.parse(readFileSync(await download.path(), 'utf8'));
      expect(layout.boards[0].sections.length).toBeGreaterThan(1);
    });

    it('says in words why a pattern is refused', async () => {
      const file = path.join(folder, 'letter.svg');
      writeFileSync(file, 'This is a letter, not a drawing.');
      await page.getByLabel('Pattern (SVG)').setInputFiles(file);
      await page.getByRole('button', { name: 'Lay out', exact: true }).click();
      await page.getByText('Nothing was laid out.').waitFor();
      expect(await page.getByRole('listitem').first().textContent()).toMatch(/letter\.svg/);
    });

    it('asks nothing of any network and logs no fault', () => {
      expect(asked.filter((url) => !/^(file|blob|data):/.test(url))).toEqual([]);
      expect(faults).toEqual([]);
    });
  },
);
