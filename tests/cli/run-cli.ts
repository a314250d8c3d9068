import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** Runs the built command as a user would: its own process, its own exit code. */

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

export interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

export function fretlay(...args: string[]): Promise<Ran> {
  return new Promise((resolve) => {
    execFile(process.execPath, [MAIN, ...args], { maxBuffer: 1 << 26 }, (error, stdout, stderr) => {
      const code = error === null ? 0 : typeof error.code === 'number' ? error.code : -1;
      resolve({ code, stdout, stderr });
    });
  });
}

export function fixturePath(name: string): string {
  return fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
}

/** A new empty folder, with the given files in it; `done` removes it. */
export async function folderWith(files: Readonly<Record<string, string>>) {
  const folder = await mkdtemp(path.join(tmpdir(), 'fretlay-test-'));
  for (const [name, text] of Object.entries(files)) await writeFile(path.join(folder, name), text);
  return {
    path: (name: string) => path.join(folder, name),
    done: () => rm(folder, { recursive: true, force: true }),
  };
}
