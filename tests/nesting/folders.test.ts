import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../src/nesting', import.meta.url));
const docs = readFileSync(new URL('../../docs/nesting-engine.md', import.meta.url), 'utf8');

/** Folders in the order of the table: each may use those before it. */
const folders = [...docs.matchAll(/^\| `([a-z-]+)\/` \|/gm)].map(([, name]) => name);

/** The folder of a file of the engine; '' for those at the door. */
function folderOf(file: string): string {
  const name = path.dirname(path.relative(root, file));
  return name === '.' ? '' : name;
}

/** What every file of the engine imports of the others, by folder. */
const uses = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .flatMap((name) => {
    const file = path.join(root, name);
    const imports = [...readFileSync(file, 'utf8').matchAll(/from '(\.[^']+)'/g)];
    return imports
      .map(([, target]) => path.resolve(path.dirname(file), target))
      .filter((target) => target.startsWith(`${root}${path.sep}`))
      .map((target) => ({ name, from: folderOf(file), to: folderOf(target) }));
  });

describe('the folders of the engine', () => {
  test('are all in the table of the docs', () => {
    const found = readdirSync(root, { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect(found.map(({ name }) => name).sort()).toEqual([...folders].sort());
  });

  test('use only those above them in the table, and nothing at the door', () => {
    const isAllowed = ({ from, to }: (typeof uses)[number]) =>
      from === '' || from === to || (to !== '' && folders.indexOf(to) < folders.indexOf(from));
    expect(uses.length).toBeGreaterThan(200);
    expect(uses.filter((use) => !isAllowed(use))).toEqual([]);
  });

  test('the independent check uses nothing of the engine, and the engine nothing of it', () => {
    const isCheck = (name: string, folder: string) => folder === 'verify' || name === 'verify.ts';
    const across = uses.filter(({ name, from, to }) => isCheck(name, from) !== (to === 'verify'));
    expect(across).toEqual([]);
  });
});
