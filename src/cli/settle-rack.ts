import { constants } from 'node:fs';
import { access, copyFile, open, readdir, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { type BatchName, counted, FretlayError, readRack, USUAL_DESIGN } from '../index.ts';
import { checkWritable, fileError, isCode, isThere, readText } from './files.ts';

/** Refuses, before a long search, to settle a rack that could not be replaced after it. Writes nothing. */
export async function checkReplaceableRack(rack: string): Promise<void> {
  if (await isThere(incomingOf(rack))) throw new FretlayError([rackBusy(rack, incomingOf(rack))]);
  await checkWritable(path.dirname(rack));
  try {
    await access(rack, constants.W_OK);
    // The owner of all may write to it all the same; a rename asks nobody.
    if (((await stat(rack)).mode & ANY_WRITES) === 0) throw Object.assign(new Error(), { code: 'EACCES' });
  } catch (error) {
    throw fileError('rack-unwritable', 'cannot be replaced', rack, error);
  }
}

/** Bits of a file's mode: whether anybody may write to it, and what everybody may do. */
const ANY_WRITES = 0o222;
const ANY_USE = 0o777;

/** One name for all: whoever makes the file first has the rack to itself until it is renamed or taken away. */
function incomingOf(rack: string): string {
  return `${rack}.incoming`;
}

/** Most backups that may lie beside a rack. */
const MOST_BACKUPS = 10_000;

/**
 * Puts a new rack in the place of the old one and keeps the old one beside it. At every moment the file is the
 * whole old rack or the whole new one: the new text is on the disk under another name before one rename puts it in
 * place. Refused when the file is no longer the one the batch was planned with, or another batch is being settled.
 *
 * @returns path of the backup
 */
export async function settleRack(rack: string, before: string, after: string): Promise<string> {
  const incoming = incomingOf(rack);
  const file = await open(incoming, 'wx').catch((error: unknown) => {
    throw isCode(error, 'EEXIST')
      ? new FretlayError([rackBusy(rack, incoming)])
      : fileError('rack-unwritable', 'cannot be replaced', rack, error);
  });
  try {
    try {
      await file.writeFile(after);
      await file.chmod((await stat(rack)).mode & ANY_USE);
      await file.sync();
    } finally {
      await file.close();
    }
    if ((await readText(rack)) !== before) throw new FretlayError([rackChanged(rack)]);
    const backup = await keepBackup(rack);
    await rename(incoming, rack);
    return backup;
  } catch (error) {
    await rm(incoming, { force: true });
    throw error instanceof FretlayError
      ? error
      : fileError('rack-unwritable', 'cannot be replaced', rack, error);
  }
}

/** Copies the rack to the name behind the last one, `rack.before-1.json`, `rack.before-2.json`, ...; replaces nothing. */
async function keepBackup(rack: string): Promise<string> {
  for (let i = (await lastBackup(rack)) + 1; i <= MOST_BACKUPS; i++) {
    const backup = backupName(rack, i);
    try {
      await copyFile(rack, backup, constants.COPYFILE_EXCL);
      return backup;
    } catch (error) {
      if (!isCode(error, 'EEXIST')) throw error;
    }
  }
  throw new FretlayError([
    {
      kind: 'rack-backups-full',
      severity: 'error',
      message: `there are ${MOST_BACKUPS} backups beside the rack`,
      remedy: 'Put some of them away.',
      where: { file: rack },
    },
  ]);
}

/** A batch of today, and what tells it from others. */
export interface BatchOfToday extends Pick<BatchName, 'design' | 'sets'> {
  /** Such as 2026-03-31. */
  readonly date: string;
  readonly fingerprint: string;
}

/**
 * Refuses to settle a rack that was settled for the same batch on the same day: most likely the plan is made once more for a
 * change of paper or price, and its boards would be taken off the rack a second time. A design that has a name is known by it,
 * whatever was mended in its drawing; one without by what is cut.
 *
 * @param text of the rack
 */
export async function checkNotSettled(rack: string, text: string, batch: BatchOfToday): Promise<void> {
  const { design, sets, date, fingerprint } = batch;
  const { lastBatch: last } = readRack(text, path.basename(rack));
  const settled = last?.date === date ? [last, ...last.earlierThatDay] : [];
  const later = settled.findIndex(
    (other) =>
      other.design === design &&
      other.sets === sets &&
      (design !== USUAL_DESIGN || (other.fingerprint ?? fingerprint) === fingerprint),
  );
  if (later === -1) return;
  throw new FretlayError([
    {
      kind: 'rack-settled',
      severity: 'error',
      message: 'the rack was settled for this batch today; it is left as it is',
      expected: 'another design, number of sets or day than "lastBatch" tells of',
      received: `${JSON.stringify(design)}, ${counted(sets, 'set')}, ${date}`,
      remedy: `${await undo(rack, later)}If this is one more batch of the same, use --settle-again.`,
      where: { file: rack, field: 'lastBatch' },
    },
  ]);
}

/** @param later batches the rack was settled for since */
async function undo(rack: string, later: number): Promise<string> {
  if (later > 0)
    return `It was settled for ${counted(later, 'other batch', 'other batches')} since: to plan this one anew, put back by hand what it took, or go back to the rack before it and plan the later ones again as well. `;
  const newest = await lastBackup(rack);
  if (newest === 0) return '';
  return `To plan that batch anew, first put ${path.basename(backupName(rack, newest))} in the place of the rack. `;
}

/** The highest number of a backup, 0 when there is none: older ones may have been taken away. */
async function lastBackup(rack: string): Promise<number> {
  const { dir, name, ext } = path.parse(rack);
  const [before, behind] = [`${name}.before-`, ext];
  const numbers = (await readdir(dir === '' ? '.' : dir))
    .filter((file) => file.startsWith(before) && file.endsWith(behind))
    .map((file) => file.slice(before.length, file.length - behind.length))
    .filter((number) => /^[1-9]\d*$/.test(number))
    .map(Number);
  return Math.max(0, ...numbers);
}

function backupName(rack: string, number: number): string {
  const { dir, name, ext } = path.parse(rack);
  return path.join(dir, `${name}.before-${number}${ext}`);
}

function rackBusy(rack: string, incoming: string) {
  return {
    kind: 'rack-busy',
    severity: 'error',
    message: 'another batch is being settled on this rack, or was stopped in the middle',
    remedy: `Wait for the other one; when none is running, take ${path.basename(incoming)} away. Then plan the batch again.`,
    where: { file: rack },
  } as const;
}

function rackChanged(rack: string) {
  return {
    kind: 'rack-changed',
    severity: 'error',
    message: 'the rack was changed while the batch was planned; it is left as it is',
    remedy: 'Plan the batch again.',
    where: { file: rack },
  } as const;
}
