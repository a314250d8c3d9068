import { existsSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileExamples, libraryExamples, runExamples, writeExamples } from './library-examples.ts';

const docs = fileURLToPath(new URL('../../docs', import.meta.url));

/** These run in a browser: see tests/browser/library-page.test.ts. */
const IN_BROWSER = ['search-worker', 'page'];

describe('docs/library.md', () => {
  const examples = libraryExamples();
  const inNode = examples.filter(({ name }) => !IN_BROWSER.includes(name));
  let folder: string;
  let complaints: string[];
  let printed: Map<string, string[]>;

  beforeAll(() => {
    folder = writeExamples(examples);
    complaints = compileExamples(folder, examples);
    printed = runExamples(
      folder,
      inNode.map(({ name }) => name),
    );
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('has examples of every step that a strict compiler takes as they stand', () => {
    expect(examples.length).toBeGreaterThan(12);
    expect(complaints).toEqual([]);
  });

  it.each(inNode)('$name prints what its comments say, and nothing else', ({ name, code }) => {
    const promised = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map(([, comment]) => comment);
    expect(promised).toHaveLength(code.split('console.log(').length - 1);
    expect(printed.get(name)).toEqual(promised);
  });

  it('links to pages that exist', () => {
    const page = readFileSync(path.join(docs, 'library.md'), 'utf8');
    const links = [...page.matchAll(/\]\(([^)#:]+)\)/g)].map(([, link]) => link);
    expect(links.length).toBeGreaterThan(5);
    for (const link of links) expect(existsSync(path.join(docs, link)), link).toBe(true);
  });
});
