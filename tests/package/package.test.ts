import { execFileSync, spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkPackage, createPackageFromTarballData } from '@arethetypeswrong/core';
import { publint } from 'publint';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { installedPackages, licencePage } from './licences.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const manifest = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));

const SCRIPT = `import { readFileSync } from 'node:fs';
import { measurePattern, readPattern } from 'fretlay';
const { pattern } = readPattern(readFileSync(${JSON.stringify(path.join(root, 'fixtures/first-cut/pattern.svg'))}, 'utf8'));
console.log(pattern.layers[0].parts.length, measurePattern(pattern).cutLength.toFixed(1));
`;

/** Two threads share a search of two squares on a board; the program then ends by itself. */
const THREADED = `import { layOut } from 'fretlay';
import { startWorker } from 'fretlay/node-workers';
const square = (size) => [[0, 0], [size, 0], [size, size], [0, size]];
const demands = [{
  part: 'hut', layer: 'Shore', region: { outline: square(20), openings: [] }, veins: [], copiesPerSet: 1, species: 'lime',
  thickness: 6, rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
}];
const boards = [{ id: 'A', species: 'lime', thickness: 6, outline: square(60), defects: [], quantity: 1, price: 0 }];
const batch = {
  sets: 2, demands, boards, kerf: 1, clearance: 0, edgeMargin: 2, thicknessTolerance: 0.5, outlineTolerance: 0.05,
};
const { layout } = await layOut(batch, { effort: 0.01, workers: 2, startWorker });
console.log(layout.figures.completeSets);
`;

const TYPED = `import { type Board, type estimate, FretlayError, layOut, type Layout, type PagesOptions, readJob } from 'fretlay';
import { startWorker } from 'fretlay/node-workers';
import 'fretlay/search-worker';
const job = readJob('{}');
const kerf: number = job.kerf;
export async function plan(batch: Parameters<typeof layOut>[0]): Promise<Layout> {
  return (await layOut(batch, { effort: 0, startWorker: () => new Worker('search-worker.js') })).layout;
}
// What may be left out may be undefined.
export const board = (outline: Board['outline'], trim?: Board['trim']): Board => ({
  id: 'A', species: 'lime', thickness: 6, outline, defects: [], quantity: 1, price: 0, trim, strips: undefined,
});
export const pages: PagesOptions = { job: 'a', unit: 'mm', kerf: 1, plans: undefined, pageWidth: undefined };
export const rates: Parameters<typeof estimate>[1] = { labourPerHour: undefined };
export const onThreads: Parameters<typeof layOut>[1] = { workers: 2, startWorker };
// @ts-expect-error a job file is text
readJob(3);
export const told = (error: unknown): string => (error instanceof FretlayError ? error.issues[0].kind : String(kerf));
`;

describe('the package', () => {
  let folder: string;
  let tarball: string;
  /** What the program says; its complaints too when it fails. */
  const run = (program: string, ...args: string[]): string => {
    const { stdout, stderr, status } = spawnSync(program, args, { cwd: folder, encoding: 'utf8' });
    return status === 0 ? stdout : `${stdout}${stderr}`;
  };

  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'fretlay-package-'));
    execFileSync('npm', ['pack', '--ignore-scripts', '--pack-destination', folder], {
      cwd: root,
      stdio: 'ignore',
    });
    tarball = path.join(folder, readdirSync(folder).find((name) => name.endsWith('.tgz'))!);
    // As an installation leaves it; its dependencies are taken from here, so that no network is needed.
    const modules = path.join(folder, 'node_modules');
    mkdirSync(path.join(modules, 'fretlay'), { recursive: true });
    run('tar', 'xzf', tarball, '-C', path.join(modules, 'fretlay'), '--strip-components=1');
    for (const name of Object.keys(manifest.dependencies)) {
      const link = path.join(modules, name);
      mkdirSync(path.dirname(link), { recursive: true });
      symlinkSync(path.join(root, 'node_modules', name), link);
    }
    writeFileSync(path.join(folder, 'package.json'), '{ "private": true, "type": "module" }');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('works from plain JavaScript in a folder of its own', () => {
    writeFileSync(path.join(folder, 'measure.js'), SCRIPT);
    expect(run(process.execPath, 'measure.js')).toMatch(/^1 \d+\.\d\n$/);
  });

  it('searches on threads of Node with its entry for them, and leaves none running', () => {
    writeFileSync(path.join(folder, 'threads.js'), THREADED);
    expect(run(process.execPath, 'threads.js')).toBe('2\n');
  });

  it('has a command that runs', () => {
    expect(run(process.execPath, 'node_modules/fretlay/dist/cli/main.js', '--version').trim()).toBe(
      manifest.version,
    );
  });

  it('has types that a strict compiler resolves, its own declarations checked too', () => {
    writeFileSync(path.join(folder, 'plan.ts'), TYPED);
    const options = [
      '--strict',
      '--exactOptionalPropertyTypes',
      '--noEmit',
      '--target',
      'es2023',
      '--lib',
      'es2023,dom',
      '--module',
      'nodenext',
    ];
    const compiler = path.join(root, 'node_modules/typescript/bin/tsc');
    expect(run(process.execPath, compiler, ...options, 'plan.ts')).toBe('');
  });

  it('is clean by publint', async () => {
    const { messages } = await publint({
      pkgDir: path.join(folder, 'node_modules/fretlay'),
      strict: true,
      pack: false,
    });
    expect(messages).toEqual([]);
  });

  it('has no wrong types by are-the-types-wrong, for programs made of modules', async () => {
    const found = await checkPackage(createPackageFromTarballData(new Uint8Array(readFileSync(tarball))));
    expect(found.types).toBeTruthy();
    const problems = 'problems' in found ? found.problems : [];
    // Modules only: what CommonJS and the resolution of Node 10 would make of it is no concern.
    const ofModules = problems.filter(
      (problem) =>
        !('resolutionKind' in problem && ['node10', 'node16-cjs'].includes(problem.resolutionKind)),
    );
    expect(ofModules).toEqual([]);
  });

  const packedFiles = () =>
    run('tar', 'tzf', tarball)
      .trim()
      .split('\n')
      .map((name) => name.replace(/^package\//, ''));

  it('carries the built library, its pages and nothing else', () => {
    const others = packedFiles().filter(
      (name) => !/^(dist\/.*\.(js|d\.ts)|docs\/[a-z-]+\.md|docs\/browser\/.*)$/.test(name),
    );
    expect(others.sort()).toEqual(['LICENSE', 'README.md', 'docs/job.schema.json', 'package.json']);
    expect(statSync(tarball).size).toBeLessThan(900_000);
  });

  it('carries every page that its messages and its pages name', () => {
    // Pictures are as large as the rest together; tests, fixtures and how to work on the code are the repository's.
    const atHome = /^(docs\/images\/|tests\/|fixtures\/|DEVELOPERS\.md$)/;
    const files = packedFiles();
    const read = (name: string) => readFileSync(path.join(folder, 'node_modules/fretlay', name), 'utf8');
    const inMessages = files
      .filter((name) => name.endsWith('.js'))
      .flatMap((name) => read(name).match(/docs\/[a-z-]+\.(md|json)/g) ?? []);
    const inPages = files
      .filter((name) => name.endsWith('.md'))
      .flatMap((name) =>
        [...read(name).matchAll(/\]\(([^)#:]+)\)/g)].map(([, link]) =>
          path.posix.join(path.posix.dirname(name), link),
        ),
      );
    expect(inMessages).toContain('docs/layout-file.md');
    expect(inPages).toContain('docs/library.md');
    const named = new Set([...inMessages, ...inPages].filter((name) => !atHome.test(name)));
    expect([...named].filter((name) => !files.includes(name))).toEqual([]);
  });

  it('runs no script when it is installed, and neither does what comes with it', () => {
    for (const hook of ['preinstall', 'install', 'postinstall', 'prepare'])
      expect(manifest.scripts).not.toHaveProperty(hook);
    expect(installedPackages().filter(({ installScripts }) => installScripts.length > 0)).toEqual([]);
  });

  it('lists the licences of all that comes with it: docs/licences.md', async () => {
    const packages = installedPackages();
    expect(packages.length).toBeGreaterThan(25);
    // Licences that ask for no more than their notice, and weak ones of libraries used as they are.
    const known =
      /^(MIT|ISC|0BSD|BSD-[23]-Clause|Apache-2\.0|BSL-1\.0|CC0-1\.0|Unlicense|\(EDL-1\.0 OR EPL-1\.0\))$/;
    expect(packages.filter(({ licence }) => !known.test(licence))).toEqual([]);
    await expect(licencePage(packages)).toMatchFileSnapshot(path.join(root, 'docs/licences.md'));
  });
});
