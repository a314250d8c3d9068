import path from 'node:path';
import {
  drawJob,
  type Finding,
  FretlayError,
  formatLength,
  type JobDrawings,
  type JobResult,
  type LayOutProgress,
  readJob,
  runJob,
  type Totals,
} from '../index.ts';
import { ExitCode } from './exit-code.ts';
import { fileNameFor, type OutputFile, readText, writeWhole } from './files.ts';
import { printIssues, textTable } from './messages.ts';

interface PlanOptions {
  readonly out: string;
  readonly effort?: string;
  readonly seed?: string;
}

/** `fretlay plan`: runs the job and writes sheets, layout file and report; a summary goes to stdout. */
export async function planCommand(file: string, options: PlanOptions): Promise<number> {
  const name = path.basename(file);
  const job = readJob(await readText(file), name);
  const patternFile = path.resolve(path.dirname(file), job.pattern.file);
  const svgText = await readText(patternFile);
  const stop = new AbortController();
  const onInterrupt = () => stop.abort();
  process.once('SIGINT', onInterrupt);
  const result = await runJob(job, svgText, {
    file: name,
    signal: stop.signal,
    onProgress: showProgress,
    ...numberOption('effort', options.effort),
    ...numberOption('seed', options.seed),
  });
  process.removeListener('SIGINT', onInterrupt);
  clearProgress();
  const drawings = await drawJob(job, result, { file: name, date: new Date().toISOString().slice(0, 10) });
  await writeWhole(options.out, filesOf(result, drawings));
  printIssues(result.issues);
  if (stop.signal.aborted) process.stderr.write('Stopped early: this is the best layout found until then.\n');
  process.stdout.write(`${summary(result, drawings, job.unit, options.out)}\n`);
  return result.verification.ok && result.layout.unplaced.length === 0 ? ExitCode.done : ExitCode.incomplete;
}

function numberOption(name: 'effort' | 'seed', text: string | undefined): { effort?: number; seed?: number } {
  if (text === undefined) return {};
  const value = Number(text);
  if (text.trim() !== '' && Number.isFinite(value) && value >= 0) return { [name]: value };
  throw new FretlayError([
    {
      kind: 'argument-invalid',
      severity: 'error',
      message: 'not a number of 0 or more',
      expected: 'a number',
      received: `"${text}"`,
      where: { field: `--${name}` },
    },
  ]);
}

function filesOf({ layout }: JobResult, { report, sheets, pdfs, ...tables }: JobDrawings): OutputFile[] {
  const taken = new Set<string>();
  const sheetFiles = sheets.map(({ board, svg }) => {
    const plain = fileNameFor(board);
    let fileName = plain;
    for (let i = 2; taken.has(fileName.toLowerCase()); i++) fileName = `${plain}-${i}`;
    taken.add(fileName.toLowerCase());
    return { name: `sheets/${fileName}.svg`, text: svg };
  });
  return [
    { name: 'layout.json', text: `${JSON.stringify(layout)}\n` },
    { name: 'report.html', text: report },
    { name: 'parts.csv', text: tables.partsCsv },
    { name: 'cuts.csv', text: tables.cutsCsv },
    ...pdfs.map(({ of, pdf }) => ({ name: `${of}.pdf`, text: pdf })),
    ...sheetFiles,
  ];
}

function summary(
  { layout, verification, check }: JobResult,
  { pdfs }: JobDrawings,
  unit: 'mm' | 'in',
  out: string,
): string {
  const { figures } = layout;
  const metres = (mm: number) =>
    unit === 'mm' ? `${(mm / 1000).toFixed(1)} m` : `${(mm / 304.8).toFixed(1)} ft`;
  const row = (name: string, t: Totals) => [
    name,
    `${t.boards}`,
    `${t.parts}`,
    `${(100 * t.yield).toFixed(1)} %`,
    t.boardFeet.toFixed(2),
    metres(t.cutLength),
    `${t.openings}`,
  ];
  const table = textTable([
    ['', 'boards', 'parts', 'yield', 'board feet', 'cut length', 'holes to drill'],
    ...Object.entries(figures.bySpecies).map(([species, totals]) => row(species, totals)),
    row('All', figures),
  ]);
  const least = verification.leastDistance;
  return [
    `${figures.completeSets} of ${layout.sets} sets complete.`,
    '',
    table,
    '',
    verification.ok
      ? `Checked independently: ${verification.pairsMeasured} pairs of neighbours, least distance ${
          least === undefined ? 'none to measure' : formatLength(least, 'mm', 3)
        } (asked for ${formatLength(layout.kerf + layout.clearance, 'mm', 3)}), no rule broken.`
      : `The independent check found ${verification.breaches.length} breaches; do not cut from these sheets.`,
    checkLine(check),
    '',
    `Look at ${path.join(out, 'report.html')}`,
    ...pdfs.map(
      ({ of, pages }) =>
        `Print ${path.join(out, `${of}.pdf`)} (${pages} ${pages === 1 ? 'page' : 'pages'}) at 100 %, then measure the printed square before sawing.`,
    ),
  ].join('\n');
}

/** One line on what the pattern check found, by kind. */
function checkLine({ findings }: JobResult['check']): string {
  const counts = new Map<string, number>();
  for (const { kind } of findings) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const list = [...counts].map(([kind, count]) => `${count} ${FINDING_WORDS[kind as Finding['kind']]}`);
  return list.length === 0
    ? 'The pattern check found nothing for the saw to watch.'
    : `For the saw to watch: ${list.join(', ')}; each is in the report.`;
}

const FINDING_WORDS: Readonly<Record<Finding['kind'], string>> = {
  'neck-thin': 'thin necks',
  'neck-short-grain': 'necks across the grain',
  'turn-tight': 'parts with tight turns',
  'opening-small': 'openings too small to thread',
  'lost-in-kerf': 'slots narrower than the cut',
  'part-small': 'parts too small to hold',
};

function showProgress({ done, message }: LayOutProgress): void {
  if (process.stderr.isTTY)
    process.stderr.write(`\r\u001b[K${Math.round(100 * done)} % ${message.slice(0, 90)}`);
}

function clearProgress(): void {
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
}
