import { mkdir, mkdtemp, readdir, readlink, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { fileNameFor, writeWhole } from '../../src/cli/files.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'fretlay-files-'));
});
afterEach(() => rm(folder, { recursive: true }));

const FILES = [
  { name: 'layout.json', text: '{}' },
  { name: 'sheets/A-1.svg', text: '<svg/>' },
];

it('moves nothing into place where one of the files cannot be', async () => {
  await writeFile(path.join(folder, 'sheets'), 'a file');
  await expect(writeWhole(folder, FILES)).rejects.toThrow('a part of the path is a file');
  expect(await readdir(folder)).toEqual(['sheets']);
  await rm(path.join(folder, 'sheets'));
  await mkdir(path.join(folder, 'sheets/A-1.svg'), { recursive: true });
  await expect(writeWhole(folder, FILES)).rejects.toThrow('it is a folder');
  expect(await readdir(folder)).toEqual(['sheets']);
});

it('leaves no empty folder of sheets where one of the files cannot be written', async () => {
  await expect(writeWhole(folder, [...FILES, { name: 'x'.repeat(300), text: '' }])).rejects.toThrow(
    'cannot be written',
  );
  expect(await readdir(folder)).toEqual([]);
});

it('leaves no empty folder of sheets where one of the files would take the place of a folder', async () => {
  await mkdir(path.join(folder, 'layout.json'));
  await expect(writeWhole(folder, FILES)).rejects.toThrow('layout.json: cannot be replaced: it is a folder');
  expect(await readdir(folder)).toEqual(['layout.json']);
});

it('puts no file in the place of a device', async () => {
  await symlink('/dev/null', path.join(folder, 'layout.json'));
  await expect(writeWhole(folder, FILES)).rejects.toThrow(
    'layout.json: cannot be replaced: it is a device or a pipe',
  );
  expect(await readlink(path.join(folder, 'layout.json'))).toBe('/dev/null');
});

it('names the sheet of a board without the accents of its name, however they are stored', () => {
  expect(fileNameFor('Bört Nr. 1/2')).toBe('Bort-Nr.-1-2');
  expect(fileNameFor('Bört'.normalize('NFD'))).toBe('Bort');
  expect(fileNameFor('../Ångå')).toBe('Anga');
  expect(fileNameFor('чайка')).toBe('board');
});
