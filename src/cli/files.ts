import { access, constants, mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { FretlayError, textOfBytes } from '../index.ts';

/** Reading and writing files, with every failure of the file system told in words. */

/**
 * The text of a file: UTF-8, or the encoding that a drawing names; unfolded when compressed.
 *
 * @param namedIn field and file that name it, for a person who looks for the slip
 */
export async function readText(file: string, namedIn?: string): Promise<string> {
  try {
    return await textOfBytes(await readFile(file), path.basename(file));
  } catch (error) {
    if (error instanceof FretlayError) throw error;
    throw fileError('file-unreadable', 'cannot be read', file, error, namedIn);
  }
}

/** A file to write: its path inside the folder, and its text or bytes. */
export interface OutputFile {
  readonly name: string;
  readonly text: string | Uint8Array;
}

/** Sees that a folder can be made or written to, so that a long search is not made for nothing. Writes nothing. */
export async function checkWritable(folder: string): Promise<void> {
  let nearest = path.resolve(folder);
  while (!(await isThere(nearest)) && path.dirname(nearest) !== nearest) nearest = path.dirname(nearest);
  try {
    if (!(await stat(nearest)).isDirectory()) throw Object.assign(new Error(), { code: 'ENOTDIR' });
    await access(nearest, constants.W_OK);
  } catch (error) {
    throw fileError('folder-unwritable', 'cannot be written to', folder, error);
  }
}

/** Makes a folder step by step: the platform's own way never ends where one of several cannot be made. */
async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder);
  } catch (error) {
    if (isCode(error, 'EEXIST')) {
      if ((await stat(folder)).isDirectory()) return;
      throw Object.assign(new Error(), { code: 'ENOTDIR' });
    }
    const parent = path.dirname(folder);
    if (!isCode(error, 'ENOENT') || parent === folder || (await isThere(parent))) throw error;
    await makeFolder(parent);
    await mkdir(folder);
  }
}

/** True when a path leads to a file or folder. */
export async function isThere(file: string): Promise<boolean> {
  return stat(file).then(
    () => true,
    () => false,
  );
}

/** True when two paths lead to one file or folder, be it by links or by letters of another case. */
export async function isSameFile(one: string, other: string): Promise<boolean> {
  const [first, second] = await Promise.all(
    [one, other].map((file) => stat(file, { bigint: true }).catch(() => undefined)),
  );
  return first !== undefined && first.dev === second?.dev && first.ino === second.ino;
}

/** True for a failure of the file system with this code, such as `ENOENT`. */
export function isCode(error: unknown, code: string): boolean {
  return error instanceof Error && 'code' in error && error.code === code;
}

/**
 * Writes files into a folder so that each is written whole or not at all: everything goes into a folder beside
 * them first and is moved into place when all of it is on the disk. Files of the same name are replaced.
 *
 * @param outdated names of files of an earlier run; those that are not written again are taken away
 */
export async function writeWhole(
  folder: string,
  files: readonly OutputFile[],
  outdated: readonly string[] = [],
): Promise<void> {
  const incoming = path.join(folder, `${INCOMING}${process.pid}`);
  try {
    await removeAbandoned(folder);
    for (const { name, text } of files) {
      await makeFolder(path.dirname(path.resolve(incoming, name)));
      await writeFile(path.join(incoming, name), text);
    }
    // Asked of all of them first: one that cannot be moved would leave the others of two runs mixed.
    for (const { name } of files) await checkReplaceable(path.join(folder, name));
    // Only now, so that neither a full disk nor a refusal leaves an empty folder of sheets.
    for (const { name } of files) await makeFolder(path.dirname(path.resolve(folder, name)));
    for (const { name } of files) await rename(path.join(incoming, name), path.join(folder, name));
    const written = new Set(files.map(({ name }) => name));
    for (const name of outdated) if (!written.has(name)) await rm(path.join(folder, name), { force: true });
  } catch (error) {
    if (error instanceof FretlayError) throw error;
    throw fileError('folder-unwritable', 'cannot be written to', folder, error);
  } finally {
    await rm(incoming, { recursive: true, force: true }).catch(() => undefined);
  }
}

/** Refuses to put a file in the place of a folder, a device or a pipe. */
async function checkReplaceable(file: string): Promise<void> {
  const found = await stat(file).catch(() => undefined);
  if (found === undefined || found.isFile()) return;
  const code = found.isDirectory() ? 'EISDIR' : NO_FILE;
  throw fileError('folder-unwritable', 'cannot be replaced', file, Object.assign(new Error(), { code }));
}

/** A code of our own: the platform would put a file in the place of a device, and the device were gone. */
const NO_FILE = 'NO_FILE';

/** Folders in which files wait to be moved into place: this, and the number of the process that writes them. */
const INCOMING = '.incoming-';

/** A folder that was touched within so many milliseconds may be in use by a program on another machine. */
const AT_REST = 60_000;

/** Takes away what programs that were killed while writing have left in a folder. */
async function removeAbandoned(folder: string): Promise<void> {
  const names = await readdir(folder).catch((): string[] => []);
  for (const name of names) {
    const [, writer] = /^\.incoming-(\d{1,9})$/.exec(name) ?? [];
    if (writer === undefined || isRunning(Number(writer))) continue;
    const abandoned = path.join(folder, name);
    const isAtRest = await stat(abandoned).then(
      (found) => found.isDirectory() && Date.now() - found.mtimeMs > AT_REST,
      () => false,
    );
    if (isAtRest) await rm(abandoned, { recursive: true, force: true }).catch(() => undefined);
  }
}

/** True when a process with this number is running on this machine, whoever owns it. */
function isRunning(number: number): boolean {
  try {
    // Signal 0 is sent to no one: it only asks whether the process is there.
    process.kill(number, 0);
    return true;
  } catch (error) {
    return !isCode(error, 'ESRCH');
  }
}

/** A failure of the file system as an error in words. */
export function fileError(
  kind: string,
  what: string,
  file: string,
  error: unknown,
  namedIn?: string,
): FretlayError {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const reasons: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file',
    EISDIR: 'it is a folder',
    [NO_FILE]: 'it is a device or a pipe, not a file',
    EACCES: 'permission is denied',
    EPERM: 'permission is denied',
    ENOSPC: 'the disk is full',
    EFBIG: 'files of this size are not allowed here',
    EDQUOT: 'the share of the disk is used up',
    ENOTDIR: 'a part of the path is a file',
    EROFS: 'the disk is read-only',
    ENAMETOOLONG: 'a name in it is too long',
  };
  const usual = 'Check the path and its permissions.';
  const misnamed =
    namedIn === undefined
      ? usual
      : `${namedIn} names it: correct the name, which is looked for in the folder of that file, or put the file there.`;
  const remedies: Readonly<Record<string, string>> = {
    ENOENT: misnamed,
    EISDIR: misnamed,
    ENOTDIR: misnamed,
    ENOSPC: 'Make room on it, or write to another disk.',
    EDQUOT: 'Make room in it, or write to another disk.',
  };
  return new FretlayError([
    {
      kind,
      severity: 'error',
      message: `${what}: ${reasons[code] ?? (error instanceof Error ? error.message : String(error))}`,
      remedy: remedies[code] ?? usual,
      where: { file },
    },
  ]);
}

/** A text as a file name: letters, digits, dots and hyphens; never empty, hidden, or out of its folder. */
export function fileNameFor(text: string): string {
  const plain = text
    .normalize('NFKD')
    // What is taken apart leaves its accents behind: as a hyphen each, Öland were O-land.
    .replace(/\p{M}+/gu, '')
    .replace(/[^A-Za-z0-9.]+/g, '-')
    .replace(/^[-.]+|[-.]+$/g, '');
  return plain.slice(0, 80) || 'board';
}
