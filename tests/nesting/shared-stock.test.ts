import { describe, expect, test } from 'vitest';
import type { Batch, Demand } from '../../src/model/batch.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from './plain-batch.ts';

const leaf = plainDemand('leaf', rectangle(90, 90), { stack: 3 });
const single: Demand = { ...leaf, part: 'single', stack: 1 };
/** Four squares have room on a board, eight copies of the leaf on a pile of two. */
const sheet = plainBoard('S', 200, 200, { quantity: 3, price: 10 });
const batch: Batch = { sets: 3, demands: [leaf, single], boards: [sheet], ...PLAIN_GAPS };

async function laid(change: Partial<Batch>, effort = 0) {
  const layout = await soundLayout({ ...batch, ...change }, effort);
  const piles = layout.boards.map(({ copies, placements }) => [copies, placements[0].part]);
  return { piles, unplaced: layout.unplaced.length };
}

describe('stacked and single layers of one wood', () => {
  test('share the boards: stacks are lower where the single parts would find none', async () => {
    for (const effort of [0, 0.2]) {
      const { piles, unplaced } = await laid({}, effort);
      expect(unplaced).toBe(0);
      expect(piles.filter(([, part]) => part === 'single')).toEqual([[1, 'single']]);
      expect(Math.max(...piles.map(([copies]) => Number(copies)))).toBe(2);
    }
  });

  test('have lower stacks from the first layout on, for the search may be stopped at any time', async () => {
    const stop = new AbortController();
    const told: number[] = [];
    const { layout } = await layOut(batch, {
      ...{ effort: 100, signal: stop.signal },
      onProgress: ({ best, message }) => {
        told.push(best.figures.completeSets);
        if (message === 'first layout of everything') stop.abort();
      },
    });
    expect(stop.signal.aborted).toBe(true);
    expect({ told, unplaced: layout.unplaced.length }).toEqual({ told: [3, 3], unplaced: 0 });
  });

  test('keep their high stacks where there are boards for all', async () => {
    const { piles, unplaced } = await laid({ boards: [{ ...sheet, quantity: 4 }] });
    expect({ piles, unplaced }).toEqual({
      piles: [
        [3, 'leaf'],
        [1, 'single'],
      ],
      unplaced: 0,
    });
  });

  test('have their turn in the cheaper order, whichever of them the batch names first', async () => {
    const boards = [
      { ...sheet, id: 'Cheap', price: 5 },
      { ...sheet, id: 'Dear', price: 20 },
    ];
    for (const demands of [
      [leaf, single],
      [single, leaf],
    ]) {
      const piles = (await soundLayout({ ...batch, demands, boards })).boards;
      // The other way round a single board of the cheap wood would leave three dear ones to the stack.
      expect(piles.map(({ id, copies, placements }) => [id, copies, placements[0].part])).toEqual([
        ['Cheap-1', 3, 'leaf'],
        ['Dear-1', 1, 'single'],
      ]);
    }
  });

  test('have their turn in the cheapest order of three, whichever the batch names first', async () => {
    const [high, middle, low] = [
      plainDemand('high', rectangle(50, 40), { layer: 'H', stack: 3 }),
      plainDemand('middle', rectangle(50, 50), { layer: 'M', stack: 2 }),
      plainDemand('low', rectangle(40, 60), { layer: 'S', stack: 1 }),
    ];
    const boards = [
      plainBoard('Narrow', 250, 60, { quantity: 3, price: 17 }),
      plainBoard('Short', 150, 100, { quantity: 3, price: 4 }),
      plainBoard('Large', 250, 160, { quantity: 3, price: 14 }),
    ];
    const prices = new Map(boards.map(({ id, price }) => [id, price!]));
    const costs: number[] = [];
    for (const demands of [
      [high, middle, low],
      [low, middle, high],
      [middle, high, low],
      [low, high, middle],
      [middle, low, high],
      [high, low, middle],
    ]) {
      const layout = await soundLayout({ ...batch, sets: 6, demands, boards }, 0.5);
      expect(layout.unplaced).toEqual([]);
      costs.push(layout.boards.reduce((sum, { stock, copies }) => sum + copies * prices.get(stock)!, 0));
    }
    // In the order of the batch and the other way round alone, 54 was found from the middle one on, 87 from the others.
    expect(costs).toEqual(new Array(6).fill(54));
  });

  test('leave the boards of a pile with a pin to it, also when they are stopped at once', async () => {
    const boards = [
      { ...sheet, id: 'Cheap', price: 5 },
      { ...sheet, id: 'Dear', quantity: 4, price: 20 },
    ];
    const pins = [{ layer: 'L', part: 'leaf', board: 'Cheap', number: 1, x: 2, y: 2, rotation: 0 }];
    const pinned = { ...batch, demands: [single, leaf], boards, pins };
    const stop = new AbortController();
    const { layout } = await layOut(pinned, { signal: stop.signal, onProgress: () => stop.abort() });
    expect(verifyLayout(layout, pinned).breaches).toEqual([]);
    expect(layout.boards.map(({ pieces }) => pieces)).toContainEqual(['Cheap-1', 'Cheap-2', 'Cheap-3']);
  });

  test('leave the boards of a pile with a pin to it where other stacks are pinned too', async () => {
    const reed = { ...leaf, part: 'reed', copiesPerSet: 7 };
    const fern = { ...leaf, part: 'fern', stack: 2 };
    const at = { layer: 'L', x: 2, y: 2, rotation: 0, number: 1 };
    const pins = [
      { ...at, part: 'reed', board: 'Wide' },
      { ...at, part: 'fern', board: 'Cheap' },
    ];
    const boards = [
      { ...sheet, id: 'Wide', quantity: 3 },
      { ...sheet, id: 'Cheap', quantity: 4, price: 5 },
    ];
    const dear = { ...sheet, id: 'Dear', price: 20 };
    const pinned = { ...batch, demands: [reed, fern], pins };
    const laidOn = async (stock: Batch['boards']) => {
      const { boards: used } = await soundLayout({ ...pinned, boards: stock });
      return used.map(({ pieces, placements }) => [pieces?.join('+'), placements[0].part]);
    };
    expect(await laidOn([...boards, dear])).toEqual([
      ['Wide-1+Wide-2+Wide-3', 'reed'],
      ['Dear-1+Dear-2+Dear-3', 'reed'],
      ['Cheap-1+Cheap-2', 'fern'],
    ]);
    // Whichever board of the entry it is pinned to.
    const last = [pins[0], { ...pins[1], number: 6 }];
    const many = [boards[0], { ...boards[1], quantity: 6 }];
    const { boards: used } = await soundLayout({ ...pinned, pins: last, boards: many });
    expect(used.map(({ pieces }) => pieces?.join('+'))).toEqual([
      'Wide-1+Wide-2+Wide-3',
      'Cheap-1+Cheap-2+Cheap-3',
      'Cheap-5+Cheap-6',
    ]);
    // Without other wood for the reeds the other stack is given up, and not its pin.
    expect(await laidOn(boards)).toEqual([
      ['Wide-1+Wide-2+Wide-3', 'reed'],
      ['Cheap-2+Cheap-3+Cheap-4', 'reed'],
      ['Cheap-1', 'fern'],
    ]);
  });

  test('keep their high stacks where lower ones leave as much out', async () => {
    // Of a wood of its own: its missing board is none that a stack of birch could leave.
    const oak = { ...single, species: 'oak' };
    const { piles, unplaced } = await laid({ demands: [leaf, oak] });
    expect({ piles, unplaced }).toEqual({ piles: [[3, 'leaf']], unplaced: 3 });
  });
});

test('as many boards of one entry are looked at as the batch needs, up to 300, and beyond that is told', async () => {
  const batch: Batch = {
    ...PLAIN_GAPS,
    sets: 301,
    demands: [plainDemand('pane', rectangle(50, 20))],
    boards: [plainBoard('Offcut', 60, 30, { quantity: 400 })],
  };
  const { figures, unplaced } = (await layOut(batch, { effort: 0 })).layout;
  expect(figures).toMatchObject({ boards: 300, completeSets: 300 });
  expect(unplaced[0].why).toMatch(/^no room left on the 300 boards .* as a second one$/);
});

test('as many boards are looked at as thin rings need, which fill hardly any of them', async () => {
  const ring = plainDemand('ring', rectangle(50, 20));
  const opening = rectangle(48, 18).map(([x, y]) => [x + 1, y + 1] as const);
  const batch: Batch = {
    ...PLAIN_GAPS,
    sets: 62,
    demands: [{ ...ring, region: { ...ring.region, openings: [opening.reverse()] } }],
    boards: [plainBoard('Offcut', 60, 30, { quantity: 70 })],
  };
  expect((await layOut(batch, { effort: 0 })).layout.figures.completeSets).toBe(62);
});
