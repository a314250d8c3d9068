import { constants } from 'node:fs';
import { copyFile, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { FretlayError } from '../index.ts';
import { fileError, isCode, readText } from './files.ts';

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
  // One name for all: whoever makes the file first has the rack to itself until it is renamed or taken away.
  const incoming = `${rack}.incoming`;
  const file = await open(incoming, 'wx').catch((error: unknown) => {
    throw isCode(error, 'EEXIST')
      ? new FretlayError([rackBusy(rack, incoming)])
      : fileError('rack-unwritable', 'cannot be replaced', rack, error);
  });
  try {
    try {
      await file.writeFile(after);
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

/** Copies the rack to the first free name `rack.before-1.json`, `rack.before-2.json`, ...; replaces nothing. */
async function keepBackup(rack: string): Promise<string> {
  const { dir, name, ext } = path.parse(rack);
  for (let i = 1; i <= MOST_BACKUPS; i++) {
    const backup = path.join(dir, `${name}.before-${i}${ext}`);
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
