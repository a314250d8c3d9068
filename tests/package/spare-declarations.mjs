/**
 * Writes dist/.npmignore: the declarations that no entry of the package leads to. A program that uses the package never
 * reads them, and all together they would be a seventh of what is downloaded. Part of `npm run build`.
 */

import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const root = fileURLToPath(new URL('../..', import.meta.url));
const dist = path.join(root, 'dist');
const { exports } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));

const within = (name) => path.relative(dist, name).replaceAll(path.sep, '/');

const entries = Object.values(exports).map(({ types }) => path.join(root, types));
const program = ts.createProgram(entries, { module: ts.ModuleKind.NodeNext, types: [] });
const reached = new Set(program.getSourceFiles().map(({ fileName }) => within(fileName)));
for (const entry of entries) {
  if (!reached.has(within(entry)))
    throw new Error(`${entry} is not there: compile first, npm run build does both`);
}
const spare = ts.sys
  .readDirectory(dist, ['.d.ts'])
  .map(within)
  .filter((name) => !reached.has(name));
writeFileSync(path.join(dist, '.npmignore'), spare.map((name) => `/${name}\n`).join(''));
