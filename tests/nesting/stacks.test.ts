import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/model/batch.ts';
import type { Layout } from '../../src/model/layout.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';

/** Copies of the part below that lie on one board. */
const ON_A_BOARD = 4;

interface Stacked {
  readonly sets: number;
  readonly stack: number;
  readonly quantity: number;
  readonly copiesPerSet?: number;
}

function batchOf({ sets, stack, quantity, copiesPerSet = 1 }: Stacked): Batch {
  return {
    sets,
    demands: [
      {
        part: 'leaf',
        layer: 'Leaves',
        region: { outline: rectangle(60, 90), openings: [] },
        veins: [],
        copiesPerSet,
        species: 'maple',
        thickness: 6,
        stack,
        rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
      },
    ],
    boards: [
      {
        id: 'A',
        species: 'maple',
        thickness: 6,
        outline: rectangle(300, 100),
        defects: [],
        quantity,
        price: undefined,
      },
    ],
    kerf: 1,
    clearance: 0,
    edgeMargin: 3,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
  };
}

async function laid(of: Stacked): Promise<Layout> {
  const { layout } = await layOut(batchOf(of), { effort: 0 });
  expect(verifyLayout(layout).breaches, JSON.stringify(of)).toEqual([]);
  return layout;
}

/** Copies of every set that is wanted, and those beyond, from the numbers in the layout. */
function copiesOfSets({ boards, sets }: Layout): { wanted: number[]; spare: number } {
  const wanted = new Array<number>(sets).fill(0);
  let spare = 0;
  for (const { copies, placements } of boards) {
    for (const { set } of placements) {
      for (let each = set; each < set + copies; each++) {
        if (each <= sets) wanted[each - 1]++;
        else spare++;
      }
    }
  }
  return { wanted, spare };
}

/** height of the pile x copies on it */
const pilesOf = ({ boards }: Layout) => boards.map(({ copies, placements }) => [copies, placements.length]);

describe('sets sawn in stacks', () => {
  it('work out for every batch and height: no set short, no stack more, no board that a lower pile saves', async () => {
    for (let sets = 1; sets <= 13; sets++) {
      for (let stack = 1; stack <= 4; stack++) {
        const copiesPerSet = 1 + ((sets + stack) % 2);
        const layout = await laid({ sets, stack, quantity: 40, copiesPerSet });
        const job = `${sets} sets of ${copiesPerSet} in stacks of ${stack}`;
        const { wanted, spare } = copiesOfSets(layout);
        expect(wanted, job).toEqual(new Array(sets).fill(copiesPerSet));
        const sawn = layout.boards.reduce((sum, { placements }) => sum + placements.length, 0);
        expect(sawn, job).toBe(copiesPerSet * Math.ceil(sets / stack));
        expect(spare, job).toBeLessThan(copiesPerSet * stack);
        // No more than full stacks, and the sets that remain on boards of their own.
        const height = Math.ceil(sets / Math.ceil(sets / stack));
        const piles = (copies: number) => Math.ceil((copiesPerSet * copies) / ON_A_BOARD);
        const rest = sets % height;
        const apart = height * piles(Math.floor(sets / height)) + rest * piles(rest > 0 ? 1 : 0);
        expect(layout.figures.boards, job).toBeLessThanOrEqual(apart);
      }
    }
  });

  it('lay the sets that remain beside the others, one copy to spare', async () => {
    // By hand: 11 sets are four copies of three, which one pile of three boards holds; apart they took 3 + 2 boards.
    const layout = await laid({ sets: 11, stack: 3, quantity: 40 });
    expect(pilesOf(layout)).toEqual([[3, 4]]);
    expect(copiesOfSets(layout).spare).toBe(1);
    expect(layout.figures).toMatchObject({ completeSets: 11, boards: 3, parts: 12 });
  });

  it('lower the last pile by what is to spare', async () => {
    // By hand: 13 sets are five copies of three less two: four lie on three boards, the fifth on one.
    const layout = await laid({ sets: 13, stack: 3, quantity: 40 });
    expect(pilesOf(layout)).toEqual([
      [3, 4],
      [1, 1],
    ]);
    expect(layout.boards[1]).toMatchObject({ id: 'A-4', pieces: ['A-4'] });
    expect(layout.figures).toMatchObject({ boards: 4, parts: 13 });
  });

  it('are sawn in lower stacks where the boards make no second high one', async () => {
    // By hand: four boards hold sixteen copies; a pile of three gives twelve and leaves a board that makes no pile.
    const layout = await laid({ sets: 16, stack: 3, quantity: 4 });
    expect(layout.unplaced).toEqual([]);
    expect(pilesOf(layout)).toEqual([
      [2, 4],
      [2, 4],
    ]);
  });

  it('list as missing only sets that are wanted', async () => {
    const { unplaced, figures } = await laid({ sets: 14, stack: 3, quantity: 3 });
    expect(figures.completeSets).toBe(12);
    expect(unplaced.map(({ set }) => set)).toEqual([13, 14]);
  });
});

it('a stack of which there are too few boards is told, and neither one that is made nor a single set', async () => {
  const toldOf = async (of: Stacked) => {
    const { issues } = await layOut(batchOf(of), { effort: 0 });
    return issues.filter(({ kind }) => kind === 'stack-not-made').map(({ where }) => where?.layer);
  };
  expect(await toldOf({ sets: 4, stack: 3, quantity: 1 })).toEqual(['Leaves']);
  expect(await toldOf({ sets: 4, stack: 3, quantity: 2 })).toEqual([]);
  expect(await toldOf({ sets: 1, stack: 3, quantity: 1 })).toEqual([]);
});

describe('parts of one wood, some to be stacked and some not', () => {
  /** Leaves in stacks of two, and moons as large that are sawn by themselves. */
  function leavesAndMoons(sets: number, quantity: number): Batch {
    const batch = batchOf({ sets, stack: 2, quantity });
    const moon = { ...batch.demands[0], part: 'moon', layer: 'Moons', stack: 1 };
    return { ...batch, demands: [...batch.demands, moon] };
  }

  it('lie on one board where there is no other for a stack', async () => {
    const { layout, issues } = await layOut(leavesAndMoons(2, 1), { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(pilesOf(layout)).toEqual([[1, 4]]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    expect(issues.map(({ kind, where }) => [kind, where?.layer])).toEqual([['stack-not-made', 'Leaves']]);
  });

  it('take no board each where the boards make a stack for the ones or leave room for the others', async () => {
    const { layout } = await layOut(leavesAndMoons(2, 2), { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(pilesOf(layout)).toEqual([[1, 4]]);
  });

  it('take one board for a single set, of whatever else the batch is', async () => {
    const both = leavesAndMoons(1, 2);
    const oak = { ...both.demands[0], part: 'bank', layer: 'Shore', species: 'oak', stack: 1 };
    const batch = {
      ...both,
      demands: [oak, ...both.demands],
      boards: [{ ...both.boards[0], id: 'O', species: 'oak' }, ...both.boards],
    };
    const { layout } = await layOut(batch, { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(layout.boards.map(({ stock, placements }) => [stock, placements.length])).toEqual([
      ['O', 1],
      ['A', 2],
    ]);
    expect(verifyLayout(layout, batch).breaches).toEqual([]);
  });

  it('are searched together too', async () => {
    // By hand: eight copies fill two boards, where leaves and moons by themselves had taken one each.
    const { layout } = await layOut(leavesAndMoons(4, 2), { effort: 1 });
    expect(layout.unplaced).toEqual([]);
    expect(layout.figures).toMatchObject({ completeSets: 4, boards: 2 });
  });

  it('keep the stack that is made', async () => {
    const { layout } = await layOut(leavesAndMoons(8, 4), { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(layout.boards.map(({ copies }) => copies).sort()).toEqual([1, 1, 2]);
  });

  it('keep the stack that is made where a part of the wood fits no board at all', async () => {
    const batch = leavesAndMoons(2, 6);
    const region = { outline: rectangle(900, 40), openings: [] };
    const giant = { ...batch.demands[1], part: 'rail', layer: 'Jetty', region };
    const { layout, issues } = await layOut({ ...batch, demands: [...batch.demands, giant] }, { effort: 0 });
    expect(layout.unplaced.map(({ part }) => part)).toEqual(['rail', 'rail']);
    expect(layout.boards.map(({ copies }) => copies).sort()).toEqual([1, 2]);
    expect(issues.map(({ kind }) => kind)).toEqual(['copies-unplaced']);
  });

  it('counts the boards in a reason, not the stacks, and calls strips no boards', async () => {
    // Two stacks of three boards hold eight copies, each for three sets.
    const stacked = batchOf({ sets: 30, stack: 3, quantity: 6 });
    const whole = await layOut(stacked, { effort: 0 });
    expect(whole.layout.unplaced[0].why).toBe('no room left on the 6 boards of maple 6 mm');
    const [board] = stacked.boards;
    const strips = { ...board, strips: 3, whole: { outline: rectangle(300, 306), price: undefined } };
    const ripped = await layOut({ ...stacked, boards: [strips] }, { effort: 0 });
    expect(ripped.layout.unplaced[0].why).toBe('no room left on the 6 pieces of maple 6 mm');
  });
});
