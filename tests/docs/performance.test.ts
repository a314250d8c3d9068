import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const bench = new URL('../bench/', import.meta.url);

it('docs/performance.md is what the ledger says', async () => {
  const { readLedger } = await import(new URL('ledger.js', bench).href);
  const { performancePage } = await import(new URL('performance-page.js', bench).href);
  const page = readFileSync(new URL('../../docs/performance.md', import.meta.url), 'utf8');
  expect(page).toBe(performancePage(readLedger()));
});
