import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatIssue } from '../../src/issues/issue.ts';
import { jobJsonSchema } from '../../src/job/job-schema.ts';
import { readRack } from '../../src/job/rack.ts';
import { readJob, tryReadJob } from '../../src/job/read-job.ts';
import { readLayout } from '../../src/job/read-layout.ts';

const board = { id: 'A', length: '24 in', width: '6 in' };
const least = { pattern: 'pattern.svg', boards: [board] };
const issuesOf = (job: unknown) => tryReadJob(typeof job === 'string' ? job : JSON.stringify(job)).issues;

describe('readJob', () => {
  it('fills every default of a job with only a pattern, one board and a number of sets', () => {
    const job = readJob(JSON.stringify({ ...least, sets: 3 }));
    expect(job).toMatchObject({
      sets: 3,
      unit: 'in',
      kerf: 1,
      clearance: 0.5,
      edgeMargin: 3,
      pattern: { file: 'pattern.svg', joinGap: 0.2, innerShapes: 'unite' },
    });
    expect(job.boards[0]).toMatchObject({ quantity: 1, defects: [], thickness: 19 });
    expect(job.boards[0].length).toBeCloseTo(609.6, 9);
  });

  it('fills in of a blade and a time of your own what docs/job-file.md says', () => {
    const own = { name: 'Mine', width: '3 mm', thickness: '4 mm' };
    const { blades, times } = readJob(
      JSON.stringify({ ...least, work: { blades: [own], times: { setUp: 20, gluing: [1, 5] } } }),
    ).work;
    // The diagonal of 3 x 4 mm is 5 mm.
    expect(blades).toEqual([
      expect.objectContaining({ hole: 6.5, kerf: 4.08, kerfMeasured: false, teethPerInch: 12 }),
    ]);
    // A fifth less to a quarter more.
    expect(times).toEqual({
      setUp: { low: 16, likely: 20, high: 25 },
      gluing: { low: 1, likely: 3, high: 5 },
    });
  });

  it('takes inches for its unit where all lengths are written in them and none is stated', () => {
    const unitOf = (fields: object) => readJob(JSON.stringify({ ...least, ...fields })).unit;
    const sized = (length: string | number) => ({ boards: [{ ...board, length }] });
    expect(['24 in', '6\' 2"', '2 ft', '24"', '5½ inches'].map((length) => unitOf(sized(length)))).toEqual(
      Array(5).fill('in'),
    );
    expect(unitOf(sized('61 cm'))).toBe('mm');
    expect(unitOf({ kerf: '1 mm' })).toBe('mm');
    expect(unitOf({ boards: [{ ...board, length: 610, width: 150 }], design: 'The mill in' })).toBe('mm');
    // Plain numbers are mm: wood sold by the inch makes no job in inches, nor does a name that reads like a length.
    const inMm = { length: 900, width: 180 };
    expect(unitOf({ boards: [{ ...board, ...inMm, thickness: '3/4 in' }] })).toBe('mm');
    expect(unitOf({ boards: [{ ...board, ...inMm, thickness: '4/4' }], design: '12 in' })).toBe('mm');
    expect(unitOf({ edgeMargin: 0, layers: { Sky: { thickness: '4/4' } }, design: '300 mm' })).toBe('in');
    expect(unitOf({ unit: 'mm' })).toBe('mm');
  });

  it('reads lengths as people write them, and nominal thickness', () => {
    const job = readJob(
      JSON.stringify({
        ...least,
        kerf: '1/32 in',
        layers: { Sky: { thickness: '4/4' } },
        boards: [{ ...board, thickness: '3/4 in' }],
      }),
    );
    expect(job.kerf).toBeCloseTo(0.79375, 9);
    expect(job.layers.Sky.thickness).toBeCloseTo(20.6375, 9);
    expect(job.boards[0].thickness).toBeCloseTo(19.05, 9);
  });

  it.each([
    ['kerf', { ...least, kerf: '-1 mm' }, 'kerf', /at least 0/],
    ['a length without its unit', { ...least, kerf: '1/32' }, 'kerf', /names no unit/],
    ['a power of ten without a unit', { ...least, kerf: '1e0' }, 'kerf', /names no unit/],
    [
      'a bottom on the edge with the grain across',
      { ...least, layers: { Sky: { grain: 'across', restEdge: true } } },
      'layers.Sky.restEdge',
      /lies along the board/,
    ],
    ['a length that is none', { ...least, clearance: 'thin' }, 'clearance', /not a length/],
    ['a board of no width', { ...least, boards: [{ ...board, width: 0 }] }, 'boards[0].width', /more than 0/],
    [
      'a misspelt field',
      { ...least, boards: [{ ...board, quantitty: 2 }] },
      'boards[0].quantitty',
      /"quantity"/,
    ],
    ['a misspelt rule', { ...least, layers: { Sky: { Grian: 'free' } } }, 'layers.Sky.Grian', /"grain"/],
    [
      'a field of another word',
      { ...least, colour: 'red' },
      'colour',
      /^there is no such field one of "\$schema", .* and \d+ more$/,
    ],
    ['an empty name', { ...least, boards: [{ ...board, id: ' ' }] }, 'boards[0].id', /empty/],
    ['half a set', { ...least, sets: 1.5 }, 'sets', /whole number/],
    ['too many sets', { ...least, sets: 1e6 }, 'sets', /at most 10000/],
    ['a missing name', { ...least, boards: [{ length: 5, width: 5 }] }, 'boards[0].id', /missing/],
    ['a board without a size', { ...least, boards: [{ id: 'A' }] }, 'boards[0]', /length/],
    ['time', { ...least, work: { times: { sewing: 3 } } }, 'work.times.sewing', /did you mean "sawing"/],
    [
      'a log of nothing',
      { ...least, work: { log: [{ minutes: 9 }] } },
      'work.log[0]',
      /"cutLength" or "amounts"/,
    ],
    [
      'a log of none of the work it names',
      { ...least, work: { log: [{ minutes: 9, amounts: { drilling: 0 } }] } },
      'work.log[0]',
      /"cutLength" or "amounts"/,
    ],
    [
      'a knot without its size',
      { ...least, boards: [{ ...board, defects: [{ at: [9, 2] }] }] },
      'boards[0].defects[0].diameter',
      /^this field is missing/,
    ],
    ['a kerf of no blade', { ...least, kerf: 'blade' }, 'work.blade', /^"kerf" is to be that of the blade: /],
    ['a date', { ...least, boards: [{ ...board, since: 'March' }] }, 'boards[0].since', /a date such as/],
    [
      'a day',
      { ...least, boards: [{ ...board, since: '2026-02-29' }] },
      'boards[0].since',
      /a day that there is/,
    ],
    ['no boards', { ...least, boards: [] }, 'boards', /one board/],
    ['sets of zero', { ...least, sets: 0 }, 'sets', /at least 1/],
    ['sets as text', { ...least, sets: 'many' }, 'sets', /number/],
    ['an unknown grain', { ...least, layers: { Sky: { grain: 'diagonal' } } }, 'layers.Sky.grain', /along/],
    ['an unknown version', { ...least, version: 2 }, 'version', /1/],
    ['a list', [], '(top level)', /fields/],
    ['nothing', null, '(top level)', /fields/],
  ])('names the field of a wrong %s', (_, job, field, message) => {
    const issues = issuesOf(job);
    const issue = issues.find(({ where }) => where?.field === field);
    expect(issue, JSON.stringify(issues)).toBeDefined();
    expect(`${issue?.message} ${issue?.expected}`).toMatch(message);
    expect(issue?.remedy).toBeTruthy();
    expect(issue?.where?.file).toBe('job.json');
  });

  it('reports every wrong field at once', () => {
    expect(issuesOf({ ...least, kerf: -1, sets: 0 }).map(({ where }) => where?.field)).toEqual([
      'sets',
      'kerf',
    ]);
  });

  it('says where a file stops being JSON', () => {
    const [issue] = issuesOf('{\n  "pattern": pattern.svg\n}');
    expect(issue).toMatchObject({ kind: 'not-json', where: { line: 2 } });
    expect(issuesOf('')[0].kind).toBe('not-json');
    // Deep enough to run a parser out of its stack; brackets in a text count nothing.
    for (const deep of [`${'{"a":'.repeat(9000)}1${'}'.repeat(9000)}`, '['.repeat(9000)])
      expect(issuesOf(deep)[0].message).toBe('brackets stand within brackets deeper than in any such file');
    expect(issuesOf(`{"design":"\\"${'['.repeat(150)}"}`)[0].where?.field).toBe('pattern');
  });

  it('names the comma of a decimal, and the one that nothing follows', () => {
    const told = (text: string) => formatIssue(issuesOf(text)[0]);
    for (const text of ['{"kerf":0,9}', '{"pattern": "p.svg",\n"kerf": 0,9, "sets": 2}'])
      expect(told(text)).toMatch(/: 0,9 is written with a comma.*Write a point for the decimals: 0\.9\./);
    for (const text of ['{"boards":[{"id":"A"},]}', '{"sets": 2,\n}'])
      expect(told(text)).toMatch(/there is a comma before [}\]], and nothing after it.*Take the comma away/);
    expect(told('{"sets": }')).not.toContain('comma');
  });

  it('names a comma too many, between two values or in front of them', () => {
    const told = (text: string) => formatIssue(issuesOf(text)[0]);
    const twice =
      /there is a comma behind another one.*Take the comma away, or write what is missing before it/;
    for (const text of [
      '{"sets": 2,, "seed": 1}',
      '{"sets": 2,\n, "seed": 1}',
      '{"boards": [{"id": "A"},,{"id": "B"}]}',
    ])
      expect(told(text)).toMatch(twice);
    expect(told('{,"sets": 2}')).toContain('there is a comma right after {');
    expect(told('{"boards": [,{"id": "A"}]}')).toContain('there is a comma right after [');
    expect(told('{"sets":,"seed": 1}')).not.toContain('there is a comma');
  });

  it('knows files of word processors, curly quotes, and an inch mark within a text', () => {
    const told = (text: string) => formatIssue(issuesOf(text)[0]);
    for (const text of ['{\\rtf1\\ansi {"a": 1}}', 'PK\u0003\u0004word'])
      expect(told(text)).toMatch(
        /^job\.json: this is a document of a word processor, not a job file.*plain text/,
      );
    for (const [text, place] of [
      ['{\n “sets”: 2 }', '2:2'],
      ['{"design": "Heron”,\n"sets": 2}', '1:12'],
      ['{"design": „Heron“}', '1:12'],
    ])
      expect(told(text)).toMatch(new RegExp(`^job\\.json:${place}: .*: [“”„] is no quote .*straight quotes`));
    for (const text of ['{"width": "5-1/2"",\n"sets": 2}', '{"width": "5-1/2" wide"}'])
      expect(told(text)).toMatch(
        /a mark of inches ends the text.*Write an inch mark within a text as \\" or as in/,
      );
    for (const text of ['{"width": "5 in"\n"sets": 2}', '{"width": "5-1/2 in'])
      expect(told(text)).not.toMatch(/inches|straight/);
  });

  it('knows quotes that are missing or single, and remarks', () => {
    const told = (text: string) => formatIssue(issuesOf(text)[0]);
    for (const [text, bare] of [
      ['{"kerf": 1/32 in, "sets": 2}', '1/32 in'],
      ['{"kerf": 0.8mm\n}', '0.8mm'],
      ['{"size": 5-1/2 in}', '5-1/2 in'],
      ['{"size": [2½ in]}', '2½ in'],
      ['{"sets": 2, unit: "in"}', 'unit'],
      ['{"unit": in}', 'in'],
      ['{"species": black walnut,\n"sets": 2}', 'black walnut'],
    ])
      expect(told(text)).toMatch(new RegExp(`: ${bare} has no quotes .*Write it in quotes: "${bare}"\\.$`));
    expect(told("{'sets': 2}")).toMatch(/'sets' has single quotes .*Write double quotes: "sets"\.$/);
    expect(told('{"sets": 2 // two\n}')).toMatch(/remarks are not JSON .*Take the remark away\.$/);
    // No remark, no text that is meant, and a text that does end.
    for (const text of ['{"design": #ff0000}', '{"kerf": Infinity}', `{"design": "${'x'.repeat(450)}\\q y"}`])
      expect(told(text)).not.toMatch(/remark|quotes|does not end/);
    expect(told('{\n"design": "Heron,\n"sets": 2}')).toMatch(
      /^job\.json:2:11: .*: the text that begins here does not end on its line .*Write " at its end\.$/,
    );
    for (const text of [
      '{"sets": 010}',
      '{"a": True}',
      '{"a": NaN}',
      '{"sets" 2}',
      '{"a": "b" "c": 1}',
      '{"a": [1 2]}',
    ])
      expect(told(text)).not.toMatch(/quotes|remark/);
  });

  it('tells a drawing and a report from a job file', () => {
    expect(issuesOf('<svg xmlns="http://www.w3.org/2000/svg"/>')[0]).toMatchObject({
      kind: 'not-json',
      message: 'this is a drawing, not a job file',
    });
    expect(issuesOf('<!doctype html><html lang="en"><svg/></html>')[0].message).toBe(
      'this is a page for a browser, not a job file',
    );
  });

  it('says apart what was expected and what was found', () => {
    const told = (fields: object) => formatIssue(issuesOf(JSON.stringify({ ...least, ...fields }))[0]);
    const board = { id: 'A', length: 100, width: 50 };
    expect(told({ boards: [{ ...board, price: '$38' }] })).toContain(
      'boards[0].price: this is of the wrong type (expected a number without its currency, such as 38, or',
    );
    expect(told({ boards: [{ ...board, price: { amount: 7.5e20, per: 'board foot' } }] })).toContain(
      'boards[0].price.amount: this number is too large (expected at most 1000000000, found 750000000000000000000)',
    );
    expect(told({ boards: [{ ...board, thickness: 'thick' }] })).toContain(
      '"thick" is not a length (expected a length such as "19 mm" or "3/4 in", found "thick")',
    );
    expect(told({ kerf: -1 })).toContain('this length is too small (expected at least 0, found -1)');
    const thick = (thickness: number | string) => told({ layers: { Lake: { thickness } } });
    expect(thick(1e-6)).toContain(
      'layers.Lake.thickness: this thickness is too small (expected at least 0.1 mm, found 0.000001)',
    );
    expect(thick('50 m')).toContain('this thickness is too large (expected at most 1000 mm, found "50 m")');
    for (const place of ['boards', 'forSale'])
      expect(told({ [place]: [{ ...board, thickness: '0.003 in' }] })).toContain(
        `${place}[0].thickness: this thickness is too small (expected at least 0.1 mm, found "0.003 in")`,
      );
    const thin = { pattern: 'p.svg', boards: [{ ...board, thickness: 0.1 }] };
    expect(readJob(JSON.stringify(thin)).boards[0].thickness).toBe(0.1);
    expect(told({ boards: [{ ...board, width: '-5 in' }] })).toContain(
      '(expected more than 0, found "-5 in")',
    );
    expect(told({ boards: [{ ...board, sheet: '24x48' }] })).toContain(
      'this value is not known (expected "5x5", "4x8", or true beside "length" and "width", found "24x48")',
    );
    // A rule about several fields sees them with defaults and in mm: nobody wrote those.
    expect(told({ boards: [{ id: 'A', width: '6 in' }] })).toContain(
      'or a named "sheet". See docs/job-file.md',
    );
    expect(told({ paper: { size: { roll: '6 m' } } })).toContain('at most 5080 mm');
    expect(told({ paper: { size: 'Letter' } })).toContain('did you mean "letter"? (expected one of "letter"');
    const meant = (fields: object) => /did you mean "(.*?)"/.exec(told(fields))?.[1];
    expect([{ unit: 'inch' }, { unit: 'Millimetres' }, { kerf: 'Blade' }].map(meant)).toEqual([
      'in',
      'mm',
      'blade',
    ]);
    const sheets = ['4X8', '4 x 8', '8x4', '4x9'].map((sheet) => ({ boards: [{ id: 'S', sheet }] }));
    expect(sheets.map(meant)).toEqual(['4x8', '4x8', '4x8', undefined]);
    // A question is its own full stop.
    expect(told({ kerff: 1 })).toContain('did you mean "kerf"? See docs/job-file.md');
  });

  it('tells the faults of an offer by its own form alone, by size or by grade', () => {
    const fields = (offer: object) =>
      issuesOf({ ...least, forSale: [{ id: 'S', species: 'basswood', ...offer }] }).map(
        ({ where }) => where?.field,
      );
    expect(fields({ grade: 'FAS', nominal: '4/4', price: -1 })).toEqual(['forSale[0].price']);
    expect(fields({ lenght: 800, width: 200 })).toEqual(['forSale[0].lenght', 'forSale[0]']);
  });

  it('tells which fields do not go together, and not that a field was meant to be itself', () => {
    const told = (fields: object) => issuesOf({ ...least, ...fields }).map(({ message }) => message);
    const graded = { id: 'S', grade: 'FAS', nominal: '4/4', length: '8 ft' };
    expect(told({ forSale: [graded] })).toEqual([
      'this field does not go with "grade": leave out the one or the other',
    ]);
    expect(told({ boards: [{ ...board, defects: [{ at: [1, 2], diameter: 3, outline: [] }] }] })).toEqual([
      'this field does not go with "at" and "diameter": leave out the one or the other',
    ]);
  });

  it('names the kind of file that is wanted where a drawing is handed in', () => {
    const drawing = '<svg xmlns="http://www.w3.org/2000/svg"/>';
    expect(() => readLayout(drawing, 'x.svg')).toThrow(/a drawing, not a layout file.*layout\.json/s);
    expect(() => readRack(drawing, 'x.svg')).toThrow(/a drawing, not a rack file.*"rack"/s);
  });

  it('refuses a field that stands twice, of which JSON would drop the first', () => {
    const [issue] = issuesOf(
      '{"pattern": "p.svg", "layers": {"A": {}, "a": {}},\n "boards": [], "layers": {"B": {}}}',
    );
    expect(issue).toMatchObject({
      kind: 'job-field-invalid',
      where: { field: 'layers', line: 2, column: 16 },
    });
    expect(formatIssue(issuesOf('{"pattern":"p.svg","boards":[{"id":"A"},{"id":"A","id":"B"}]}')[0])).toMatch(
      /boards\[1\]\.id: "id" stands twice/,
    );
  });

  it('refuses half a size beside another one, and a drawn size of nothing', () => {
    const board = {
      id: 'A',
      outline: [
        [0, 0],
        [300, 0],
        [300, 100],
      ],
      length: '12 in',
    };
    expect(issuesOf({ ...least, boards: [board] })).toMatchObject([{ where: { field: 'boards[0]' } }]);
    expect(issuesOf({ ...least, pattern: { file: 'p.svg', drawnSize: {} } })).toMatchObject([
      { message: 'expected "width", "height" or both', where: { field: 'pattern.drawnSize' } },
    ]);
  });

  it('tells how a length is written where one is missing or something else stands', () => {
    const length = 'a length such as "19 mm" or "3/4 in"';
    expect(issuesOf({ ...least, kerf: true, paper: { size: { width: 100 } } })).toMatchObject([
      { expected: `"blade", or ${length}`, received: 'true', where: { field: 'kerf' } },
      { message: 'this field is missing', expected: length, where: { field: 'paper.size.height' } },
    ]);
  });

  it('takes no rules or boards from the prototype, and does not lose them without a word', () => {
    const read = () =>
      readJob(
        '{"pattern":"p.svg","boards":[{"id":"A","length":10,"width":10}],"layers":{"__proto__":{"turnOver":true}}}',
      );
    expect(read).toThrow(/layers\.__proto__: no field can be named/);
    expect(({} as Record<string, unknown>).turnOver).toBeUndefined();
  });

  it('tells of a field that another script has given to all objects', () => {
    const all = Object.prototype as unknown as Record<string, unknown>;
    all.extra = () => {};
    try {
      expect(tryReadJob(JSON.stringify(least)).issues).toMatchObject([
        { kind: 'job-field-invalid', received: 'Object.prototype.extra', where: { file: 'job.json' } },
      ]);
    } finally {
      delete all.extra;
    }
  });
});

describe('the published JSON Schema', () => {
  it('is docs/job.schema.json', () => {
    const published = JSON.parse(
      readFileSync(new URL('../../docs/job.schema.json', import.meta.url), 'utf8'),
    );
    expect(JSON.parse(JSON.stringify(jobJsonSchema()))).toEqual(published);
  });
});
