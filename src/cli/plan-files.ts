import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { JobDrawings, JobResult } from '../index.ts';
import { fileNameFor, type OutputFile } from './files.ts';

/**
 * The files of a plan. When the independent check found a breach, nothing that could be printed and sawn from, and
 * nothing of prices, is among them.
 */
export function filesOf({ layout, verification }: JobResult, drawings: JobDrawings): OutputFile[] {
  const { report, sheets, pdfs } = drawings;
  const always = [
    { name: 'layout.json', text: `${JSON.stringify(layout)}\n` },
    { name: 'report.html', text: report },
  ];
  if (!verification.ok) return always;
  const names = sheetNames(sheets.map(({ board }) => board));
  return [
    ...always,
    { name: 'workings.txt', text: drawings.workings },
    { name: 'parts.csv', text: drawings.partsCsv },
    { name: 'cuts.csv', text: drawings.cutsCsv },
    ...pdfs.map(({ of, pdf }) => ({ name: `${of}.pdf`, text: pdf })),
    ...sheets.map(({ svg }, i) => ({ name: names[i], text: svg })),
  ];
}

/** Names of the sheet files of boards, different also where file systems ignore case. */
function sheetNames(boards: readonly string[]): string[] {
  const taken = new Set<string>();
  return boards.map((board) => {
    const plain = fileNameFor(board);
    let fileName = plain;
    for (let i = 2; taken.has(fileName.toLowerCase()); i++) fileName = `${plain}-${i}`;
    taken.add(fileName.toLowerCase());
    return `sheets/${fileName}.svg`;
  });
}

/**
 * Names of what an earlier plan may have left in a folder, told from its layout file: they are taken away with the
 * new results, so that a stale sheet is never printed by mistake. Files of other names are never touched.
 */
export async function earlierFiles(folder: string): Promise<string[]> {
  try {
    const layout: unknown = JSON.parse(await readFile(path.join(folder, 'layout.json'), 'utf8'));
    if (!isLayout(layout)) return [];
    const used = layout.boards.filter(({ placements }) => placements.length > 0);
    return [
      'workings.txt',
      'rack-after.json',
      'parts.csv',
      'cuts.csv',
      'boards.pdf',
      'parts.pdf',
      ...sheetNames(used.map(({ id }) => id)),
    ];
  } catch {
    return [];
  }
}

function isLayout(value: unknown): value is JobResult['layout'] {
  return (
    typeof value === 'object' &&
    value !== null &&
    'format' in value &&
    value.format === 'fretlay-layout' &&
    'boards' in value &&
    Array.isArray(value.boards)
  );
}
