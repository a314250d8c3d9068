import { spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeWhole } from '../../src/cli/files.ts';
import { settleRack } from '../../src/cli/settle-rack.ts';
import { FretlayError } from '../../src/index.ts';

/** What happens to files when the disk, the permissions or the process give out in the middle of writing. */

const dist = new URL('../../dist/cli/', import.meta.url).href;

let folder: string;
const inside = (...names: string[]) => path.join(folder, ...names);

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'fretlay-fault-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const kindOf = (work: Promise<unknown>): Promise<string> =>
  work.then(
    () => 'done',
    (error) =>
      error instanceof FretlayError
        ? `${error.issues[0].kind}: ${error.issues[0].message}`
        : `untyped: ${error}`,
  );

describe('a disk that is full', () => {
  it.skipIf(!existsSync('/dev/full'))('leaves the earlier results whole and no crumbs', async () => {
    mkdirSync(inside('out'));
    writeFileSync(inside('out/layout.json'), 'earlier');
    // Every write to this device ends with the error of a full disk.
    mkdirSync(inside('out', `.incoming-${process.pid}`));
    symlinkSync('/dev/full', inside('out', `.incoming-${process.pid}`, 'report.html'));
    const files = [
      { name: 'layout.json', text: 'new' },
      { name: 'report.html', text: 'new'.repeat(1000) },
    ];
    expect(await kindOf(writeWhole(inside('out'), files))).toBe(
      'folder-unwritable: cannot be written to: the disk is full',
    );
    expect(readFileSync(inside('out/layout.json'), 'utf8')).toBe('earlier');
    expect(readdirSync(inside('out'))).toEqual(['layout.json']);
  });
});

describe('what a killed program left behind', () => {
  it('is taken away by the next one, unless its writer is running or it was touched just now', async () => {
    // A child that has ended: its number belongs to no one, or to a process that is not a writer of ours.
    const ended = spawnSync(process.execPath, ['-e', '']).pid;
    const names = { dead: `.incoming-${ended}`, running: `.incoming-${process.ppid}`, other: '.incoming-x' };
    for (const name of Object.values(names)) {
      mkdirSync(inside(name));
      writeFileSync(inside(name, 'report.html'), 'half');
    }
    await writeWhole(folder, [{ name: 'layout.json', text: '{}' }]);
    expect(readdirSync(folder).sort()).toEqual([...Object.values(names), 'layout.json'].sort());
    const old = new Date(Date.now() - 3_600_000);
    for (const name of Object.values(names)) utimesSync(inside(name), old, old);
    await writeWhole(folder, [{ name: 'layout.json', text: '{}' }]);
    expect(readdirSync(folder).sort()).toEqual([names.running, names.other, 'layout.json'].sort());
  });
});

describe('a folder that is read-only', () => {
  it('is told in words, and left as it is', async () => {
    // Nobody may write here, the superuser included.
    const words = await kindOf(writeWhole('/proc/self', [{ name: 'layout.json', text: 'new' }]));
    expect(words).toMatch(
      /^folder-unwritable: cannot be written to: (permission is denied|there is no such file)/,
    );
  });
});

/** Runs a script of modules in a process of its own. */
function started(script: string, ...args: string[]) {
  return spawn(process.execPath, ['--input-type=module', '-e', script, ...args], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
}

describe('a process that is killed', () => {
  const FILES = 150;
  const WRITER = `
    import { writeWhole } from '${dist}files.js';
    const files = Array.from({ length: ${FILES} }, (_, i) => ({ name: 'f' + i, text: 'new '.repeat(20000) }));
    await writeWhole(process.argv[1], files);`;

  /** Ends when the folder shows what is waited for, or the process has ended. */
  async function killedWhen(seen: () => boolean): Promise<void> {
    const child = started(WRITER, inside('out'));
    let ended = false;
    const exit = new Promise<void>((resolve) => child.once('exit', () => resolve()));
    exit.then(() => {
      ended = true;
    });
    while (!seen() && !ended) await new Promise((resolve) => setImmediate(resolve));
    child.kill('SIGKILL');
    await exit;
  }

  const incoming = () => readdirSync(inside('out')).find((name) => name.startsWith('.incoming-'));

  it.each([
    ['at the start', 0],
    ['half way through the files', FILES / 2],
    ['when the last is being written', FILES - 1],
  ])('%s of writing leaves every file whole, the old or the new', async (_, count) => {
    mkdirSync(inside('out'));
    for (let i = 0; i < FILES; i++) writeFileSync(inside('out', `f${i}`), 'old');
    await killedWhen(() => {
      const at = incoming();
      return (
        at !== undefined && existsSync(inside('out', at)) && readdirSync(inside('out', at)).length > count
      );
    });
    const texts = new Set(
      Array.from({ length: FILES }, (_, i) => readFileSync(inside('out', `f${i}`), 'utf8')),
    );
    for (const text of texts) expect(['old', 'new '.repeat(20000)]).toContain(text);
  });
});

describe('two batches on one rack', () => {
  it('of many at once, one is settled; the others are refused and change nothing', async () => {
    writeFileSync(inside('rack.json'), 'before');
    const work = Array.from({ length: 20 }, (_, i) =>
      kindOf(settleRack(inside('rack.json'), 'before', `after ${i}`)),
    );
    const ends = await Promise.all(work);
    expect(ends.filter((end) => end === 'done')).toHaveLength(1);
    for (const end of ends) expect(end).toMatch(/^(done$|rack-busy: |rack-changed: )/);
    expect(readFileSync(inside('rack.json'), 'utf8')).toBe(`after ${ends.indexOf('done')}`);
    expect(readdirSync(folder).sort()).toEqual(['rack.before-1.json', 'rack.json']);
    expect(readFileSync(inside('rack.before-1.json'), 'utf8')).toBe('before');
  });

  it('in two processes, one is settled', async () => {
    writeFileSync(inside('rack.json'), 'before');
    const script = `
      import { settleRack } from '${dist}settle-rack.js';
      const [rack, after] = process.argv.slice(1);
      settleRack(rack, 'before', after).then(() => console.log('done'), (error) => console.log(error.issues[0].kind));`;
    const ends = await Promise.all(
      ['one', 'two'].map(async (after) => {
        let said = '';
        for await (const chunk of started(script, inside('rack.json'), after).stdout) said += chunk;
        return said.trim();
      }),
    );
    expect(ends.filter((end) => end === 'done')).toHaveLength(1);
    expect(['rack-busy', 'rack-changed']).toContain(ends.find((end) => end !== 'done'));
    expect(['one', 'two']).toContain(readFileSync(inside('rack.json'), 'utf8'));
  });

  it('is told what to do after one was killed in the middle', async () => {
    writeFileSync(inside('rack.json'), 'before');
    writeFileSync(inside('rack.json.incoming'), 'aft');
    const error = await settleRack(inside('rack.json'), 'before', 'after').catch((thrown: unknown) => thrown);
    expect(String(error)).toMatch(/take rack\.json\.incoming away/);
    expect(readFileSync(inside('rack.json'), 'utf8')).toBe('before');
  });
});
