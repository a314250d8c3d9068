import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Layout } from '../../src/index.ts';
import { fixturePath, folderWith, fretlay } from './run-cli.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path id="tile" d="M10 10H50V40H10Z"/></svg>';
const JOB = { pattern: 'p.svg', sets: 2, boards: [{ id: 'A', length: 300, width: 100 }] };

let folder: Awaited<ReturnType<typeof folderWith>>;

beforeAll(async () => {
  folder = await folderWith({
    'p.svg': SQUARE,
    'job.json': JSON.stringify(JOB),
    'no-shapes.svg': '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm"/>',
    'zero.svg': '<svg xmlns="http://www.w3.org/2000/svg" width="0" height="0"><path d="M0 0H5V5Z"/></svg>',
    'not.svg': 'This is a letter, not a drawing.',
    'broken.svg':
      '<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm">\n<path d="M0 0H5V5Z">\n</svg>',
  });
});
afterAll(() => folder.done());

describe('fretlay plan', () => {
  it('writes sheets, layout and report for the first cut, and says where', async () => {
    const out = folder.path('first-cut');
    const { code, stdout, stderr } = await fretlay('plan', fixturePath('first-cut/job.json'), '--out', out);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('1 of 1 sets complete');
    expect(stdout).toContain('report.html');
    expect(readdirSync(out).sort()).toEqual([
      'boards.pdf',
      'cuts.csv',
      'layout.json',
      'parts.csv',
      'report.html',
      'sheets',
      'workings.txt',
    ]);
    expect(readdirSync(`${out}/sheets`)).toEqual(['Offcut-1.svg']);
    const verified = await fretlay(
      ...['verify', `${out}/layout.json`, '--job', fixturePath('first-cut/job.json')],
    );
    expect(verified.code).toBe(0);
    expect(verified.stdout).toContain('Right: no rule broken');
  });

  it.each([
    ['--out', ['--out', '']],
    ['--settle-rack', ['--out', 'settled', '--settle-rack']],
  ])('refuses %s that cannot be meant, and writes nothing', async (name, options) => {
    const { code, stderr } = await fretlay('plan', fixturePath('first-cut/job.json'), ...options);
    expect(code).toBe(2);
    expect(stderr).toContain(`Error: ${name}: `);
    expect(existsSync('report.html') || existsSync('settled')).toBe(false);
  });

  it('tells what is wrong with a job in its unit', async () => {
    const pattern = readFileSync(fixturePath('first-cut/pattern.svg'), 'utf8');
    writeFileSync(folder.path('leaf.svg'), pattern);
    const board = { id: 'A', thickness: '1/4 in', length: '10 in', width: '6 in' };
    const pin = { layer: 'Leaf', part: 'leaf', board: 'A', at: ['9 in', '1 in'] };
    const job = { pattern: 'leaf.svg', unit: 'in', boards: [board], pinned: [pin] };
    writeFileSync(folder.path('pinned.json'), JSON.stringify(job));
    const { code, stderr } = await fretlay('plan', folder.path('pinned.json'), '--out', folder.path('none'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/at least 0\.118 in .* from 0 to 10 in from the left end .* found 9 to/);
  });

  it('stops searching when the minutes are over, and says so', async () => {
    const { code, stderr, stdout } = await fretlay(
      ...['plan', fixturePath('first-cut/job.json'), '--out', folder.path('in-no-time'), '--minutes', '0'],
    );
    expect({ code, stderr }).toEqual({
      code: 0,
      stderr: 'Stopped early: this is the best layout found until then.\n',
    });
    expect(stdout).toContain('1 of 1 sets complete');
  });

  it('ends with 1 and says which copies found no place', async () => {
    const small = { ...JOB, sets: 60 };
    writeFileSync(folder.path('many.json'), JSON.stringify(small));
    const { code, stdout, stderr } = await fretlay(
      'plan',
      folder.path('many.json'),
      '--out',
      folder.path('many'),
      '--effort',
      '0',
    );
    expect(code).toBe(1);
    expect(stderr).toMatch(/tile/);
    expect(stdout).toMatch(/of 60 sets complete/);
    const layout: Layout = JSON.parse(readFileSync(folder.path('many/layout.json'), 'utf8'));
    expect(layout.unplaced.length).toBeGreaterThan(0);
    expect(layout.unplaced[0].why).toBeTruthy();
  });

  it.each([
    ['no such job', undefined, /there is no such file/],
    ['a job that is not JSON', '{', /not JSON/],
    ['a negative kerf', { ...JOB, kerf: -1 }, /kerf.*at least 0/s],
    [
      'a pattern that is not there',
      { ...JOB, pattern: 'gone.svg' },
      /gone\.svg: .*"pattern" of bad\.json names it/,
    ],
    ['a rack that is not there', { ...JOB, rack: 'gone.json' }, /gone\.json: .*"rack" of bad\.json names it/],
    ['a folder for a pattern', { ...JOB, pattern: '.' }, /it is a folder.*"pattern" of bad\.json/],
    [
      'a pattern that is not XML',
      { ...JOB, pattern: 'not.svg' },
      /not well-formed|no svg element|not an SVG/,
    ],
    ['a pattern with broken XML', { ...JOB, pattern: 'broken.svg' }, /:3/],
    ['a pattern without shapes', { ...JOB, pattern: 'no-shapes.svg' }, /no part/],
    ['a pattern of no size', { ...JOB, pattern: 'zero.svg' }, /no (part|area|physical size)|width/],
    [
      'a part larger than every board',
      { ...JOB, boards: [{ id: 'A', length: 30, width: 20 }] },
      /larger than every board/,
    ],
    ['an unknown layer', { ...JOB, layers: { Sky: { species: 'ebony' } } }, /does not have/],
    ['a misspelt field', { ...JOB, boreds: [] }, /boreds/],
  ])('refuses %s with exit code 2 and writes nothing', async (name, job, message) => {
    const file = folder.path('bad.json');
    if (job === undefined) expect(existsSync(folder.path('none.json'))).toBe(false);
    else writeFileSync(file, typeof job === 'string' ? job : JSON.stringify(job));
    const out = folder.path(`out-${name.replace(/\W+/g, '-')}`);
    const { code, stdout, stderr } = await fretlay(
      'plan',
      job === undefined ? folder.path('none.json') : file,
      '--out',
      out,
    );
    expect(code, stderr).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(message);
    expect(stderr).not.toContain('at file:');
    expect(existsSync(out)).toBe(false);
  });

  it('takes the page of a drawing without a size to be as large as the job says', async () => {
    writeFileSync(folder.path('unsized.svg'), SQUARE.replace('width="100mm" height="100mm" ', ''));
    const unsized = { ...JOB, pattern: { file: 'unsized.svg' } };
    writeFileSync(folder.path('unsized.json'), JSON.stringify(unsized));
    const refused = await fretlay('plan', folder.path('unsized.json'), '--out', folder.path('unsized'));
    expect(refused.code).toBe(2);
    expect(refused.stderr).toMatch(/no physical size.*finishedSize/s);
    const sized = { ...JOB, pattern: { file: 'unsized.svg', drawnSize: { width: '4 in' } } };
    writeFileSync(folder.path('sized.json'), JSON.stringify(sized));
    const { code } = await fretlay(
      'plan',
      folder.path('sized.json'),
      '--out',
      folder.path('sized'),
      '--effort',
      '0',
    );
    expect(code).toBe(0);
    const layout: Layout = JSON.parse(readFileSync(folder.path('sized/layout.json'), 'utf8'));
    // 40 x 30 of 100 drawn units on a page of 101.6 mm.
    expect(layout.figures.partArea).toBeCloseTo(2 * 1200 * 1.016 ** 2, 2);
  });

  it('leaves earlier results as they are when a later run is refused', async () => {
    const out = folder.path('kept');
    await fretlay('plan', folder.path('job.json'), '--out', out);
    const before = readFileSync(`${out}/layout.json`, 'utf8');
    writeFileSync(folder.path('bad.json'), JSON.stringify({ ...JOB, kerf: -1 }));
    const { code } = await fretlay('plan', folder.path('bad.json'), '--out', out);
    expect(code).toBe(2);
    expect(readFileSync(`${out}/layout.json`, 'utf8')).toBe(before);
  });

  it('takes stale sheets of an earlier run away, and nothing else', async () => {
    const out = folder.path('twice');
    const two = { ...JOB, sets: 30, boards: [{ id: 'A', length: 300, width: 100, quantity: 3 }] };
    writeFileSync(folder.path('two.json'), JSON.stringify(two));
    await fretlay('plan', folder.path('two.json'), '--out', out, '--effort', '0');
    expect(readdirSync(`${out}/sheets`).length).toBeGreaterThan(1);
    writeFileSync(`${out}/sheets/my-notes.svg`, 'mine');
    await fretlay('plan', folder.path('job.json'), '--out', out, '--effort', '0');
    expect(readdirSync(`${out}/sheets`).sort()).toEqual(['A-1.svg', 'my-notes.svg']);
  });

  it('refuses a folder it cannot write to and leaves no crumbs', async () => {
    const { code, stderr } = await fretlay('plan', folder.path('job.json'), '--out', folder.path('p.svg'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/cannot be written/);
    expect(readFileSync(folder.path('p.svg'), 'utf8')).toBe(SQUARE);
  });

  it('keeps hostile board ids inside the folder', async () => {
    writeFileSync(
      folder.path('hostile.json'),
      JSON.stringify({ ...JOB, boards: [{ id: '../../../escape <b>', length: 300, width: 100 }] }),
    );
    const out = folder.path('hostile');
    const { code } = await fretlay('plan', folder.path('hostile.json'), '--out', out);
    expect(code).toBe(0);
    expect(readdirSync(`${out}/sheets`)).toEqual(['escape-b-1.svg']);
    expect(existsSync(folder.path('../escape'))).toBe(false);
  });
});

describe('fretlay measure', () => {
  it('prints a table, or JSON that other programs can read', async () => {
    const table = await fretlay('measure', folder.path('p.svg'));
    expect(table.code).toBe(0);
    expect(table.stdout).toMatch(/tile +40 mm +30 mm +12\.00/);
    const json = JSON.parse((await fretlay('measure', folder.path('p.svg'), '--json')).stdout);
    expect(json.set.area).toBeCloseTo(1200, 6);
    expect(json.set.cutLength).toBeCloseTo(140, 6);
  });

  it('scales to a finished width', async () => {
    const { stdout } = await fretlay('measure', folder.path('p.svg'), '--json', '--finished-width', '8 in');
    expect(JSON.parse(stdout).set.bounds.maxX - JSON.parse(stdout).set.bounds.minX).toBeCloseTo(203.2, 6);
  });

  it('draws a picture of what the saw will have trouble with', async () => {
    const file = folder.path('marked.svg');
    const { code, stderr } = await fretlay('measure', folder.path('p.svg'), '--picture', file);
    expect(code).toBe(0);
    expect(stderr).toMatch(/^1 places? for the saw to watch/);
    expect(readFileSync(file, 'utf8')).toContain('too small to hold');
  });

  it('reads a compressed drawing', async () => {
    const file = folder.path('p.svgz');
    writeFileSync(file, gzipSync(SQUARE));
    const { stdout } = await fretlay('measure', file, '--json');
    expect(JSON.parse(stdout).set.area).toBeCloseTo(1200, 6);
  });

  it('takes no option for the name of a file, and begins every refusal alike', async () => {
    const { code, stderr } = await fretlay('measure', folder.path('p.svg'), '--picture', '--json');
    expect(code).toBe(2);
    expect(stderr).toMatch(/^Error: option '--picture .*A name is missing/);
    expect(existsSync('--json')).toBe(false);
  });
});

describe('fretlay verify', () => {
  it('ends with 1 and names the breach of a layout that was tampered with', async () => {
    await fretlay('plan', folder.path('job.json'), '--out', folder.path('tampered'));
    const file = folder.path('tampered/layout.json');
    const layout = JSON.parse(readFileSync(file, 'utf8'));
    const [first, second] = layout.boards[0].placements;
    layout.boards[0].placements[1] = { ...first, set: second.set };
    writeFileSync(file, JSON.stringify(layout));
    const { code, stdout, stderr } = await fretlay('verify', file);
    expect(code).toBe(1);
    expect(stdout).toContain('Wrong');
    // A layout file names no unit of its reader.
    expect(stderr).toMatch(/too close.* mm or .* in/);
  });

  it('refuses a file that is no layout', async () => {
    const { code, stderr } = await fretlay('verify', folder.path('job.json'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/not a layout file/);
  });
});

describe('help', () => {
  it('tells the commands and the exit codes', async () => {
    const { code, stdout } = await fretlay('--help');
    expect(code).toBe(0);
    for (const word of ['measure', 'plan', 'verify', 'Exit codes']) expect(stdout).toContain(word);
  });

  it('helps with a misspelt command', async () => {
    const { code, stderr } = await fretlay('plna');
    expect(code).toBe(2);
    expect(stderr).toMatch(/Did you mean plan/);
  });
});
