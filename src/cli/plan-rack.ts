import path from 'node:path';
import { FretlayError, type Job, type JobResult, rackAfter } from '../index.ts';
import { batchFingerprint } from './batch-fingerprint.ts';
import type { JobFiles } from './job-files.ts';
import { printIssues } from './messages.ts';
import { RACK_AFTER } from './plan-files.ts';
import { type BatchOfToday, checkNotSettled, checkReplaceableRack, settleRack } from './settle-rack.ts';

/** What becomes of the rack of a job that is planned: it stays as it is unless it is to be settled. */

/** A rack as it was read, before the search. */
export interface RackFile {
  /** Path of the file itself, where a link leads to it. */
  readonly path: string;
  readonly text: string;
}

/** Whether the rack after the batch takes the place of the one before. */
export interface SettleOptions {
  readonly settleRack?: boolean;
  /** Settles also a rack that was settled for the same batch today. */
  readonly settleAgain?: boolean;
}

/** The rack of a job; undefined when it names none. */
export function rackOfJob(job: Job, { texts, rack }: JobFiles): RackFile | undefined {
  if (job.rack === undefined || rack === undefined) return undefined;
  return { path: rack, text: texts[job.rack] };
}

/** True when the rack is to be settled, for the first time or once more. */
export function wantsSettled({ settleRack = false, settleAgain = false }: SettleOptions): boolean {
  return settleRack || settleAgain;
}

/** Refuses, before a long search, to settle a rack twice for one batch, or one that cannot be replaced. */
export async function checkSettling(
  rack: RackFile,
  options: SettleOptions,
  batch: () => BatchOfToday,
): Promise<void> {
  if (!wantsSettled(options)) return;
  if (!options.settleAgain) await checkNotSettled(rack.path, rack.text, batch());
  await checkReplaceableRack(rack.path);
}

/**
 * The text of the rack as the layout leaves it.
 *
 * @param date of the batch, such as 2026-03-31
 */
export function rackAfterJob(
  { text }: RackFile,
  job: Job,
  { layout, batch, pattern }: JobResult,
  date: string,
): string {
  return rackAfter(text, layout, batch.boards, {
    design: job.design,
    sets: job.sets,
    date,
    fingerprint: batchFingerprint(job, pattern),
    unit: job.unit,
    keeperCredit: job.costs.keeperCredit,
  });
}

/**
 * Settles the rack where that is asked for and the batch is whole, and says what has become of it.
 *
 * @param after text of the rack after the batch, which is in the folder of the results already
 * @param batch whether it is whole, and whether the plan was interrupted
 * @returns false where the rack could not be settled; that has been told
 */
export async function settleAsAsked(
  rack: RackFile,
  after: string,
  options: SettleOptions & { readonly out: string },
  batch: { readonly isWhole: boolean; readonly isInterrupted: boolean },
  unit: Job['unit'],
): Promise<boolean> {
  const written = path.join(options.out, RACK_AFTER);
  const isAsked = wantsSettled(options);
  if (!isAsked || !batch.isWhole || batch.isInterrupted) {
    const why = batch.isWhole ? 'The plan was interrupted' : 'The batch is not whole';
    say(
      isAsked
        ? `${why}, so ${rack.path} is left as it was; what it would be after this batch is ${written}.`
        : `The rack after this batch is ${written}; ${rack.path} is as it was (--settle-rack puts the new one in its place).`,
    );
    return true;
  }
  try {
    const backup = await settleRack(rack.path, rack.text, after);
    say(`${rack.path} is now the rack after this batch; the one before is ${backup}.`);
    return true;
  } catch (error) {
    if (!(error instanceof FretlayError)) throw error;
    // The results are written: what was refused is the rack alone.
    printIssues(error.issues, unit);
    return false;
  }
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}
