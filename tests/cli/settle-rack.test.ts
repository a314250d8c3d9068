import { spawn } from 'node:child_process';
import { chmod, lstat, mkdir, readdir, readFile, stat, symlink, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { fixturePath, folderWith, fretlay } from './run-cli.ts';

const JOB_FILES = new URL('../../dist/cli/job-files.js', import.meta.url).href;
const SETTLE = new URL('../../dist/cli/settle-rack.js', import.meta.url).href;

/** A rack of many boards: long enough that a kill may fall into the writing of it. */
const rack = (species: string) =>
  JSON.stringify({
    boards: Array.from({ length: 2000 }, (_, i) => ({
      id: `${species} ${i}`,
      species,
      length: 900,
      width: 150,
    })),
  });

describe('settling the rack', () => {
  it('leaves the whole old rack or the whole new one when it is killed at any moment', {
    timeout: 60_000,
  }, async () => {
    const [before, after] = [rack('walnut'), rack('cherry')];
    for (let round = 0; round < 16; round++) {
      const folder = await folderWith({ 'rack.json': before, 'before.json': before, 'after.json': after });
      const child = spawn(
        process.execPath,
        ['--input-type=module', '-e', replacingForEver(folder.path('rack.json'))],
        {
          stdio: ['ignore', 'pipe', 'ignore'],
        },
      );
      await new Promise<void>((resolve) => child.stdout.once('data', () => resolve()));
      // Spread evenly over some replacements; where in one the kill falls is left to the machine.
      await new Promise((resolve) => setTimeout(resolve, round * 3));
      child.kill('SIGKILL');
      await new Promise((resolve) => child.once('close', resolve));
      const text = await readFile(folder.path('rack.json'), 'utf8');
      expect([before, after]).toContain(text);
      const names = await readdir(path.dirname(folder.path('rack.json')));
      expect(names.filter((name) => name.startsWith('rack.before-')).length).toBeGreaterThan(0);
      await folder.done();
    }
  });

  it('is refused when the rack is not the one the batch was planned with', async () => {
    const folder = await folderWith({ 'rack.json': 'changed by hand' });
    const { settleRack } = await import(SETTLE);
    await expect(settleRack(folder.path('rack.json'), 'as planned', 'after')).rejects.toMatchObject({
      issues: [{ kind: 'rack-changed', where: { file: folder.path('rack.json') } }],
    });
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe('changed by hand');
    expect(await readdir(path.dirname(folder.path('rack.json')))).toEqual(['rack.json']);
    await folder.done();
  });

  it('is done by one of two batches that were planned with the same rack, one after the other', async () => {
    const folder = await folderWith({ 'rack.json': 'before' });
    const { settleRack } = await import(SETTLE);
    await settleRack(folder.path('rack.json'), 'before', 'after the first');
    await expect(settleRack(folder.path('rack.json'), 'before', 'after the second')).rejects.toMatchObject({
      issues: [{ kind: 'rack-changed' }],
    });
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe('after the first');
    await folder.done();
  });

  it('is done by one of several batches that come at the same moment', async () => {
    const folder = await folderWith({ 'rack.json': 'before' });
    const { settleRack } = await import(SETTLE);
    const texts = ['a', 'b', 'c', 'd'];
    const all = await Promise.allSettled(
      texts.map((text) => settleRack(folder.path('rack.json'), 'before', text)),
    );
    const done = texts.filter((_, i) => all[i].status === 'fulfilled');
    expect(done).toHaveLength(1);
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe(done[0]);
    expect((await readdir(path.dirname(folder.path('rack.json')))).sort()).toEqual([
      'rack.before-1.json',
      'rack.json',
    ]);
    await folder.done();
  });

  it('says what to delete when an earlier one was killed in the middle', async () => {
    const folder = await folderWith({ 'rack.json': 'before', 'rack.json.incoming': 'half' });
    const { settleRack } = await import(SETTLE);
    await expect(settleRack(folder.path('rack.json'), 'before', 'after')).rejects.toMatchObject({
      issues: [{ kind: 'rack-busy', remedy: expect.stringContaining('rack.json.incoming') }],
    });
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe('before');
    await folder.done();
  });

  it('is refused before the search for a rack that nobody may write to, and leaves the others as open as they were', async () => {
    const folder = await folderWith({ 'rack.json': 'before' });
    const { checkReplaceableRack, settleRack } = await import(SETTLE);
    await chmod(folder.path('rack.json'), 0o444);
    await expect(checkReplaceableRack(folder.path('rack.json'))).rejects.toMatchObject({
      issues: [{ kind: 'rack-unwritable', where: { file: folder.path('rack.json') } }],
    });
    await chmod(folder.path('rack.json'), 0o660);
    await checkReplaceableRack(folder.path('rack.json'));
    await settleRack(folder.path('rack.json'), 'before', 'after');
    expect((await stat(folder.path('rack.json'))).mode & 0o777).toBe(0o660);
    await folder.done();
  });

  it('replaces the rack that a link leads to, not the link', async () => {
    const folder = await folderWith({});
    await mkdir(folder.path('shared'));
    await writeFile(folder.path('shared/rack.json'), JSON.stringify({ boards: [] }));
    await symlink('shared/rack.json', folder.path('rack.json'));
    const { readJobFiles } = await import(JOB_FILES);
    const { settleRack } = await import(SETTLE);
    const { rack, texts } = await readJobFiles(
      { boards: [], forSale: [], rack: 'rack.json' },
      folder.path('job.json'),
    );
    await settleRack(rack, texts['rack.json'], 'after');
    expect((await lstat(folder.path('rack.json'))).isSymbolicLink()).toBe(true);
    expect(await readFile(folder.path('shared/rack.json'), 'utf8')).toBe('after');
    expect((await readdir(folder.path('shared'))).sort()).toEqual(['rack.before-1.json', 'rack.json']);
    await folder.done();
  });

  it('keeps the newest backup under the highest number, also where older ones were taken away', async () => {
    const folder = await folderWith({ 'rack.json': 'before', 'rack.before-2.json': 'older' });
    const { settleRack } = await import(SETTLE);
    const backup = await settleRack(folder.path('rack.json'), 'before', 'after');
    expect(path.basename(backup)).toBe('rack.before-3.json');
    await folder.done();
  });

  it('replaces no backup, and takes the next free name', async () => {
    const folder = await folderWith({ 'rack.json': 'before', 'rack.before-1.json': 'older' });
    const { settleRack } = await import(SETTLE);
    const backup = await settleRack(folder.path('rack.json'), 'before', 'after');
    expect(path.basename(backup)).toBe('rack.before-2.json');
    expect(await readFile(folder.path('rack.before-1.json'), 'utf8')).toBe('older');
    await folder.done();
  });

  describe('for a batch of today', () => {
    const date = '2026-03-31';
    const batch = { sets: 4, date, fingerprint: 'firs' };
    const lastBatch = { design: 'Lake', sets: 4, date, used: [], kept: [], scrapArea: 0 };
    const check = async (last: object, { design }: { design: string }) => {
      const { checkNotSettled } = await import(SETTLE);
      const text = JSON.stringify({ boards: [], lastBatch: { ...lastBatch, ...last } });
      return checkNotSettled(fixturePath('rack/rack.json'), text, { ...batch, design });
    };
    const earlierThatDay = [
      { design: 'Shore', sets: 4, fingerprint: 'firs' },
      { design: 'Untitled design', sets: 4, fingerprint: 'firs' },
    ];

    it.each([
      ['an earlier one of the day', { earlierThatDay }, 'Shore', /settled for 1 other batch since/],
      ['a named one with another drawing', { fingerprint: 'herons' }, 'Lake', /one more batch of the same/],
      [
        'one without a name of the same parts',
        { earlierThatDay },
        'Untitled design',
        /2 other batches since/,
      ],
      [
        'one of an older rack, by its sets',
        { design: 'Untitled design' },
        'Untitled design',
        /--settle-again/,
      ],
    ])('refuses %s', async (_, last, design, remedy) => {
      await expect(check(last, { design })).rejects.toMatchObject({
        issues: [{ kind: 'rack-settled', remedy: expect.stringMatching(remedy) }],
      });
    });

    it.each([
      ['with another name', { earlierThatDay }, 'Pier'],
      [
        'without a name, of other parts',
        { design: 'Untitled design', fingerprint: 'herons' },
        'Untitled design',
      ],
      ['of another day', { date: '2026-03-30', earlierThatDay }, 'Shore'],
    ])('settles one %s', async (_, last, design) => {
      await expect(check(last, { design })).resolves.toBeUndefined();
    });
  });

  it('is done on request only, and keeps the old rack', async () => {
    const board = { id: 'A', species: 'oak', thickness: 19, length: 600, width: 200, quantity: 2 };
    const text = JSON.stringify({ boards: [board] });
    const pattern = await readFile(fixturePath('first-cut/pattern.svg'), 'utf8');
    const folder = await folderWith({
      'rack.json': text,
      'pattern.svg': pattern,
      'job.json': JSON.stringify({ pattern: 'pattern.svg', rack: 'rack.json' }),
    });
    const plan = (...more: string[]) =>
      fretlay('plan', folder.path('job.json'), '--out', folder.path('out'), '--effort', '0', ...more);

    const asked = await plan();
    expect(asked.code, asked.stderr).toBe(0);
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe(text);
    const after = await readFile(folder.path('out/rack-after.json'), 'utf8');
    expect(JSON.parse(after).boards[0]).toMatchObject({ id: 'A', quantity: 1 });

    const job = { pattern: 'pattern.svg', rack: 'rack.json', sets: 140 };
    await writeFile(folder.path('too-many.json'), JSON.stringify(job));
    const short = await fretlay(
      ...[
        'plan',
        folder.path('too-many.json'),
        '--out',
        folder.path('short'),
        '--effort',
        '0',
        '--settle-rack',
      ],
    );
    expect(short.code).toBe(1);
    expect(short.stdout).toContain('is left as it was');
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe(text);

    const settled = await plan('--settle-rack');
    expect(settled.code, settled.stderr).toBe(0);
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe(after);
    expect(await readFile(folder.path('rack.before-1.json'), 'utf8')).toBe(text);

    // The same plan once more, for another price: its boards are not taken twice.
    const twice = await plan('--settle-rack', '--out', folder.path('twice'));
    expect(twice.code).toBe(2);
    expect(twice.stderr).toMatch(/settled for this batch today.*"Untitled design", 1 set, \d{4}-/);
    expect(twice.stderr).toMatch(/put rack\.before-1\.json in the place of the rack.*--settle-again/);
    expect(await readdir(path.dirname(folder.path('rack.json')))).not.toContain('twice');
    expect(await readFile(folder.path('rack.json'), 'utf8')).toBe(after);

    const again = await plan('--settle-again');
    expect(again.code, again.stderr).toBe(0);
    expect(await readFile(folder.path('rack.before-2.json'), 'utf8')).toBe(after);
    await folder.done();
  });
});

/** A program that replaces the rack to and fro until it is killed, and says when it has begun. */
function replacingForEver(file: string): string {
  const beside = (name: string) => JSON.stringify(path.join(path.dirname(file), name));
  return `
    import { readFile, writeFile } from 'node:fs/promises';
    import { settleRack } from ${JSON.stringify(SETTLE)};
    let texts = [await readFile(${beside('before.json')}, 'utf8'), await readFile(${beside('after.json')}, 'utf8')];
    for (let i = 0; ; i++) {
      await settleRack(${JSON.stringify(file)}, texts[0], texts[1]);
      if (i === 0) console.log('begun');
      texts = [texts[1], texts[0]];
    }
  `;
}
