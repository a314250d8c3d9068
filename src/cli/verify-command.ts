import path from 'node:path';
import {
  type Batch,
  counted,
  type DisplayUnit,
  formatLength,
  type Job,
  lengthsInText,
  readJob,
  readLayout,
  verifyLayout,
} from '../index.ts';
import { readBatch } from '../job/read-batch.ts';
import { ExitCode } from './exit-code.ts';
import { readText } from './files.ts';
import { readJobFiles, readPatternFile } from './job-files.ts';
import { printIssues, refusedIn } from './messages.ts';

interface VerifyOptions {
  readonly json?: boolean;
  readonly job?: string;
}

/**
 * `fretlay verify`: checks a layout file, and by its job what only that tells; the verdict goes to stdout, every breach to
 * stderr, lengths in the unit of the job, or in mm and inches.
 *
 * @returns the exit code: incomplete when a rule is broken
 */
export async function verifyCommand(file: string, options: VerifyOptions): Promise<number> {
  if (options.job === undefined) return verify(file, options, 'both');
  const jobFile = options.job;
  const job = readJob(await readText(jobFile), path.basename(jobFile));
  return refusedIn(job.unit, async () => verify(file, options, job.unit, await batchOf(job, jobFile)));
}

/** The batch of a job, with all boards for sale: which of them were bought, the layout tells. */
async function batchOf(job: Job, file: string): Promise<Batch> {
  const { text: svgText } = await readPatternFile(job, file);
  const { texts } = await readJobFiles(job, file);
  const { batch, offers } = readBatch(job, svgText, texts, path.basename(file));
  return { ...batch, boards: [...batch.boards, ...offers] };
}

async function verify(
  file: string,
  options: VerifyOptions,
  unit: DisplayUnit | 'both',
  batch?: Batch,
): Promise<number> {
  const layout = readLayout(await readText(file), path.basename(file));
  const found = verifyLayout(layout, batch);
  if (options.json) {
    process.stdout.write(`${JSON.stringify(found, null, 2)}\n`);
  } else {
    printIssues(found.breaches, unit);
    const told = (mm: number) => lengthsInText(formatLength(mm, 'mm', 4), unit);
    const distance = (mm: number | undefined) => (mm === undefined ? 'none to measure' : told(mm));
    const { figures, setContents } = layout;
    const stands = setContents.some(({ restEdge }) => restEdge);
    const onEdge = stands ? '; none on a straight edge for parts that stand on it' : '';
    process.stdout.write(
      [
        found.ok ? 'Right: no rule broken.' : `Wrong: ${counted(found.breaches.length, 'rule')} broken.`,
        `Least distance between parts: ${distance(found.leastDistance)} (asked for ${told(layout.kerf + layout.clearance)})`,
        `Least distance to an edge or defect: ${distance(found.leastEdgeDistance)} (asked for ${told(layout.edgeMargin)}${onEdge})`,
        `${figures.completeSets} of ${layout.sets} sets complete on ${counted(figures.boards, 'board')}, yield ${(100 * figures.yield).toFixed(1)} %`,
        '',
      ].join('\n'),
    );
  }
  return found.ok ? ExitCode.done : ExitCode.incomplete;
}
