import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { ownThickerIssues } from '../../src/job/own-thicker-boards.ts';
import { purchaseIssues } from '../../src/job/purchase-issues.ts';
import { readJob } from '../../src/job/read-job.ts';
import { type JobResult, runJob } from '../../src/job/run-job.ts';
import { whatToBuy } from '../../src/job/what-to-buy.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { ruleOfThumb } from '../../src/stock/offers.ts';
import { cutInto } from '../../src/stock/ripping.ts';

const box = (length: number, width: number): Ring => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
];

const board = (id: string, length: number, price: number, quantity = 50): Board => ({
  id,
  species: 'oak',
  thickness: 19,
  outline: box(length, 106),
  defects: [],
  quantity,
  price,
});

/** Squares of 100 mm, one beside the other: a board of n x 110 + 20 mm holds n of them, by arithmetic. */
function squares(sets: number, boards: Board[]): Batch {
  return {
    sets,
    demands: [
      {
        part: 'block',
        layer: 'Shore',
        region: { outline: box(100, 100), openings: [] },
        veins: [],
        copiesPerSet: 1,
        species: 'oak',
        thickness: 19,
        rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
      },
    ],
    boards,
    kerf: 1,
    clearance: 0,
    edgeMargin: 3,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
  };
}

describe('whatToBuy', () => {
  it('buys as many as it takes where parts fill little of a board, and none of dearer ones for want of more', async () => {
    // On the straight edge of a board of 600 x 300 mm two banks of 280 x 20 mm stand: 6 % of it.
    const wide = { ...board('wide', 600, 10), outline: box(600, 300) };
    const plain = squares(21, []);
    const [block] = plain.demands;
    const bank = {
      ...block,
      region: { outline: box(280, 20), openings: [] },
      rules: { ...block.rules, restEdge: true },
    };
    const batch = { ...plain, demands: [bank] };
    for (const offers of [[wide], [wide, { ...wide, id: 'dear', price: 30 }]]) {
      const bought = await whatToBuy(batch, offers, { effort: 2 });
      expect(bought).toMatchObject({ completes: true, total: 110, items: [{ id: 'wide', boards: 11 }] });
    }
    // Ten of the singles are looked at first: nine of them and two that hold a pair hold 13 as well, for 36.
    const single = { ...board('single', 300, 2), outline: box(300, 135), quantity: 25 };
    const pair = { ...board('pair', 600, 9), outline: box(600, 135) };
    const bought = await whatToBuy({ ...batch, sets: 13 }, [single, pair], { effort: 0.3 });
    expect(bought).toMatchObject({ completes: true, total: 26, items: [{ id: 'single', boards: 13 }] });
    // Of a supplier who has fewer so many are bought, and the rest is told.
    expect(await whatToBuy(batch, [{ ...wide, quantity: 7 }], { effort: 2 })).toMatchObject({
      completes: false,
      items: [{ id: 'wide', boards: 7 }],
    });
  });

  it('finds the cheapest of all purchases, counted out by hand', async () => {
    // A short board holds 3 blocks, a long one 7; every mix that holds enough is counted out.
    const [short, long] = [board('short', 330, 4), board('long', 730, 8.5)];
    for (const sets of [3, 4, 7, 8, 10, 13]) {
      let cheapest = Number.POSITIVE_INFINITY;
      for (let s = 0; s <= 5; s++)
        for (let l = 0; l <= 3; l++)
          if (3 * s + 7 * l >= sets) cheapest = Math.min(cheapest, 4 * s + 8.5 * l);
      const { total, completes, items } = await whatToBuy(squares(sets, []), [short, long], { effort: 1 });
      expect(completes).toBe(true);
      expect(total, `${sets} sets: ${JSON.stringify(items)}`).toBeCloseTo(cheapest, 9);
    }
  });

  it('uses the boards at hand first and buys the rest', async () => {
    const own = board('own', 330, 100, 1);
    const { items, completes } = await whatToBuy(squares(6, [own]), [board('short', 330, 4)], { effort: 1 });
    expect(completes).toBe(true);
    expect(items).toMatchObject([{ id: 'short', boards: 1, price: 4 }]);
  });

  /** Blocks as those of `squares`, of another wood or thickness, or sawn in stacks. */
  const likeBlock = (part: string, of: Partial<Batch['demands'][number]>) => ({
    ...squares(1, []).demands[0],
    part,
    ...of,
  });

  it('buys none of a wood that suffices at hand, though the boards for sale make a higher stack', async () => {
    // Two boards at hand in one pile hold 3 copies of two sets each; three that are bought would be sawn in two.
    const own = board('own', 330, 100, 2);
    const demands = [likeBlock('wave', { stack: 3 }), likeBlock('pine', { species: 'maple' })];
    const offers = [board('new', 330, 4), { ...board('maple', 730, 8), species: 'maple' }];
    const purchase = await whatToBuy({ ...squares(6, [own]), demands }, offers, { effort: 0 });
    expect(purchase.completes).toBe(true);
    expect(purchase.items).toMatchObject([{ id: 'maple', boards: 1 }]);
    const waves = purchase.layout.boards.filter(({ species }) => species === 'oak');
    expect(waves).toMatchObject([{ stock: 'own', copies: 2 }]);
    expect(purchase.layout.figures.completeSets).toBe(6);
    expect(verifyLayout(purchase.layout).breaches).toEqual([]);
  });

  it('lays out anew what lies on one board with parts that are short, for want of boards for a stack', async () => {
    // The board at hand holds two of three blocks a set, of which the waves are the larger: both of them lie on it.
    const own = board('own', 450, 100, 1);
    const small = { outline: box(100, 90), openings: [] };
    const demands = [likeBlock('wave', { stack: 2 }), likeBlock('pine', { region: small, copiesPerSet: 2 })];
    const batch = { ...squares(2, [own]), demands };
    const { layout, items, completes } = await whatToBuy(batch, [board('new', 450, 4, 1)], { effort: 0 });
    expect(completes).toBe(true);
    expect(items).toMatchObject([{ id: 'new', boards: 1 }]);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  it('buys none of a wood that suffices at hand when it is resawn', async () => {
    const own = board('own', 330, 100, 1);
    const batch = { ...squares(3, [own]), demands: [likeBlock('wave', { thickness: 6 })] };
    const offers = [{ ...board('thin', 330, 4), thickness: 6 }];
    expect((await whatToBuy(batch, offers, { effort: 0 })).items).toEqual([]);
  });

  it('gives up what lies at hand where only its boards have room for the rest', async () => {
    // The waves come first and saw the one thick board into slices; for the blocks there is no other.
    const demands = [likeBlock('wave', { thickness: 6 }), likeBlock('block', {})];
    const batch = { ...squares(3, [board('own', 330, 100, 1)]), demands };
    const offers = [{ ...board('thin', 330, 4), thickness: 6 }];
    const { items, completes } = await whatToBuy(batch, offers, { effort: 0 });
    expect(completes).toBe(true);
    expect(items).toMatchObject([{ id: 'thin', boards: 1 }]);
  });

  it('says of what does not complete the batch that larger boards may, a grade being counted at its least width', async () => {
    const bought = await whatToBuy(squares(6, []), [board('oak', 330, 5)], { effort: 0 });
    expect(bought.items).toHaveLength(1);
    const short = { ...bought, completes: false };
    const told = (purchase: Parameters<typeof purchaseIssues>[0]) =>
      purchaseIssues(purchase, '$', 'mm').at(-1)?.remedy ?? '';
    expect(told(short)).toContain('Offer larger boards');
    expect(told(short)).toContain('at its least width');
    expect(told({ ...short, items: [] })).toContain('at its least width');
    expect(told({ ...short, completes: true }) + told({ ...short, isStopped: true })).toBe('');
  });

  it('tells of thicker boards that would do for clearly less money', async () => {
    // Six blocks of 6 mm are two thin boards, or one of 19 mm in two slices: (19 + 3.175) / (6 + 1.5875 + 3.175) = 2.06.
    const thin = { ...board('thin', 330, 20), thickness: 6 };
    const pine = { ...board('pine', 330, 7), species: 'pine' };
    const demands = [likeBlock('wave', { thickness: 6 }), likeBlock('fir', { species: 'pine' })];
    const told = async (price: number) => {
      const thick = board('thick', 330, price);
      const batch = { ...squares(6, []), demands };
      return whatToBuy(batch, [thin, thick, pine], { effort: 0 });
    };
    const purchase = await told(13);
    expect(purchase.items.map(({ id, boards }) => [id, boards])).toEqual([
      ['thin', 2],
      ['pine', 2],
    ]);
    const item = { id: 'thick', boards: 1, price: 13 };
    const less = { species: 'oak', thickness: 6, paid: 40, items: [item], total: 13, work: 'resaw' };
    expect(purchase.cheaper).toHaveLength(1);
    expect(purchase.cheaper).toMatchObject([less]);
    expect(purchaseIssues(purchase, '$', 'mm').at(-1)).toMatchObject({
      kind: 'to-buy-cheaper',
      severity: 'note',
      message: expect.stringContaining('oak 6 mm is bought for $40.00; 1 of "thick" would do for $13.00'),
      remedy: 'To have it so, leave "thin" out of "forSale".',
    });
    // Four more or less is no reason to resaw; and what has no price cannot be said to cost less.
    expect((await told(37)).cheaper).toBeUndefined();
    const free = { ...thin, price: undefined };
    const { cheaper } = await whatToBuy(
      { ...squares(6, []), demands },
      [free, board('thick', 330, 13), pine],
      {
        effort: 0,
      },
    );
    expect(cheaper).toBeUndefined();
  });

  it('tells of thicker boards of the own that lie unused while wood is bought', async () => {
    const own = (id: string, length: number, more: Partial<Board> = {}) => ({
      ...board(id, length, 1, 1),
      ...more,
    });
    // Neither holds all six blocks of 6 mm, nor do both: the stock is filled up with bought boards of 6 mm.
    const boards = [
      own('thick', 330, { thickness: 8 }),
      own('short', 90, { thickness: 8 }),
      own('pine', 330, { species: 'pine' }),
    ];
    const batch = { ...squares(6, boards), demands: [likeBlock('wave', { thickness: 6 })] };
    const thin = { ...board('thin', 330, 20), thickness: 6 };
    const purchase = await whatToBuy(batch, [thin], { effort: 0 });
    expect(purchase.items).toMatchObject([{ id: 'thin', boards: 2 }]);
    expect(ownThickerIssues(batch, purchase, 'mm')).toMatchObject([
      {
        kind: 'own-board-thicker',
        message: expect.stringContaining('this board of your own could be planed to 6 mm'),
        where: { board: 'thick' },
      },
    ]);
  });

  it('does not buy a dear sheet for a strip of it', async () => {
    // Ten strips of a board at 100, each with room for 3 blocks, as has a narrow board at 15: 6 narrow ones cost less, 7 more.
    const outline = box(330, 1060);
    const wide = cutInto({ strips: 10, lengths: 1 }, { ...board('wide', 330, 100, 2), outline }, 0);
    const narrow = board('narrow', 330, 15);
    const bought = async (sets: number, offers: Board[]) => {
      const { items, total, completes } = await whatToBuy(squares(sets, []), offers, { effort: 0 });
      expect(completes).toBe(true);
      expect(total).toBe(items.reduce((sum, { price }) => sum + price!, 0));
      return items.map(({ id, boards }) => `${boards} ${id}`);
    };
    expect(await bought(1, [wide, narrow])).toEqual(['1 narrow']);
    expect(await bought(18, [wide, narrow])).toEqual(['6 narrow']);
    expect(await bought(19, [wide, narrow])).toEqual(['1 wide']);
    expect(await bought(30, [wide, narrow])).toEqual(['1 wide']);
    expect(await bought(1, [wide])).toEqual(['1 wide']);
    // Nor another dear one, which had a share of its price only in the first search.
    const other = { ...wide, id: 'other', price: 11, whole: { outline, price: 110 } };
    expect(await bought(1, [wide, other, narrow])).toEqual(['1 narrow']);
    // By area where one has no price: ten times a narrow board.
    const unpriced = { ...wide, price: undefined, whole: { outline, price: undefined } };
    const { items } = await whatToBuy(squares(4, []), [unpriced, narrow], { effort: 0 });
    expect(items.map(({ id, boards }) => [id, boards])).toEqual([['narrow', 2]]);
  });

  it('buys as many boards of one offer as the batch needs', async () => {
    const { items, completes } = await whatToBuy(squares(25, []), [board('single', 110, 4, 100)], {
      effort: 0,
    });
    expect(completes).toBe(true);
    expect(items).toMatchObject([{ id: 'single', boards: 25, price: 100 }]);
  });

  it('says so when the supplier has too few', async () => {
    const { completes } = await whatToBuy(squares(9, []), [board('short', 330, 4, 2)], { effort: 0 });
    expect(completes).toBe(false);
  });
});

describe('ruleOfThumb', () => {
  // woodshoptips.com tip 250: add 20 % in hardwood, 30 % in common grades. 100 board feet become 120 and 130.
  it('adds to the parts, which is not the share that is wasted', () => {
    const squareFoot = box(304.8, 304.8);
    const placements = Array.from({ length: 100 }, () => ({ region: { outline: squareFoot, openings: [] } }));
    const laid = { stock: 'oak', species: 'oak', thickness: 25.4, copies: 1, placements };
    const [oak] = ruleOfThumb({ boards: [laid] } as unknown as Layout, [board('oak', 3000, 20)]);
    expect(oak.net).toBeCloseTo(100, 9);
    expect(oak.with20).toBeCloseTo(120, 9);
    expect(oak.with30).toBeCloseTo(130, 9);
  });
});

describe('a job with boards for sale', () => {
  const svg = readFileSync(new URL('../../fixtures/first-cut/pattern.svg', import.meta.url), 'utf8');
  const offer = { id: 'dealer', length: '24 in', width: '8 in', quantity: 5, price: 9 };

  it('is laid out on what has to be bought when there is nothing at hand', async () => {
    const job = readJob(JSON.stringify({ pattern: 'pattern.svg', forSale: [offer], effort: 0 }));
    const result = await runJob(job, svg);
    expect(result.purchase?.items).toMatchObject([{ id: 'dealer', boards: 1, price: 9 }]);
    expect(result.layout.figures.completeSets).toBe(1);
    expect(result.verification.breaches).toEqual([]);
    expect(result.issues.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['to-buy', 'to-buy-in-all']),
    );
  });

  it('tells what to buy with its currency, and the rule of thumb for the same wood however it is written', async () => {
    const job = readJob(
      JSON.stringify({
        pattern: 'pattern.svg',
        layers: { Leaf: { species: 'Red-Oak' } },
        forSale: [{ ...offer, species: 'red oak' }],
        costs: { currency: 'EUR', batchSizes: [] },
        effort: 0,
      }),
    );
    const { issues } = await runJob(job, svg);
    const told = issues.filter(({ kind }) => kind.startsWith('to-buy')).map(({ message }) => message);
    expect(told[0]).toMatch(/^buy 1 of "dealer", [\d.]+ board feet, for 9\.00 EUR$/);
    expect(told[1]).toMatch(
      / for 9\.00 EUR in all; the rule of thumb for what is bought, in board feet: [Rr]ed.[Oo]ak [\d.]+ in the parts/,
    );
  });

  it.each([
    ['too few of them', { ...offer, length: 90, width: 40, quantity: 1 }, 1],
    ['none with room', { ...offer, length: 60, width: 40 }, 0],
  ])('says which copies find no place on those for sale either: %s', async (_, few, bought) => {
    // The leaf is 75 x 31 mm: a board of 90 x 40 mm holds one copy, one of 60 x 40 mm none.
    const own = { id: 'own', length: 90, width: 40 };
    const job = readJob(
      JSON.stringify({ pattern: 'pattern.svg', sets: 4, boards: [own], forSale: [few], effort: 0 }),
    );
    const { issues, layout } = await runJob(job, svg);
    expect(layout.boards).toHaveLength(1 + bought);
    const left = issues.filter(({ kind }) => kind === 'copies-unplaced').map(({ message }) => message);
    expect(left.join()).toMatch(new RegExp(`^${3 - bought} copies found no place`));
    const sums = issues.filter(({ kind }) => kind === 'to-buy-in-all').map(({ severity }) => severity);
    expect(sums).toEqual(['warning']);
  });

  describe('stopped early', () => {
    // The leaf is 75 x 31 mm: a board of 90 x 40 mm holds one copy, so that two of three have to be bought for.
    const own = { id: 'own', length: 90, width: 40 };
    const short = readJob(
      JSON.stringify({ pattern: 'pattern.svg', sets: 3, boards: [own], forSale: [offer], effort: 1 }),
    );
    const sums = ({ issues }: JobResult) =>
      issues.filter(({ kind }) => kind === 'to-buy-in-all').map(({ message }) => message);

    it('still has a first layout of what is bought when the minutes are over', async () => {
      const result = await runJob(short, svg, { minutes: 0 });
      expect(result.isStopped).toBe(true);
      expect(result.layout.figures.completeSets).toBe(3);
      expect(result.purchase?.items).toMatchObject([{ id: 'dealer', boards: 1 }]);
    });

    it('keeps what lies on the boards at hand when it is called off before, and says that it does not know', async () => {
      const stop = new AbortController();
      const result = await runJob(short, svg, { signal: stop.signal, onProgress: () => stop.abort() });
      expect(result.isStopped).toBe(true);
      expect(result.layout.figures.completeSets).toBe(1);
      expect(result.purchase).toMatchObject({ items: [], completes: false, isStopped: true });
      expect(sums(result).join()).toMatch(/^the search was stopped before it found what to buy/);
    });
  });

  it('buys nothing when the boards at hand do', async () => {
    const own = { id: 'own', length: '24 in', width: '8 in' };
    const job = readJob(
      JSON.stringify({ pattern: 'pattern.svg', boards: [own], forSale: [offer], effort: 0 }),
    );
    const result = await runJob(job, svg);
    expect(result.purchase).toBeUndefined();
    expect(result.layout.boards.map(({ stock }) => stock)).toEqual(['own']);
  });
});

describe('an offer that makes no sense', () => {
  const refused = async (offers: unknown) => {
    const error = await whatToBuy(squares(4, [board('A', 350, 0, 1)]), offers as Board[], {
      effort: 0,
    }).catch((thrown) => thrown);
    expect(error).toBeInstanceOf(FretlayError);
    return (error as FretlayError).issues.map(({ kind, where }) => `${kind} ${where?.field}`);
  };

  it('is told as an offer', async () => {
    expect(await refused([board('B', 350, 9), board('C', 350, -1)])).toEqual([
      'option-invalid offers[1].price',
    ]);
    expect(await refused([board('B', 350, 9), null])).toEqual(['option-invalid offers[1]']);
    expect(await refused(undefined)).toEqual(['option-invalid offers']);
  });

  it('is one with the id of a board at hand, or of another offer', async () => {
    expect(await refused([board('A', 350, 9), board('B', 350, 9), board('B', 240, 9)])).toEqual([
      'board-id-repeated offers[0].id',
      'board-id-repeated offers[2].id',
    ]);
  });
});
