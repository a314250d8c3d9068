import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/ring.ts';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import type { Pattern } from '../../src/model/pattern.ts';
import { usableOf } from '../../src/stock/usable.ts';

const pattern: Pattern = {
  file: 'p.svg',
  scale: 1,
  tolerance: 0.01,
  layers: [
    {
      name: 'Bank',
      parts: [
        {
          name: 'bank',
          layer: 'Bank',
          element: '<path>',
          region: {
            outline: [
              [0, 0],
              [280, 0],
              [280, 60],
              [0, 60],
            ],
            openings: [],
          },
          veins: [],
        },
      ],
    },
  ],
};
const oak = { id: 'Oak', species: 'oak', thickness: 19, length: 800, width: 150 };
const batch = (change: object, drawn = pattern) =>
  batchFromJob(readJob(JSON.stringify({ pattern: 'p.svg', boards: [oak], ...change })), drawn, 'job.json');
const [bank] = pattern.layers;
const twoBanks = {
  ...pattern,
  layers: [{ ...bank, parts: [...bank.parts, { ...bank.parts[0], name: 'other bank' }] }],
};

describe('batchFromJob', () => {
  it('gives a layer the wood of the boards when they leave no choice', () => {
    const { batch: made, issues } = batch({ sets: 4 });
    expect(issues).toEqual([]);
    expect(made.demands).toMatchObject([{ part: 'bank', species: 'oak', thickness: 19, copiesPerSet: 1 }]);
    expect(made.sets).toBe(4);
  });

  it('takes species names as people write them', () => {
    const { issues } = batch({ layers: { Bank: { species: 'OAK ', thickness: 19.2 } } });
    expect(issues).toEqual([]);
  });

  it('refuses more copies than can be laid out, and says how many sets can', () => {
    expect(batch({ sets: 10_000 }).issues).toEqual([]);
    expect(batch({ sets: 5001, layers: { Bank: { copiesPerSet: 2 } } }).issues).toMatchObject([
      {
        kind: 'batch-too-large',
        received: '5001 sets of 2 copies',
        remedy: 'Split it into batches of at most 5000 sets.',
        where: { field: 'sets' },
      },
    ]);
  });

  it.each([
    ['species-unknown', { layers: { Bank: { species: 'ebony' } } }, 'layers.Bank.species'],
    ['species-missing', { boards: [oak, { ...oak, id: 'Ash', species: 'ash' }] }, 'layers.Bank.species'],
    ['thickness-unmatched', { layers: { Bank: { thickness: '2 in' } } }, 'layers.Bank.thickness'],
    ['thickness-missing', { boards: [oak, { ...oak, id: 'Thin', thickness: 6 }] }, 'layers.Bank.thickness'],
    ['layer-unknown', { layers: { Bnak: { species: 'oak' } } }, 'layers.Bnak'],
    ['board-id-repeated', { boards: [oak, oak] }, 'boards[1].id'],
  ])('refuses with %s and names the field', (kind, change, field) => {
    const { issues } = batch(change);
    expect(issues).toMatchObject([{ kind, severity: 'error', where: { file: 'job.json', field } }]);
  });

  it('leaves parts without a copy out, and says which', () => {
    const twice = (layers: object, more: object = {}) => batch({ layers, ...more }, twoBanks);
    const { batch: made, issues } = twice({ Bank: { copiesPerSet: 0, copiesOf: { 'other bank': 2 } } });
    expect(made.demands).toMatchObject([{ part: 'other bank', copiesPerSet: 2 }]);
    expect(issues).toMatchObject([{ kind: 'part-not-in-batch', severity: 'note' }]);
    expect(issues[0].message).toContain('not cut in this batch: Bank bank.');
    const pin = { layer: 'Bank', part: 'bank', board: 'Oak', at: [10, 10] };
    expect(twice({ Bank: { copiesOf: { bank: 0 } } }, { pinned: [pin] }).issues).toMatchObject([
      { kind: 'part-not-in-batch' },
      { kind: 'pin-invalid', where: { field: 'pinned[0]' } },
    ]);
  });

  it('asks for no wood of a layer that is not cut', () => {
    const shore = { ...bank, name: 'Shore' };
    const drawn = { ...pattern, layers: [bank, shore] };
    const { batch: made, issues } = batch({ layers: { Shore: { species: 'elm', copiesPerSet: 0 } } }, drawn);
    expect(made.demands.map(({ layer }) => layer)).toEqual(['Bank']);
    expect(issues.map(({ kind, message }) => `${kind} ${message}`)[0]).toContain('all of Shore');
    expect(issues).toHaveLength(1);
  });

  it.each([
    ['nothing-to-cut', { copiesPerSet: 0 }, 'layers', undefined],
    [
      'part-unknown',
      { copiesPerSet: 0, copiesOf: { bnak: 1 } },
      'layers.Bank.copiesOf.bnak',
      'perhaps "bank"',
    ],
  ])('refuses with %s what leaves nothing to cut', (kind, Bank, field, expected) => {
    const { issues } = batch({ layers: { Bank } });
    expect(issues).toMatchObject([{ kind, severity: 'error', where: { file: 'job.json', field } }]);
    if (expected !== undefined) expect(issues[0].expected).toBe(expected);
  });

  it('refuses a part larger than every board, in the direction the grain allows', () => {
    const narrow = { ...oak, length: 100, width: 300 };
    const { issues } = batch({ boards: [narrow] });
    expect(issues).toMatchObject([
      { kind: 'part-larger-than-boards', where: { layer: 'Bank', part: 'bank' } },
    ]);
    expect(issues[0].remedy).toBeTruthy();
    expect(batch({ boards: [narrow], layers: { Bank: { grain: 'across' } } }).issues).toEqual([]);
    expect(batch({ boards: [narrow], layers: { Bank: { grain: 'free' } } }).issues).toEqual([]);
  });

  it('asks whether inches were meant where a board of them would hold the part', () => {
    const remedy = (length: number | string, width: number | string) =>
      batch({ boards: [{ ...oak, length, width }] }).issues[0].remedy;
    expect(remedy(48, 7.5)).toMatch(/^A plain number is in millimetres: if "48 in" by "7.5 in" was meant/);
    // Of two sides only one may lack its unit.
    expect(remedy(48, '7-1/4 in')).toMatch(/if a length of "48 in" was meant/);
    expect(remedy('48 in', 7.5)).toMatch(/if a width of "7.5 in" was meant/);
    expect(remedy(48, 7.3)).toMatch(/^Make the pattern smaller/);
    // Two inches are no round number of millimetres, and 10 x 8 in would not hold it either.
    for (const length of ['2 in', 10]) expect(remedy(length, 8)).toMatch(/^Make the pattern smaller/);
  });

  it('tells a board for sale that has the id of one at hand to be named otherwise, as quantity does not help', () => {
    const [issue] = batch({ forSale: [oak] }).issues;
    expect(issue).toMatchObject({ kind: 'board-id-repeated', where: { field: 'forSale[0].id' } });
    expect(issue.remedy).toMatch(/^Give the board for sale an id of its own/);
    expect(batch({ boards: [oak, oak] }).issues[0].remedy).toMatch(/^Use "quantity"/);
  });

  it('asks whether length and width changed places where they would hold the part so, and of no inches that no shop has', () => {
    const { issues } = batch({ boards: [{ ...oak, length: 100, width: 600 }] });
    expect(issues[0].remedy).toMatch(
      /^The length of a board runs along its grain: see whether length and width/,
    );
    expect(batch({ boards: [{ ...oak, length: 100, width: 20 }] }).issues[0].remedy).not.toMatch(
      /changed places/,
    );
  });

  it('says how thick a layer may be where every board is too thin: the thickest and the tolerance', () => {
    const thinner = { ...oak, id: 'Thin', thickness: 12 };
    const told = (thickness: number, fields: object = {}) =>
      batch({ boards: [thinner, oak], layers: { Bank: { thickness } }, ...fields }).issues;
    expect(told(20)).toMatchObject([
      {
        kind: 'thickness-unmatched',
        expected: 'at most 19.5 mm: the thickest board of oak has 19 mm',
        received: '20 mm',
      },
    ]);
    expect(told(19.5)).toEqual([]);
    expect(told(20, { thicknessTolerance: 1 })).toEqual([]);
  });

  it('takes boards as they cost, and keepers first where the job has a rack', () => {
    const keeper = { ...oak, id: 'Keeper', keeper: true };
    const costs = (fields: object) =>
      batch({ boards: [oak, keeper], ...fields }).batch.boards.map(({ takingCost }) => takingCost);
    expect(costs({})).toEqual([undefined, undefined]);
    for (const fields of [{ rack: 'rack.json' }, { take: 'keepers first' }]) {
      const [fresh, kept] = costs(fields);
      expect(kept).toBeLessThan(fresh ?? 0);
    }
    expect(costs({ rack: 'rack.json', take: 'cheapest' })).toEqual([undefined, undefined]);
  });

  it('makes a stack of as many boards as its height holds, rounding apart, and of one at least', () => {
    const stack = (thickness: number, stackHeight: number | string) =>
      batch({
        sets: 8,
        boards: [{ ...oak, thickness }],
        layers: { Bank: { stacked: true } },
        saw: { stackHeight },
      }).batch.demands[0].stack;
    expect([stack(6, 18), stack(6, 17.9), stack(6, 24)]).toEqual([3, 2, 4]);
    // 1/4 in three times is 3/4 in, whatever that is in binary.
    expect(stack(6.35, '3/4 in')).toBe(3);
    expect(stack(19, 18) ?? 1).toBe(1);
  });

  it('says that sheets are too thick, for they are not thinned', () => {
    const sheet = { ...oak, sheet: true, thickness: 22 };
    const { issues } = batch({ boards: [sheet], layers: { Bank: { thickness: 19 } } });
    expect(issues).toMatchObject([
      {
        kind: 'thickness-unmatched',
        expected: '19 mm, give or take 0.5 mm',
        received: 'sheets of oak of 22 mm',
        where: { field: 'layers.Bank.thickness' },
      },
    ]);
  });

  it('says that nothing is left of a board where trim and margin take it all', () => {
    const sawnAway = { ...oak, trim: { ends: 400 } };
    const inMillimetres = { ...oak, length: 24, width: 6 };
    for (const board of [sawnAway, inMillimetres]) {
      const [{ message, received, remedy }, ...others] = batch({ boards: [board] }, twoBanks).issues;
      // Once for the wood, and not for each of its parts.
      expect([received, others]).toEqual(['Oak', []]);
      expect(message).toBe('trim and edge margin leave nothing of any board of oak');
      expect(remedy).toContain('millimetres');
    }
  });

  it.each([
    ['display="none"', 'is switched off in the drawing', 'Show it in the drawing program'],
    ['', 'holds nothing that can be cut', 'Draw the outline of every part'],
  ])('says of a layer with %s that it %s', (attribute, message, remedy) => {
    const shape = attribute === '' ? '' : '<path d="M5 5H50V50H5Z"/>';
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60"><g id="Hull"><path d="M5 5H50V50H5Z"/></g><g id="Sail" ${attribute}>${shape}</g></svg>`;
    const job = readJob(JSON.stringify({ pattern: 'p.svg', boards: [oak], layers: { Sail: {} } }));
    const { issues } = batchFromJob(job, readPattern(svg).pattern, 'job.json');
    expect(issues).toMatchObject([{ kind: 'layer-unknown', where: { field: 'layers.Sail' } }]);
    expect(issues[0].message).toContain(message);
    expect(issues[0].remedy).toContain(remedy);
  });

  it('says of a layer whose name only looks like one of the drawing where it differs', () => {
    const hill = 'H\u00fcgel';
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><g id="${hill}"><path d="M5 5H50V50H5Z"/></g></svg>`;
    const remedyOf = (name: string) => {
      const job = readJob(JSON.stringify({ pattern: 'p.svg', boards: [oak], layers: { [name]: {} } }));
      return batchFromJob(job, readPattern(svg).pattern, 'job.json').issues.map(({ remedy }) => remedy);
    };
    expect(remedyOf(hill)).toEqual([]);
    expect(remedyOf('Hu\u0308gel')).toEqual([expect.stringContaining('accents stored in another way')]);
    expect(remedyOf('Hugel')).toEqual([expect.stringContaining('capitals count')]);
  });

  it('puts the box of a pinned copy where the maker measured, however it is turned', () => {
    const pin = { layer: 'Bank', part: 'bank', board: 'Oak', at: ['100 mm', '20 mm'], rotation: 90 };
    const wide = { ...oak, width: 320 };
    const free = { Bank: { grain: 'free' } };
    const { batch: made, issues } = batch({ boards: [wide], pinned: [pin], layers: free });
    expect(issues).toEqual([]);
    // Turned by 90 degrees (x, y) goes to (-y, x): the box of 280 x 60 becomes one of 60 x 280 from (-60, 0).
    expect(made.pins).toMatchObject([{ number: 1, x: 160, y: 20, rotation: 90, turnedOver: false }]);
  });

  it('measures a pin from the ends of the board, wherever the points of its outline are counted from', () => {
    const { length: _, width: __, ...wood } = oak;
    const outline = [
      [100, 50],
      [900, 50],
      [900, 200],
      [100, 200],
    ];
    const pinned = (at: number[]) =>
      batch({ boards: [{ ...wood, outline }], pinned: [{ layer: 'Bank', part: 'bank', board: 'Oak', at }] });
    const from = (at: number[]) => pinned(at).batch.pins?.[0];
    expect(from([20, 10])).toMatchObject({ x: 20 + 100, y: 10 + 50 });
    const [{ expected, received }] = pinned([700, 10]).issues;
    expect(expected).toContain('used from 0 to 800 mm from the left end and 0 to 150 mm from the top edge');
    expect(received).toContain('700 to 980 mm from the left end');
  });

  it.each([
    [{ part: 'shore' }, 'part', 'there is no such part in this layer', 'one of "bank"'],
    [{ layer: 'bank' }, 'layer', 'there is no such layer', 'one of "Bank"'],
    [{ board: 'Elm' }, 'board', 'there is no such board at hand', 'one of "Oak"'],
    [{ number: 2 }, 'number', 'the stock has not so many of this board', 'at most 1'],
  ])('refuses a pin of %o', (change, field, message, expected) => {
    const pin = { layer: 'Bank', part: 'bank', board: 'Oak', at: [0, 0], ...change };
    expect(batch({ pinned: [pin] }).issues).toMatchObject([
      { severity: 'error', message, expected, where: { field: `pinned[0].${field}` } },
    ]);
  });

  it('refuses more pins than there are copies', () => {
    const pin = { layer: 'Bank', part: 'bank', board: 'Oak', at: [10, 10] };
    expect(batch({ pinned: [pin, { ...pin, at: [400, 10] }] }).issues).toMatchObject([
      { message: 'more copies are pinned than the batch has', expected: 'at most 1', received: '2' },
    ]);
  });

  it('refuses a pin that cannot be honoured, by its place in the job', () => {
    const pin = { layer: 'Bank', part: 'bank', board: 'Oak', at: [700, 10] };
    const [{ kind, expected, received, where }, ...others] = batch({ pinned: [pin] }).issues;
    expect({ kind, where, others }).toMatchObject({
      kind: 'pin-invalid',
      where: { file: 'job.json', field: 'pinned[0]' },
      others: [],
    });
    expect(expected).toContain('Oak-1, which is used from 0 to 800 mm from the left end');
    expect(received).toContain('700 to 980 mm from the left end');
  });

  it('asks whether another name of a wood was meant, or one misspelt, where no board has the name that a layer has', () => {
    const told = (layer: string, board: string) => {
      const { issues } = batch({
        layers: { Bank: { species: layer } },
        boards: [oak, { ...oak, id: 'B', species: board }],
      });
      return [issues[0].message, issues[0].remedy];
    };
    const remedy = 'Write the wood of a layer by the name that its boards have.';
    expect(told('white ash', 'ash')).toEqual([
      'there is no board of this species; did you mean "ash"?',
      remedy,
    ]);
    expect(told('chery', 'cherry')).toEqual([
      'there is no board of this species; did you mean "cherry"?',
      remedy,
    ]);
    expect(told('black walnut', 'ash')).toEqual(['there is no board of this species', undefined]);
  });

  it('says nothing of pins while the wood of their layer is in doubt', () => {
    const pin = { layer: 'Bank', part: 'bank', board: 'Oak', at: [10, 10] };
    const { issues } = batch({ pinned: [pin], layers: { Bank: { species: 'ebony' } } });
    expect(issues.map(({ kind }) => kind)).toEqual(['species-unknown']);
  });

  it('turns a round knot into a ring around the circle', () => {
    const knot = { at: [400, 75], diameter: 30 };
    const { batch: made } = batch({ boards: [{ ...oak, defects: [knot] }] });
    const usable = usableOf(made.boards[0]);
    expect(usable.openings).toHaveLength(1);
    const lost = 800 * 150 - regionArea(usable);
    expect(lost).toBeGreaterThan(Math.PI * 15 * 15);
    expect(lost).toBeLessThan(1.01 * Math.PI * 15 * 15);
  });

  it('bites a defect over the edge out of the board', () => {
    const { batch: made } = batch({
      boards: [
        {
          ...oak,
          defects: [
            {
              outline: [
                [700, -10],
                [900, -10],
                [900, 50],
                [700, 50],
              ],
            },
          ],
        },
      ],
    });
    expect(regionArea(usableOf(made.boards[0]))).toBeCloseTo(800 * 150 - 100 * 50, 6);
  });
});
