import path from 'node:path';
import {
  drawJob,
  type Job,
  type JobDrawings,
  type JobResult,
  type LayOutProgress,
  plainLine,
  type RunJobOptions,
  readJob,
  runJob,
} from '../index.ts';
import { inJob, readPatternStated } from '../job/read-pattern-stated.ts';
import { type SearchNumber, searchNumberIssue } from '../job/search-limits.ts';
import { batchFingerprint } from './batch-fingerprint.ts';
import { ExitCode } from './exit-code.ts';
import { checkWritable, readText, writeWhole } from './files.ts';
import { invalidArgument } from './invalid-argument.ts';
import { readJobFiles, readPatternFile } from './job-files.ts';
import { localDay } from './local-day.ts';
import { printIssues, refusedIn } from './messages.ts';
import { checkKeepsWhatIsRead, earlierFiles, filesOf, RACK_AFTER } from './plan-files.ts';
import {
  checkSettling,
  type RackFile,
  rackAfterJob,
  rackOfJob,
  type SettleOptions,
  settleAsAsked,
  wantsSettled,
} from './plan-rack.ts';
import { summary } from './plan-summary.ts';
import { startWorker } from './search-workers.ts';
import { untilStopped } from './until-stopped.ts';

/** Searches side by side: two, on any machine, so that the same job gives the same layout everywhere. */
const SEARCHES = 2;

interface PlanOptions extends SettleOptions {
  readonly out: string;
  readonly effort?: string;
  readonly seed?: string;
  readonly minutes?: string;
}

/** `fretlay plan`: runs the job and writes sheets, layout file and report; a summary goes to stdout. */
export async function planCommand(file: string, options: PlanOptions): Promise<number> {
  const name = path.basename(file);
  const job = readJob(await readText(file), name);
  return refusedIn(job.unit, () => planJob(file, job, options));
}

async function planJob(file: string, job: Job, options: PlanOptions): Promise<number> {
  const name = path.basename(file);
  const { path: patternFile, text: svgText } = await readPatternFile(job, file);
  const files = await readJobFiles(job, file);
  const rack = rackOfJob(job, files);
  checkArguments(options, rack);
  const now = new Date();
  const date = localDay(now.getTime(), now.getTimezoneOffset());
  if (rack !== undefined) {
    await checkSettling(rack, options, () => ({
      design: job.design,
      sets: job.sets,
      date,
      fingerprint: batchFingerprint(job, readPatternStated(svgText, job.pattern, inJob(name)).pattern),
    }));
  }
  await checkWritable(options.out);
  await checkKeepsWhatIsRead(options.out, [file, patternFile, ...files.paths]);
  const { result, isInterrupted } = await untilStopped((signal) =>
    runJob(job, svgText, { ...searchOptions(options), file: name, files: files.texts, signal }),
  );
  clearProgress();
  const { layout, verification, isStopped } = result;
  // Before anything is written: a layout stopped too soon must not take the place of a whole one.
  const earlier = await earlierFiles(options.out);
  if (isStopped && layout.unplaced.length > 0 && earlier.length > 0) {
    process.stderr.write(
      `Stopped before every copy had a place; the earlier results in ${options.out} are as they were.\n`,
    );
    return ExitCode.incomplete;
  }
  const drawings = await drawJob(job, result, { file: name, date });
  // What would be left after a layout that nobody should cut is no rack to go on with.
  const after = rack !== undefined && verification.ok ? rackAfterJob(rack, job, result, date) : undefined;
  const rackFiles = after === undefined ? [] : [{ name: RACK_AFTER, text: after }];
  await writeWhole(options.out, [...filesOf(result, drawings), ...rackFiles], earlier);
  tell(result, drawings, job.unit, options.out);
  const isWhole = verification.ok && layout.unplaced.length === 0;
  if (rack !== undefined && after === undefined) process.stdout.write(`${rack.path} is as it was.\n`);
  const isRackDone =
    rack === undefined ||
    after === undefined ||
    (await settleAsAsked(rack, after, options, { isWhole, isInterrupted }, job.unit));
  return isWhole && isRackDone ? ExitCode.done : ExitCode.incomplete;
}

/** How the search is to be run, as the command line and the machine have it. */
function searchOptions({ effort, seed, minutes }: PlanOptions): RunJobOptions {
  return {
    onProgress: showProgress,
    workers: SEARCHES,
    startWorker,
    ...numberOption('effort', effort),
    ...numberOption('seed', seed),
    ...numberOption('minutes', minutes),
  };
}

/** Says what is to be looked at, and what came out. */
function tell(result: JobResult, drawings: JobDrawings, unit: Job['unit'], out: string): void {
  // What may spoil wood at the saw or at the glue-up; notes on the work stand in the report only.
  const workWarnings = drawings.work.issues.filter(({ severity }) => severity !== 'note');
  printIssues([...result.issues, ...workWarnings], unit);
  if (result.isStopped) process.stderr.write('Stopped early: this is the best layout found until then.\n');
  process.stdout.write(`${summary(result, drawings, unit, out)}\n`);
}

/** Refuses what cannot be meant, before the search: a folder without a name is the one the person is in. */
function checkArguments(options: PlanOptions, rack: RackFile | undefined): void {
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
