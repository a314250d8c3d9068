import { readFile, realpath } from 'node:fs/promises';
import path from 'node:path';
import type { JobDrawings, JobResult } from '../index.ts';
import { fileNameFor, isSameFile, type OutputFile } from './files.ts';
import { invalidArgument } from './invalid-argument.ts';

/** The file of the rack as a plan leaves it. */
export const RACK_AFTER = 'rack-after.json';

/** Files of a plan that a later one of the same folder takes away when it does not write them. */
const MAY_BE_OUTDATED = [
  'workings.txt',
  RACK_AFTER,
  'parts.csv',
  'cuts.csv',
  'boards.pdf',
  'parts.pdf',
] as const;

const SHEETS = 'sheets';

/**
 * Refuses a folder in which the results would take the place of a file that the job reads: of a rack, say, that an earlier
 * plan left there and the job goes on with.
 *
 * @param read paths of the job and of the files it names
 */
export async function checkKeepsWhatIsRead(folder: string, read: readonly string[]): Promise<void> {
  for (const file of read) {
    const isSheet =
      /\.svg$/i.test(file) &&
      (await isSameFile(path.dirname(await realpath(file)), path.join(folder, SHEETS)));
    const others = ['layout.json', 'report.html', ...MAY_BE_OUTDATED].map((name) => path.join(folder, name));
    const same = await Promise.all(others.map((other) => isSameFile(file, other)));
    if (!isSheet && !same.includes(true)) continue;
    throw invalidArgument('--out', {
      message: `the results would take the place of ${file}, which this job reads`,
      remedy: 'Name another folder, or copy that file to a place of its own and name it in the job.',
    });
  }
}

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
    return `${SHEETS}/${fileName}.svg`;
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
    return [...MAY_BE_OUTDATED, ...sheetNames(used.map(({ id }) => id))];
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
