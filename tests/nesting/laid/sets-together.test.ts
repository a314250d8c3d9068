import { describe, expect, test } from 'vitest';
import type { Batch, Demand } from '../../../src/model/batch.ts';
import type { Board } from '../../../src/model/stock.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from '../plain-batch.ts';

/** Two sets of three tiles: 290 x 100 mm holds one set, 560 x 100 mm holds both. */
function twoSets(boards: readonly Board[], demands: readonly Demand[] = [tiles()]): Batch {
  return { ...PLAIN_GAPS, sets: 2, setsTogether: true, boards, demands };
}

function tiles(): Demand {
  return plainDemand('tile', rectangle(90, 90), { copiesPerSet: 3 });
}

async function taken(boards: readonly Board[]) {
  const layout = await soundLayout(twoSets(boards));
  expect(layout.figures.completeSets).toBe(2);
  return layout.boards.map(({ id, placements }) => [id, placements.length]);
}

describe('sets that stay together', () => {
  test('one board that holds them all for less takes the place of two that give more wood for their cost', async () => {
    const small = plainBoard('small', 290, 100, { price: 4.1, quantity: 2 });
    const large = (price: number) => plainBoard('large', 560, 100, { price });
    expect(await taken([small, large(8)])).toEqual([['large-1', 6]]);
    expect(await taken([small, large(8.3)])).toEqual([
      ['small-1', 3],
      ['small-2', 3],
    ]);
  });

  test('the last set lies on the cheapest board that holds it', async () => {
    const boards = [
      plainBoard('good', 290, 100, { price: 2 }),
      plainBoard('large', 560, 100, { price: 5.1 }),
      plainBoard('short', 288, 100, { price: 3 }),
    ];
    expect(await taken(boards)).toEqual([
      ['good-1', 3],
      ['short-1', 3],
    ]);
  });

  test('without prices the boards are taken that have the least area together, in whatever order they are listed', async () => {
    const small = plainBoard('small', 290, 100, { quantity: 2 });
    const huge = plainBoard('huge', 600, 200);
    const onSmall = [
      ['small-1', 3],
      ['small-2', 3],
    ];
    expect(await taken([huge, small])).toEqual(onSmall);
    expect(await taken([small, huge])).toEqual(onSmall);
  });

  test('boards alike carry the same layout, the last one what is left', async () => {
    const boards = [plainBoard('large', 560, 100, { quantity: 3, price: 5 })];
    const layout = await soundLayout({ ...twoSets(boards), sets: 5 });
    const lies = layout.boards.map(({ placements }) => placements.map(({ set, x, y }) => ({ set, x, y })));
    expect(lies.map((own) => own.length)).toEqual([6, 6, 3]);
    expect(lies[1]).toEqual(lies[0].map((one) => ({ ...one, set: one.set + 2 })));
    expect(lies[2].map(({ set }) => set)).toEqual([5, 5, 5]);
  });

  test('the first layouts hold whole sets where by their area more would go on a board', async () => {
    // By area three sets go on a board; three tiles fill it, and leave no room for a peg.
    const peg = plainDemand('peg', rectangle(20, 60), { copiesPerSet: 1 });
    const tile = plainDemand('tile', rectangle(90, 90), { copiesPerSet: 1 });
    const job = twoSets([plainBoard('small', 290, 100, { quantity: 2 })], [tile, peg]);
    const told: unknown[] = [];
    await layOut(
      { ...job, sets: 4 },
      {
        effort: 0,
        signal: new AbortController().signal,
        onProgress: ({ message, best }) => told.push([message, best.figures.completeSets]),
      },
    );
    expect(told.slice(0, 2)).toEqual([
      ['first layout in boxes', 4],
      ['first layout of everything', 4],
    ]);
  });

  test('boards that ask for no work are filled before cheaper ones that have to be planed', async () => {
    const boards = [
      plainBoard('exact', 290, 100, { price: 10 }),
      plainBoard('thick', 900, 200, { price: 1, thickness: 9 }),
    ];
    expect(await taken(boards)).toEqual([
      ['exact-1', 3],
      ['thick-1', 3],
    ]);
  });

  test('parts with a rest edge that no straight edge has room for side by side are told so', async () => {
    const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: true } as const;
    const posts = plainDemand('post', rectangle(90, 30), { copiesPerSet: 4, rules });
    const { layout } = await layOut(twoSets([plainBoard('wide', 300, 400)], [posts]), { effort: 0 });
    // Four posts with three gaps of 1 mm between them; of the board 2 mm at either end are margin.
    expect(new Set(layout.unplaced.map(({ why }) => why))).toEqual(
      new Set([
        'no board has room left for a whole set: its parts with a rest edge take 363 mm side by side, and no board has more than 296 mm of straight edge for them',
      ]),
    );
  });

  test.each([
    ['on the straight edge', false],
    ['on either straight edge', true],
  ])(
    'sets that stand %s of a wide board are told what makes room behind them',
    async (edge, straightTopEdge) => {
      const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: true } as const;
      const posts = plainDemand('post', rectangle(90, 30), { copiesPerSet: 3, rules });
      const batch = { ...twoSets([plainBoard('wide', 300, 400, { straightTopEdge })], [posts]), sets: 3 };
      const { issues } = await layOut(batch, { effort: 3 });
      const [told] = issues.filter(({ kind }) => kind === 'copies-unplaced');
      expect(told.message).toContain(
        `no board has room left for a whole set, its rest edges ${edge} of the board`,
      );
      for (const way of ['"strips"', '"restEdge"', '"setsTogether"']) expect(told.remedy).toContain(way);
      expect(told.remedy?.includes('"straightTopEdge"')).toBe(!straightTopEdge);
      expect(told.remedy).not.toContain('turning over');
      // It is true: each way makes room for what had none.
      const ways: readonly Batch[] = [
        { ...batch, boards: [plainBoard('wide', 300, 132, { strips: 3, quantity: 3 })] },
        { ...batch, demands: [{ ...posts, rules: { ...rules, restEdge: false } }] },
      ];
      for (const way of ways) expect((await layOut(way, { effort: 0 })).layout.unplaced).toEqual([]);
    },
  );

  test('sets that lack room on a board are told that they may come from several', async () => {
    const { issues } = await layOut(twoSets([plainBoard('short', 200, 100, { quantity: 3 })]), { effort: 3 });
    const [told] = issues.filter(({ kind }) => kind === 'copies-unplaced');
    expect(told.remedy).toBe(
      'Add stock, make fewer sets, allow the part more freedom (grain, turning over), or let a set come from several boards ("setsTogether").',
    );
  });
});
