import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/**
 * `npm test` runs the tests; `npm run corpus` sets CORPUS and runs the long comparison over whole drawing sets;
 * MUTATION, the name of a folder of src, runs only the tests beside it, while `npm run mutation` changes that folder.
 * Tests that lay whole jobs out stand in folders below: run again for each of a thousand changes they would take days.
 */
function included(): string[] {
  if (process.env.CORPUS !== undefined) return ['tests/corpus/*.corpus.ts'];
  if (process.env.MUTATION !== undefined) return [`tests/${process.env.MUTATION}/*.test.ts`];
  return ['tests/**/*.test.ts'];
}

export default defineConfig({
  test: {
    include: included(),
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Files share the modules they import: loading them anew for each of a hundred files is a tenth of the whole run.
    isolate: false,
    // Left alone, one core is kept free: on two that doubles the time.
    maxWorkers: availableParallelism(),
    // The corpus gives the renderer's memory back by hand.
    execArgv: process.env.CORPUS === undefined ? [] : ['--expose-gc'],
    // A run over changed code must not rewrite the page of outside checks.
    reporters:
      process.env.MUTATION === undefined ? ['default', './tests/outside-checks-page.ts'] : ['default'],
  },
});
