import { rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { rolldown } from 'rolldown';
import { describe, expect, it } from 'vitest';
import { libraryExamples, writeExamples } from '../docs/library-examples.ts';
import { installedChromium, NO_CHROMIUM } from './chromium.ts';

const program = installedChromium();

/** Each of the files with all it imports, as a bundler makes it for a page. */
async function bundled(folder: string, names: readonly string[]): Promise<Map<string, string>> {
  const input = Object.fromEntries(names.map((name) => [name, path.join(folder, `${name}.ts`)]));
  const bundle = await rolldown({
    ...{ input, cwd: folder, platform: 'browser', logLevel: 'silent' },
    // They name one another as the files they are compiled to.
    resolve: { extensionAlias: { '.js': ['.ts', '.js'] } },
  });
  const { output } = await bundle.generate({ format: 'esm', entryFileNames: '[name].js' });
  return new Map(output.flatMap((file) => (file.type === 'chunk' ? [[`/${file.fileName}`, file.code]] : [])));
}

describe.skipIf(program === undefined)(
  `docs/library.md${program === undefined ? ` (${NO_CHROMIUM})` : ''}`,
  () => {
    it('has a page that searches in the workers it starts', async () => {
      const folder = writeExamples(libraryExamples());
      const files = await bundled(folder, ['page', 'search-worker']);
      rmSync(folder, { recursive: true, force: true });
      files.set('/', '<!doctype html><script type="module" src="page.js"></script>');
      const asked: string[] = [];
      const server = createServer(({ url = '' }, response) => {
        asked.push(url);
        const type = url.endsWith('.js') ? 'text/javascript' : 'text/html';
        response.writeHead(files.has(url) ? 200 : 404, { 'content-type': type }).end(files.get(url));
      });
      await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
      const browser = await chromium.launch({ executablePath: program, args: ['--no-sandbox'] });
      try {
        const page = await browser.newPage();
        const faults: string[] = [];
        page.on('pageerror', (error) => faults.push(String(error)));
        await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
        await page.waitForFunction("document.title !== ''", undefined, { timeout: 50_000 });
        expect(await page.title()).toBe('6 sets');
        expect(asked).toContain('/search-worker.js');
        expect(faults).toEqual([]);
      } finally {
        await browser.close();
        server.close();
      }
    });
  },
);
