import { execFile } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FretlayError, type Layout, readJob, runJob } from '../../src/index.ts';

const NAMES = ['constructor', 'valueOf', 'toString', 'hasOwnProperty'];
const main = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** A pattern with a layer of each name, holding one part of the same name. */
const PATTERN = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"
  width="200mm" height="50mm" viewBox="0 0 200 50">${NAMES.map(
    (name, i) =>
      `<g inkscape:groupmode="layer" inkscape:label="${name}" id="layer${i}"><path id="${name}" d="M${5 + 50 * i} 5h30v20h-30Z"/></g>`,
  ).join('')}</svg>`;

const JOB = `{ "pattern": "p.svg", "sets": 2,
  "layers": { ${NAMES.map((name) => `"${name}": { "species": "${name}", "grain": "along" }`).join(', ')} },
  "boards": [${NAMES.map((name) => `{ "id": "${name}", "species": "${name}", "length": 100, "width": 60 }`).join(', ')}] }`;

describe('layers, parts, species and boards named after what objects inherit', () => {
  it('are names like any other, and change no object', async () => {
    const before = Object.getOwnPropertyNames(Object.prototype);
    const { layout, verification, pattern } = await runJob(readJob(JOB), PATTERN, { effort: 0 });
    expect(pattern.layers.map(({ name }) => name)).toEqual(NAMES);
    expect(verification.breaches).toEqual([]);
    expect(layout.figures.completeSets).toBe(2);
    for (const { species, placements } of layout.boards)
      for (const { layer } of placements) expect(layer).toBe(species);
    expect(Object.keys(layout.figures.bySpecies).sort()).toEqual([...NAMES].sort());
    expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(before);
  });

  it('a layer named __proto__ takes no rules: they are left alone or refused, and no object changes', async () => {
    const before = Object.getOwnPropertyNames(Object.prototype);
    const svg = PATTERN.replaceAll('constructor', '__proto__');
    const board = '{ "id": "__proto__", "species": "__proto__", "length": 400, "width": 60 }';
    const text = `{ "pattern": "p.svg", "__proto__": { "kerf": 9 }, "layers": { "__proto__": { "grain": "along" } }, "boards": [${board}] }`;
    const told = await Promise.resolve()
      .then(() => runJob(readJob(text), svg, { effort: 0 }))
      .then(
        ({ layout }) => layout.kerf,
        (error) => error,
      );
    expect(told instanceof FretlayError || told !== 9).toBe(true);
    const { layout } = await runJob(readJob(`{ "pattern": "p.svg", "boards": [${board}] }`), svg, {
      effort: 0,
    });
    expect(layout.figures.completeSets).toBe(1);
    expect(new Set(layout.boards.map(({ species }) => species))).toEqual(new Set(['__proto__']));
    expect(Object.keys(layout.figures.bySpecies)).toEqual(['__proto__']);
    expect(JSON.parse(JSON.stringify(layout)).figures.bySpecies).toEqual(layout.figures.bySpecies);
    expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(before);
  });
});

describe('the command with hostile names', () => {
  let folder: string;
  const inside = (...names: string[]) => path.join(folder, ...names);
  /** Any use of the network throws, and is told on stderr. */
  const GUARD = `import net from 'node:net'; import dns from 'node:dns'; import dgram from 'node:dgram';
    const refuse = () => { process.stderr.write('NETWORK'); throw new Error('NETWORK'); };
    net.Socket.prototype.connect = refuse; dns.lookup = refuse; dgram.createSocket = refuse; globalThis.fetch = refuse;`;
  const plan = (job: string) =>
    promisify(execFile)(process.execPath, [
      '--import',
      `data:text/javascript,${encodeURIComponent(GUARD)}`,
      main,
      'plan',
      job,
      '--out',
      inside('a/out'),
      '--effort',
      '0',
    ]);

  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'fretlay-names-'));
    mkdirSync(inside('a/out'), { recursive: true });
    writeFileSync(
      inside('a/p.svg'),
      PATTERN.replace(
        '</svg>',
        '<image href="http://192.0.2.1/x.png"/><style>@import url(http://192.0.2.1/x.css);</style></svg>',
      ),
    );
    writeFileSync(inside('a/job.json'), JOB.replaceAll('"id": "', '"id": "../../../../'));
    writeFileSync(inside('victim.svg'), 'mine');
    // What an earlier run is said to have left behind is taken away: it must not reach out of the folder either.
    const earlier = {
      format: 'fretlay-layout',
      boards: [
        { id: '../../victim', placements: [1] },
        { id: '../victim', placements: [1] },
      ],
    };
    writeFileSync(inside('a/out/layout.json'), JSON.stringify(earlier));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('writes nothing outside its folder, removes nothing there, and asks nothing of any network', async () => {
    const { stderr } = await plan(inside('a/job.json'));
    expect(stderr).not.toContain('NETWORK');
    expect(readdirSync(folder).sort()).toEqual(['a', 'victim.svg']);
    expect(readdirSync(inside('a')).sort()).toEqual(['job.json', 'out', 'p.svg']);
    expect(readFileSync(inside('victim.svg'), 'utf8')).toBe('mine');
    expect(existsSync(inside('a/out/layout.json'))).toBe(true);
    const layout: Layout = JSON.parse(readFileSync(inside('a/out/layout.json'), 'utf8'));
    expect(layout.figures.completeSets).toBe(2);
    for (const sheet of readdirSync(inside('a/out/sheets'))) expect(sheet).toMatch(/^[A-Za-z0-9-]+\.svg$/);
  });

  it('tells each thing in a line of its own, and nothing that a terminal would act on', async () => {
    const hostile = 'B\u001b[2J\nError: \u202eforged\u009b31m';
    const board = { id: hostile, species: hostile, length: 50, width: 60 };
    const blade = { name: hostile, width: 1.2, thickness: 0.4 };
    writeFileSync(
      inside('a/told.json'),
      JSON.stringify({
        ...{ pattern: 'p.svg', design: hostile, sets: 2, boards: [board], work: { blades: [blade] } },
        costs: { currency: 'a\u001b[1m', channels: [{ name: hostile }] },
      }),
    );
    const { stdout, stderr } = await plan(inside('a/told.json')).catch((error) => error);
    const workings = readFileSync(inside('a/out/workings.txt'), 'utf8');
    for (const told of [stdout, stderr, workings]) {
      expect(told).toContain('B[2J Error: forged31m');
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
      expect(told).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]|^Error: f/m);
    }
  });
});
