import { defineConfig } from 'vitest/config';

/** `npm test` runs the tests; `npm run corpus` sets CORPUS and runs the long comparison over whole drawing sets. */
const include = process.env.CORPUS === undefined ? 'tests/**/*.test.ts' : 'tests/corpus/*.corpus.ts';

export default defineConfig({
  test: {
    include: [include],
    testTimeout: 60_000,
    // The corpus gives the renderer's memory back by hand.
    execArgv: process.env.CORPUS === undefined ? [] : ['--expose-gc'],
    reporters: ['default', './tests/outside-checks-page.ts'],
  },
});
