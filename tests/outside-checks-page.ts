import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Reporter, TestModule } from 'vitest/node';
import type { CheckRow } from './outside-check.ts';

/**
 * Makes docs/checks.md from the checks that the tests recorded (`npm run checks`), and fails a whole test run when
 * the page is out of date. The column of found values is left out of that comparison: it may differ in a last digit.
 */
const root = fileURLToPath(new URL('..', import.meta.url));
const PAGE = path.join(root, 'docs/checks.md');

const HEAD = [
  '# What is checked against the world',
  '',
  'Every check of fretlay against something outside it: a standard, a handbook table, a paper, a closed form, a',
  'general library. Each row is made by the test that asserts it (`npm run checks` writes this page; a test run fails',
  'when it is out of date). "From memory" and "common practice" are said where that is all there is.',
  '',
  '| what | published source | expected | found | tolerance | test |',
  '|---|---|---|---|---|---|',
];

export default class OutsideChecksPage implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[], reason: string): void {
    if (errors.length > 0 || reason !== 'passed') return;
    const ran = new Set(modules.map((module) => path.relative(root, module.moduleId)));
    const made = modules.flatMap((module) =>
      checksOf(module).map((check) => tableRow(check, path.relative(root, module.moduleId))),
    );
    const stated = readFileSync(PAGE, 'utf8').split('\n').filter(isRow);
    // A run of some of the tests says nothing of the rows of the others.
    const others = stated.filter((row) => !ran.has(fileOf(row)) && existsSync(path.join(root, fileOf(row))));
    const rows = [...others, ...made].sort((a, b) =>
      fileOf(a) < fileOf(b) ? -1 : fileOf(a) > fileOf(b) ? 1 : 0,
    );
    if (process.env.WRITE_CHECKS !== undefined) {
      writeFileSync(PAGE, `${[...HEAD, ...rows].join('\n')}\n`);
    } else if (stated.map(withoutFound).join('\n') !== rows.map(withoutFound).join('\n')) {
      process.stderr.write('\ndocs/checks.md is out of date: run `npm run checks`.\n');
      process.exitCode = 1;
    }
  }
}

function checksOf(module: TestModule): CheckRow[] {
  return [...module.children.allTests()].flatMap((test) => test.meta().outsideChecks ?? []);
}

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

function tableRow({ what, source, expected, found, tolerance }: CheckRow, file: string): string {
  const cells = [what, source, expected, found, tolerance].map(cell);
  return `| ${[...cells, `[${file.replace('tests/', '')}](../${file})`].join(' | ')} |`;
}

const isRow = (line: string): boolean => fileOf(line) !== '';

function fileOf(row: string): string {
  return /\]\(\.\.\/([^)]*)\) \|$/.exec(row)?.[1] ?? '';
}

/** The row without its fourth cell. */
function withoutFound(row: string): string {
  return row
    .split(/(?<!\\)\|/)
    .toSpliced(4, 1)
    .join('|');
}
