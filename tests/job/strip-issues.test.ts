import { describe, expect, it } from 'vitest';
import { readJob } from '../../src/job/read-job.ts';
import { type RunJobOptions, runJob } from '../../src/job/run-job.ts';
import { stripIssues } from '../../src/job/strip-issues.ts';
import { boardsToTake } from '../../src/model/boards-to-take.ts';

const BANK =
  '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="60mm" viewBox="0 0 200 60"><g id="Bank"><path d="M0 10H190V50H0Z"/></g></svg>';
const board = { id: 'Oak', species: 'red oak', length: 600, width: 160, quantity: 4, price: 12 };

/** What is told of banks of 190 x 40 mm: three stand on a straight edge of 600 mm, and three strips of 51 mm make a board. */
async function told(sets: number, fields: object, bank: object = {}) {
  const layers = { Bank: { restEdge: true, ...bank } };
  const job = { pattern: 'p.svg', sets, layers, effort: 0, boards: [board], ...fields };
  const { issues } = await runJob(readJob(JSON.stringify(job)), BANK);
  return issues.filter(({ kind }) => kind === 'strips-take-less');
}

it('parts that stand on the straight edges of more boards than strips of them would take are told, with both', async () => {
  const [note] = await told(9, {});
  expect(note).toMatchObject({ severity: 'note', where: { board: 'Oak' } });
  expect(note.message).toContain(
    'ripped into strips first, 1 board for $12.00 would do in place of 3 boards for $36.00, by a quick layout',
  );
  expect(note.remedy).toContain('Say "strips": 3 of "Oak"');
  expect(await told(9, { boards: [{ ...board, strips: 3 }] })).toEqual([]);
  expect(await told(9, { boards: [{ ...board, strips: 1 }] })).toEqual([]);
  // One board does as it is, and free parts use all of its width.
  expect(await told(3, {})).toEqual([]);
  expect(await told(9, {}, { restEdge: false })).toEqual([]);
  const [bare] = await told(9, { boards: [{ ...board, price: undefined }] });
  expect(bare.message).toContain('1 board would do in place of 3 boards,');
});

it('so are copies that strips would hold, but not of boards that are too narrow, have a knot or a pin', async () => {
  const [note] = await told(20, {});
  expect(note.message).toContain(
    '3 boards for $36.00 would hold 8 more copies than 4 boards for $48.00 do as they are',
  );
  expect(await told(20, { boards: [{ ...board, width: 80 }] })).toEqual([]);
  const defects = [{ at: [300, 80], diameter: 10 }];
  expect(await told(20, { boards: [{ ...board, defects }] })).toEqual([]);
  const pinned = [{ layer: 'Bank', part: 'part 1', board: 'Oak', at: [10, 120] }];
  expect(await told(20, { pinned })).toEqual([]);
});

it('and boards whose ends are trimmed, which come off every strip; not those whose edges are, which are ripped by eye', async () => {
  const long = { ...board, length: 620, trim: { ends: 10 } };
  const [note] = await told(9, { boards: [long] });
  expect(note.message).toContain('1 board for $12.00 would do in place of 3 boards for $36.00');
  expect(await told(9, { boards: [{ ...long, trim: { ends: 10, topEdge: 1 } }] })).toEqual([]);
  const layers = { Bank: { restEdge: true } };
  const job = { pattern: 'p.svg', sets: 9, layers, effort: 0, boards: [{ ...long, strips: 3 }] };
  const { layout, verification } = await runJob(readJob(JSON.stringify(job)), BANK);
  expect(verification.ok).toBe(true);
  expect(boardsToTake(layout)).toMatchObject([{ stock: 'Oak', boards: 1 }]);
  for (const strip of layout.boards)
    expect(strip).toMatchObject({ strips: 3, trimmed: { leftEnd: 10, rightEnd: 10 } });
});

it('and boards that need not be bought', async () => {
  const forSale = [{ ...board, id: 'Offer', quantity: 9, price: 20 }];
  const [note] = await told(9, { boards: [{ ...board, quantity: 1 }], forSale });
  expect(note.message).toContain('1 board of your own for $12.00 would do in place of 3 boards for $52.00');
});

it('and what is free is counted by its wood', async () => {
  const [note] = await told(9, { boards: [{ ...board, price: 0 }] });
  expect(note.message).toContain('1 board would do in place of 3 boards,');
});

// Of a leaf of 240 x 150 mm five strips of a sheet, those with the largest sections that turn in 400 mm, hold nine each, and so
// do six: see the numbers by hand in the tests of `otherStrips`.
describe('of a sheet that is ripped for the throat', () => {
  const LEAF =
    '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200"><g id="Leaf"><path d="M0 0H240V150H0Z"/></g></svg>';
  const sheet = { id: 'Sheet', species: 'birch', thickness: 6, sheet: '5x5', price: 45 };
  const ran = async (sets: number, fields: object, options: RunJobOptions = {}, svg = LEAF) => {
    const layers = { Leaf: { grain: 'free' } };
    const job = {
      pattern: 'p.svg',
      sets,
      layers,
      effort: 0,
      saw: { throat: 400 },
      boards: [sheet],
      ...fields,
    };
    const result = await runJob(readJob(JSON.stringify(job)), svg, options);
    expect(result.verification.ok).toBe(true);
    return { ...result, notes: result.issues.filter(({ kind }) => kind === 'strips-take-less') };
  };

  it('copies that other strips would hold are told, and lie there', async () => {
    const { notes, layout } = await ran(54, {});
    expect(layout.unplaced).toHaveLength(9);
    expect(notes).toMatchObject([{ severity: 'note', where: { board: 'Sheet' } }]);
    expect(notes[0].message).toContain('1 board would hold 9 more copies than 1 board does as it is');
    expect(notes[0].remedy).toContain('Say "strips": 6 of "Sheet"');
    const six = await ran(54, { boards: [{ ...sheet, strips: 6 }] });
    expect([six.layout.unplaced, six.notes]).toEqual([[], []]);
  });

  it('so are boards that need not be taken, also in lengths and stacks', async () => {
    const words = '2 boards for $90.00 would do in place of 3 boards for $135.00, by a quick layout';
    const three = { ...sheet, quantity: 3 };
    const changes = [
      { boards: [three] },
      { boards: [{ ...three, lengths: 2 }] },
      { boards: [three], layers: { Leaf: { grain: 'free', stacked: true } } },
      { boards: [three], take: 'fewest boards' },
      { boards: [], rack: 'rack.json' },
    ];
    const files = { 'rack.json': JSON.stringify({ boards: [three] }) };
    for (const change of changes) {
      const { notes } = await ran(108, change, { files });
      expect(notes.map(({ message }) => message)).toEqual([expect.stringContaining(words)]);
    }
  });

  it('and sheets that need not be bought', async () => {
    const forSale = [{ ...sheet, id: 'Shop', quantity: 9, price: 50 }];
    const { notes } = await ran(54, { forSale });
    expect(notes[0].message).toContain(
      '1 board of your own for $45.00 would do in place of 2 boards for $95.00',
    );
    const both = await ran(108, { forSale });
    expect(both.notes[0].message).toContain('2 boards for $95.00 would do in place of 3 boards for $145.00');
    expect(both.notes[0].remedy).toContain('Say "strips": 6 of "Sheet", "strips": 6 of "Shop"');
  });

  it('wood by wood', async () => {
    const grain = 'free';
    const layers = { Leaf: { grain, species: 'birch' }, Bud: { grain, species: 'oak' } };
    const boards = [sheet, { ...sheet, id: 'Oak', species: 'oak', quantity: 2, price: 80 }];
    const bud = LEAF.replace('</svg>', '<g id="Bud"><path d="M0 0H240V150H0Z"/></g></svg>');
    const { notes } = await ran(54, { boards, layers }, {}, bud);
    expect(notes.map(({ where }) => where)).toEqual([{ board: 'Sheet' }, { board: 'Oak' }]);
    expect(notes[0].message).toContain('1 board would hold 9 more copies than 1 board does as it is');
    expect(notes[1].message).toContain('1 board for $80.00 would do in place of 2 boards for $160.00');
  });

  it('but not where the maker has said how many, has pinned a part, or one sheet does', async () => {
    expect((await ran(54, { boards: [{ ...sheet, strips: 5 }] })).notes).toEqual([]);
    expect((await ran(45, {})).notes).toEqual([]);
    const pinned = [{ layer: 'Leaf', part: 'part 1', board: 'Sheet-1b', at: [10, 10], rotation: 90 }];
    const { notes, batch } = await ran(54, { pinned });
    expect([notes, batch.boards[0].strips]).toEqual([[], 5]);
  });

  it('nor by a search that is called off', async () => {
    const calledOff = new AbortController();
    const { batch, layout } = await ran(54, {});
    const asked = [
      batch,
      { layout, offers: [] },
      { kerf: 3.175, currency: 'USD', stripsStated: [] },
    ] as const;
    expect(await stripIssues(...asked, calledOff.signal)).toHaveLength(1);
    calledOff.abort();
    expect(await stripIssues(...asked, calledOff.signal)).toEqual([]);
  });
});
