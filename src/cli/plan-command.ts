import path from 'node:path';
import {
  drawJob,
  FretlayError,
  type Job,
  type JobResult,
  type LayOutProgress,
  plainLine,
  rackAfter,
  readJob,
  runJob,
} from '../index.ts';
import { inJob, readPatternStated } from '../job/read-pattern-stated.ts';
import { type SearchNumber, searchNumberIssue } from '../job/search-limits.ts';
import { batchFingerprint } from './batch-fingerprint.ts';
import { ExitCode } from './exit-code.ts';
import { checkWritable, readText, writeWhole } from './files.ts';
import { invalidArgument } from './invalid-argument.ts';
import { type JobFiles, readJobFiles } from './job-files.ts';
import { localDay } from './local-day.ts';
import { printIssues, refusedIn } from './messages.ts';
import { checkKeepsWhatIsRead, earlierFiles, filesOf, RACK_AFTER } from './plan-files.ts';
import { summary } from './plan-summary.ts';
import { startWorker } from './search-workers.ts';
import { checkNotSettled, checkReplaceableRack, settleRack } from './settle-rack.ts';
import { untilStopped } from './until-stopped.ts';

/** Searches side by side: two, on any machine, so that the same job gives the same layout everywhere. */
const SEARCHES = 2;

interface PlanOptions {
  readonly out: string;
  readonly effort?: string;
  readonly seed?: string;
  readonly minutes?: string;
  readonly settleRack?: boolean;
  /** Settles also a rack that was settled for the same batch today. */
  readonly settleAgain?: boolean;
}

/** `fretlay plan`: runs the job and writes sheets, layout file and report; a summary goes to stdout. */
export async function planCommand(file: string, options: PlanOptions): Promise<number> {
  const name = path.basename(file);
  const job = readJob(await readText(file), name);
  return refusedIn(job.unit, () => planJob(file, job, options));
}

async function planJob(file: string, job: Job, options: PlanOptions): Promise<number> {
  const name = path.basename(file);
  const patternFile = path.resolve(path.dirname(file), job.pattern.file);
  const svgText = await readText(patternFile);
  const { texts, rack, paths } = await readJobFiles(job, file);
  checkArguments(options, job.rack);
  const now = new Date();
  const date = localDay(now.getTime(), now.getTimezoneOffset());
  if (options.settleRack && !options.settleAgain && rack !== undefined && job.rack !== undefined)
    await checkNotSettled(rack, texts[job.rack], {
      ...job,
      date,
      fingerprint: batchFingerprint(job, readPatternStated(svgText, job.pattern, inJob(name)).pattern),
    });
  if (wantsSettled(options) && rack !== undefined) await checkReplaceableRack(rack);
  await checkWritable(options.out);
  await checkKeepsWhatIsRead(options.out, [file, patternFile, ...paths]);
  const { result, isInterrupted } = await untilStopped((signal) =>
    runJob(job, svgText, {
      file: name,
      files: texts,
      signal,
      onProgress: showProgress,
      workers: SEARCHES,
      startWorker,
      ...numberOption('effort', options.effort),
      ...numberOption('seed', options.seed),
      ...numberOption('minutes', options.minutes),
    }),
  );
  clearProgress();
  const { isStopped } = result;
  // Before anything is written: a layout stopped too soon must not take the place of a whole one.
  const earlier = await earlierFiles(options.out);
  if (isStopped && result.layout.unplaced.length > 0 && earlier.length > 0) {
    process.stderr.write(
      `Stopped before every copy had a place; the earlier results in ${options.out} are as they were.\n`,
    );
    return ExitCode.incomplete;
  }
  const drawings = await drawJob(job, result, { file: name, date });
  const { layout, verification } = result;
  // What would be left after a layout that nobody should cut is no rack to go on with.
  const after = verification.ok ? rackAfterJob(job, texts, result, date) : undefined;
  const files = [
    ...filesOf(result, drawings),
    ...(after === undefined ? [] : [{ name: RACK_AFTER, text: after }]),
  ];
  await writeWhole(options.out, files, earlier);
  // What may spoil wood at the saw or at the glue-up; notes on the work stand in the report only.
  const workWarnings = drawings.work.issues.filter(({ severity }) => severity !== 'note');
  printIssues([...result.issues, ...workWarnings], job.unit);
  if (isStopped) process.stderr.write('Stopped early: this is the best layout found until then.\n');
  process.stdout.write(`${summary(result, drawings, job.unit, options.out)}\n`);
  const isWhole = verification.ok && layout.unplaced.length === 0;
  if (rack !== undefined && !verification.ok) process.stdout.write(`${rack} is as it was.\n`);
  if (job.rack !== undefined && rack !== undefined && after !== undefined) {
    const why = isWhole ? 'The plan was interrupted' : 'The batch is not whole';
    let backup: string | undefined;
    try {
      if (wantsSettled(options) && isWhole && !isInterrupted)
        backup = await settleRack(rack, texts[job.rack], after);
    } catch (error) {
      if (!(error instanceof FretlayError)) throw error;
      // The results are written: what was refused is the rack alone.
      printIssues(error.issues, job.unit);
      return ExitCode.incomplete;
    }
    const written = path.join(options.out, RACK_AFTER);
    process.stdout.write(`${rackLine(written, rack, backup, wantsSettled(options) ? why : undefined)}\n`);
  }
  return isWhole ? ExitCode.done : ExitCode.incomplete;
}

/** The rack as the layout leaves it; undefined when the job names none. */
function rackAfterJob(
  job: Job,
  texts: JobFiles['texts'],
  { layout, batch, pattern }: JobResult,
  date: string,
): string | undefined {
  if (job.rack === undefined) return undefined;
  return rackAfter(texts[job.rack], layout, batch.boards, {
    design: job.design,
    sets: job.sets,
    date,
    fingerprint: batchFingerprint(job, pattern),
    unit: job.unit,
    keeperCredit: job.costs.keeperCredit,
  });
}

/** @param why why the rack was not settled although that was asked for */
function rackLine(after: string, rack: string, backup: string | undefined, why: string | undefined): string {
  if (backup === undefined && why !== undefined)
    return `${why}, so ${rack} is left as it was; what it would be after this batch is ${after}.`;
  return backup === undefined
    ? `The rack after this batch is ${after}; ${rack} is as it was (--settle-rack puts the new one in its place).`
    : `${rack} is now the rack after this batch; the one before is ${backup}.`;
}

function wantsSettled({ settleRack = false, settleAgain = false }: PlanOptions): boolean {
  return settleRack || settleAgain;
}

/** Refuses what cannot be meant, before the search: a folder without a name is the one the person is in. */
function checkArguments(options: PlanOptions, rack: string | undefined): void {
  if (options.out.trim() === '')
    throw invalidArgument('--out', {
      message: 'names no folder',
      expected: 'a folder for the results, "." for this one',
    });
  if (wantsSettled(options) && rack === undefined)
    throw invalidArgument(options.settleAgain ? '--settle-again' : '--settle-rack', {
      message: 'the job names no rack to settle',
      expected: '"rack" in the job',
    });
}

function numberOption(name: SearchNumber, text: string | undefined): { [name in SearchNumber]?: number } {
  if (text === undefined) return {};
  // An empty text would be 0.
  const value = text.trim() === '' ? Number.NaN : Number(text);
  const issue = searchNumberIssue(name, value);
  if (issue === undefined) return { [name]: value };
  throw invalidArgument(`--${name}`, { ...issue, received: `"${text}"` });
}

function showProgress({ done, message }: LayOutProgress): void {
  // A line that wraps could not be cleared any more, and would stay.
  const room = (process.stderr.columns || 80) - 1;
  if (process.stderr.isTTY)
    process.stderr.write(`\r\u001b[K${plainLine(`${Math.round(100 * done)} % ${message}`).slice(0, room)}`);
}

function clearProgress(): void {
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
}
