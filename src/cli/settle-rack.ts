import { constants } from 'node:fs';
import { copyFile, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { FretlayError } from '../index.ts';
import { fileError, readText } from './files.ts';

/** Most backups that may lie beside a rack. */
const MOST_BACKUPS = 10_000;

/**
 * Puts a new rack in the place of the old one and keeps the old one beside it. At every moment the file is the
 * whole old rack or the whole new one: the new text is on the disk under another name before one rename puts it in
 * place. Refused when the file is no longer the one the batch was planned with.
 *
 * @returns path of the backup
 */
export async function settleRack(rack: string, before: string, after: string): Promise<string> {
  if ((await readText(rack)) !== before) throw new FretlayError([rackChanged(rack)]);
  const incoming = `${rack}.incoming-${process.pid}`;
  try {
    const file = await open(incoming, 'w');
    try {
      await file.writeFile(after);
      await file.sync();
    } finally {
      await file.close();
    }
    const backup = await keepBackup(rack);
    await rename(incoming, rack);
    return backup;
  } catch (error) {
    throw error instanceof FretlayError
      ? error
      : fileError('rack-unwritable', 'cannot be replaced', rack, error);
  } finally {
    await rm(incoming, { force: true });
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
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
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

function rackChanged(rack: string) {
  return {
    kind: 'rack-changed',
    severity: 'error',
    message: 'the rack was changed while the batch was planned; it is left as it is',
    remedy: 'Plan the batch again.',
    where: { file: rack },
  } as const;
}
