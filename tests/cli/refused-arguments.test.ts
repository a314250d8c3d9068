import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { measureCommand } from '../../src/cli/measure-command.ts';
import { planCommand } from '../../src/cli/plan-command.ts';
import { fixturePath } from './run-cli.ts';

const JOB = fixturePath('first-cut/job.json');
const PATTERN = fixturePath('first-cut/pattern.svg');

let folder = '';
let said = '';
const at = (name: string) => path.join(folder, name);

beforeEach(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'fretlay-refused-'));
  said = '';
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    said += text;
    return true;
  });
});
afterEach(async () => {
  vi.restoreAllMocks();
  await rm(folder, { recursive: true });
});

it.each([
  [{ scale: 'x' }, '--scale: "x" is not a scale'],
  [{ scale: '' }, '--scale: "" is not a scale'],
  [{ scale: '0' }, '--scale: "0" is not a scale'],
  [{ finishedWidth: 'wide' }, '--finished-width: "wide" is not a length'],
  [{ scale: '1e9' }, '--scale: a coordinate is outside'],
  [{ finishedWidth: '-3 in' }, '--finished-width: "-3 in" is no size'],
  [{ finishedWidth: '8' }, '--finished-width: "8" names no unit'],
])('measure tells the option that cannot be meant: %j', async (options, words) => {
  expect(await measureCommand(PATTERN, options)).toBe(2);
  expect(said).toContain(`Error: ${words}`);
});

it('measure asks for one way to scale', async () => {
  await expect(measureCommand(PATTERN, { scale: '1', finishedWidth: '8 in' })).rejects.toThrow(
    '--scale: both a scale and a finished width are stated',
  );
});

it('measure writes no picture over pattern or job, also by a link', async () => {
  await symlink(PATTERN, at('pattern.svg'));
  await symlink(JOB, at('job.json'));
  await expect(measureCommand(PATTERN, { picture: at('pattern.svg') })).rejects.toThrow(
    'place of the pattern',
  );
  await expect(measureCommand(PATTERN, { job: JOB, picture: at('job.json') })).rejects.toThrow(
    'place of the job',
  );
});

it('measure prints no table where the picture cannot be written', async () => {
  const printed = vi.spyOn(process.stdout, 'write').mockImplementation(() => true);
  await writeFile(at('taken'), '');
  expect(await measureCommand(PATTERN, { picture: at('taken/picture.svg') })).toBe(2);
  expect(said).toContain('cannot be written to');
  expect(printed).not.toHaveBeenCalled();
});

it.each([
  [
    { effort: '1e9' },
    '--effort: this value makes no sense (expected a number from 0 to 1000000, found "1e9")',
  ],
  [{ effort: '' }, '--effort: this value makes no sense'],
  [{ seed: '1.5' }, '--seed: this value makes no sense (expected a whole number'],
  [{ minutes: '-1' }, '--minutes: this value makes no sense'],
])('plan tells the option that cannot be meant: %j', async (options, words) => {
  expect(await planCommand(JOB, { out: folder, ...options })).toBe(2);
  expect(said).toContain(`Error: ${words}`);
});

it('plan puts no result in the place of what the job reads', async () => {
  await mkdir(at('sheets'));
  const rack = '{ "format": "fretlay-rack", "version": 1, "boards": [] }';
  await writeFile(at('rack-after.json'), rack);
  await writeFile(at('job.json'), JSON.stringify({ pattern: 'leaf.svg', rack: 'rack-after.json' }));
  await writeFile(at('leaf.svg'), await readFile(PATTERN));
  expect(await planCommand(at('job.json'), { out: folder })).toBe(2);
  expect(said).toContain(`--out: the results would take the place of ${at('rack-after.json')}`);
  expect(await readFile(at('rack-after.json'), 'utf8')).toBe(rack);
  await writeFile(at('sheets/leaf.svg'), await readFile(PATTERN));
  await writeFile(
    at('job.json'),
    JSON.stringify({ pattern: 'sheets/leaf.svg', boards: [{ id: 'A', length: 90, width: 90 }] }),
  );
  expect(await planCommand(at('job.json'), { out: folder })).toBe(2);
  expect(said).toContain(`--out: the results would take the place of ${at('sheets/leaf.svg')}`);
});

it('plan refuses to settle a rack that cannot be replaced, before the search', async () => {
  const rack = { format: 'fretlay-rack', version: 1, boards: [{ id: 'A', length: 300, width: 90 }] };
  await writeFile(at('rack.json'), JSON.stringify(rack));
  await writeFile(at('rack.json.incoming'), '');
  await writeFile(at('job.json'), JSON.stringify({ pattern: 'leaf.svg', rack: 'rack.json' }));
  await writeFile(at('leaf.svg'), await readFile(PATTERN));
  expect(await planCommand(at('job.json'), { out: at('out'), settleRack: true })).toBe(2);
  expect(said).toContain('another batch is being settled');
});

it('a size in the job that cannot be meant is told as a field of the job', async () => {
  const pattern = { file: 'leaf.svg', finishedSize: { layer: 'Sky', side: 'width', length: 90 } };
  await writeFile(at('job.json'), JSON.stringify({ pattern, boards: [{ id: 'A', length: 300, width: 90 }] }));
  await writeFile(at('leaf.svg'), await readFile(PATTERN));
  expect(await planCommand(at('job.json'), { out: at('out') })).toBe(2);
  expect(said).toContain('Error: job.json, pattern.finishedSize.layer: ');
});
