import { describe, expect, it } from 'vitest';
import type { Batch, Demand } from '../../src/model/batch.ts';
import type { LaidBoard, Layout } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { itemsBought, ruleOfThumb, stockToBuyFrom } from '../../src/stock/offers.ts';
import { cutInto } from '../../src/stock/ripping.ts';
import { unitName } from '../../src/stock/units.ts';
import { usedStock } from '../../src/stock/used-boards.ts';
import { rectangle } from '../rectangle.ts';

const IN = 25.4;
const FT = 304.8;

function board(id: string, length: number, width: number, more: Partial<Board> = {}): Board {
  const outline = rectangle(length, width);
  return {
    id,
    species: 'Cherry',
    thickness: IN,
    outline,
    defects: [],
    quantity: 1,
    price: undefined,
    ...more,
  };
}

function demand(width: number, height: number, more: Partial<Demand> = {}): Demand {
  const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false } as const;
  const region = { outline: rectangle(width, height), openings: [] };
  return {
    part: 'p',
    layer: 'l',
    region,
    veins: [],
    copiesPerSet: 1,
    species: 'cherry',
    thickness: IN,
    rules,
    ...more,
  };
}

function batch(demands: readonly Demand[], sets: number, boards: readonly Board[] = []): Batch {
  const gaps = { kerf: 1, clearance: 0, edgeMargin: 0, thicknessTolerance: 0.2, outlineTolerance: 0 };
  return { sets, demands, boards, ...gaps };
}

describe('stock to buy from', () => {
  it('counts an offer at its price, and boards at hand at next to nothing, the larger the more', () => {
    const own = [board('own', 1000, 100), board('half', 500, 100)];
    const offers = [board('dear', 1000, 100, { price: 40 }), board('cheap', 1000, 100, { price: 20 })];
    const stock = stockToBuyFrom(batch([demand(100, 50)], 1, own), offers);
    expect(stock.map(({ id }) => id)).toEqual(['own', 'half', 'dear', 'cheap']);
    const [whole, half, dear, cheap] = stock.map(({ takingCost }) => takingCost!);
    expect([dear, cheap]).toEqual([40, 20]);
    // The mean price of an offer's area, a ten-thousandth of it.
    expect(whole).toBeCloseTo(30e-4, 12);
    expect(half).toBeCloseTo(15e-4, 12);
  });

  it('counts areas when one price is not stated', () => {
    const offers = [board('a', 1000, 100, { price: 40 }), board('b', 500, 100)];
    const [own, a, b] = stockToBuyFrom(batch([demand(100, 50)], 1, [board('own', 200, 100)]), offers);
    expect([a.takingCost, b.takingCost]).toEqual([100_000, 50_000]);
    expect(own.takingCost).toBeCloseTo(1e-4 * 20_000, 9);
  });

  it('looks at no more of an offer than the parts of its wood fill by a fifth', () => {
    const offer = board('o', 1000, 100, { quantity: 500, price: 1 });
    const quantity = (sets: number, more: Partial<Demand> = {}) =>
      stockToBuyFrom(batch([demand(100, 50, more)], sets), [offer])[0].quantity;
    // Four parts of 5,000 square mm fill a fifth of 100,000: one board and one to spare.
    expect(quantity(4)).toBe(2);
    expect(quantity(5)).toBe(3);
    expect(quantity(5, { copiesPerSet: 2 })).toBe(4);
    expect(quantity(5, { species: 'walnut' })).toBe(1);
    expect(quantity(1000)).toBe(251);
    expect(stockToBuyFrom(batch([demand(100, 50)], 1000), [{ ...offer, quantity: 3 }])[0].quantity).toBe(3);
  });

  it('is the boards at hand when nothing is offered', () => {
    expect(stockToBuyFrom(batch([demand(100, 50)], 1, [board('own', 200, 100)]), [])).toHaveLength(1);
  });
});

function laid(stock: string, number: number, more: Partial<LaidBoard> = {}): LaidBoard {
  const usable = { outline: rectangle(1000, 100), openings: [] };
  return {
    id: `${stock}-${number}`,
    stock,
    species: 'cherry',
    thickness: IN,
    copies: 1,
    usable,
    placements: [],
    ...more,
  };
}

function layout(boards: readonly LaidBoard[]): Layout {
  return { kerf: 1, clearance: 0, boards } as Layout;
}

describe('what a layout takes', () => {
  it('is counted by board, with the board feet a dealer charges for', () => {
    const offers = [
      board('6 in', 8 * FT, 6 * IN, { price: 12.5 }),
      board('5 in', 8 * FT, 5 * IN),
      board('unused', 8 * FT, 6 * IN, { price: 9 }),
    ];
    const taken = layout([laid('6 in', 1), laid('own', 1), laid('6 in', 2), laid('5 in', 1)]);
    const items = itemsBought(taken, offers);
    expect(items.map(({ id, boards, price }) => [id, boards, price])).toEqual([
      ['6 in', 2, 25],
      ['5 in', 1, undefined],
    ]);
    expect(items[0].boardFeet).toBeCloseTo(8, 9);
    expect(items[1].boardFeet).toBeCloseTo(40 / 12, 9);
    expect(itemsBought(layout([]), offers)).toEqual([]);
  });

  it('is whole boards where they are ripped, to the cent, rip cuts included', () => {
    // By hand: 8 ft x 12 in x 1 in are 8 board feet; of two boards a strip each is taken, of 10 in seven strips.
    const offer = board('wide', 8 * FT, 12 * IN, { price: 10, quantity: 2 });
    const [strips, laidStrips] = [cutInto({ strips: 7, lengths: 1 }, offer, 3), { strips: 7 }];
    const taken = layout([
      laid('wide', 1, { id: 'wide-1a', ...laidStrips }),
      laid('wide', 2, { id: 'wide-2c', ...laidStrips }),
    ]);
    const [{ boards, price, boardFeet }] = itemsBought(taken, [strips]);
    expect([boards, price]).toEqual([2, 20]);
    expect(boardFeet).toBeCloseTo(16, 9);
  });

  it('names single boards once, in order, also those of a pile and of slices', () => {
    const pile = laid('A', 3, { copies: 2, pieces: ['A-3', 'A-1'] });
    const slices = [
      laid('B', 1, { id: 'B-1a', slices: 3, planeTo: 6 }),
      laid('B', 1, { id: 'B-1b', slices: 3, planeTo: 6 }),
      laid('B', 2, { id: 'B-2a', slices: 3, planeTo: 6, copies: 2, pieces: ['B-2a', 'B-2b'] }),
    ];
    expect(usedStock(layout([pile, ...slices]))).toEqual([
      { stock: 'A', numbers: [1, 3], free: [] },
      { stock: 'B', numbers: [1, 2], free: [{ slices: 3, count: 2 }] },
    ]);
    // Two boards alike, as somebody may write them by hand: one name, and nothing resawn.
    expect(usedStock(layout([laid('C', 1, { copies: 2 })]))).toEqual([
      { stock: 'C', numbers: [1], free: [] },
    ]);
    expect(usedStock(layout([laid('A-10', 10), laid('A-10', 9)]))[0].numbers).toEqual([9, 10]);
  });
});

describe('strips and slices that nothing lies on', () => {
  const strip = (id: string, more: Partial<LaidBoard> = {}) => laid('A', 1, { id, strips: 3, ...more });

  it('are counted piece by piece where boards of one entry are used in different ways', () => {
    // One board in three strips: one strip as it is, one resawn into three slices with two of them taken, one untouched.
    const strips = [
      strip('A-1a'),
      strip('A-1ba', { slices: 3, planeTo: 3 }),
      strip('A-1bb', { slices: 3, planeTo: 3 }),
    ];
    const mixed = [
      { slices: 1, count: 1 },
      { slices: 3, count: 1 },
    ];
    expect(usedStock(layout(strips))).toEqual([{ stock: 'A', numbers: [1], free: mixed }]);
    expect(usedStock(layout([...strips].reverse()))[0].free).toEqual(mixed);
    // Two boards, one whole and one resawn: what is left is of the second alone.
    const whole = laid('B', 1);
    const slice = laid('B', 2, { id: 'B-2a', slices: 2, planeTo: 6 });
    for (const boards of [
      [whole, slice],
      [slice, whole],
    ])
      expect(usedStock(layout(boards))[0].free).toEqual([{ slices: 2, count: 1 }]);
    // Two boards resawn into different numbers of slices.
    const thin = laid('B', 1, { id: 'B-1a', slices: 3, planeTo: 3 });
    expect(usedStock(layout([thin, slice]))[0].free).toEqual([
      { slices: 2, count: 1 },
      { slices: 3, count: 2 },
    ]);
    // Resawn for its one slice: the rest is a slab that nothing is said of.
    expect(usedStock(layout([laid('B', 1, { slices: 1, planeTo: 10 })]))[0].free).toEqual([]);
  });

  it('and those taken are the boards, however they are mixed', () => {
    // More than 26 strips, so that some are named by a number; each resawn into its own number of slices.
    for (const strips of [1, 2, 30]) {
      const offer = board('A', 1000, 100, { quantity: 2 * strips, strips });
      const boards: LaidBoard[] = [];
      for (let number = 1; number <= 2 * strips; number += strips === 30 ? 7 : 1) {
        const slices = 1 + (number % 4);
        for (let slice = 1; slice <= Math.max(1, slices - 1); slice++) {
          const id = unitName(offer, { number, slice: slices === 1 ? undefined : slice });
          boards.push(laid('A', number, { id, strips, slices }));
        }
      }
      const [{ numbers, free }] = usedStock(layout(boards));
      const taken = boards.reduce((sum, { copies, slices = 1 }) => sum + copies / slices, 0);
      const left = free.reduce((sum, { slices, count }) => sum + count / slices, 0);
      expect(numbers).toEqual([1, 2]);
      expect(taken + left, `${strips} strips`).toBeCloseTo(2 * strips, 9);
    }
  });
});

describe('the rule of thumb', () => {
  it('adds to the board feet of the parts on what is bought, thin ones sold as an inch, by species however spelled', () => {
    const parts = (...areas: number[]) =>
      areas.map((area) => ({
        region: { outline: rectangle(area, FT), openings: [] },
      })) as unknown as LaidBoard['placements'];
    const boards = [
      laid('thick', 1, {
        species: 'cherry',
        thickness: 2.2 * IN,
        planeTo: 2 * IN,
        placements: parts(FT, FT),
      }),
      laid('thin', 1, { species: ' Cherry ', thickness: IN / 2, copies: 4, placements: parts(FT / 2) }),
      laid('walnut', 1, { species: ' walnut ', placements: parts(FT) }),
      laid('own', 1, { species: 'cherry', placements: parts(FT) }),
      laid('ply', 1, { species: 'birch', placements: parts(FT) }),
    ];
    const offers = ['thick', 'thin', 'walnut'].map((id) => board(id, 8 * FT, FT));
    const rules = ruleOfThumb(layout(boards), [...offers, board('ply', 8 * FT, 4 * FT, { sheet: true })]);
    expect(rules.map(({ species }) => species)).toEqual(['cherry', 'walnut']);
    const [cherry, walnut] = rules;
    // Two parts of 2 board feet, and four of half a square foot; what is at hand and sheets do not count.
    expect(cherry.net).toBeCloseTo(6, 9);
    expect([cherry.with20, cherry.with30]).toEqual([1.2 * cherry.net, 1.3 * cherry.net]);
    expect(walnut.net).toBeCloseTo(1, 9);
  });
});
