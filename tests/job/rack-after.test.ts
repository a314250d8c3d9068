import { describe, expect, it } from 'vitest';
import type { Rates } from '../../src/costing/rates.ts';
import { woodCost } from '../../src/costing/wood-cost.ts';
import { ringArea } from '../../src/geometry/ring.ts';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import { boardFromEntry } from '../../src/job/board-from-entry.ts';
import { type Rack, readRack } from '../../src/job/rack.ts';
import { rackAfter } from '../../src/job/rack-after.ts';
import { readJob } from '../../src/job/read-job.ts';
import { stockOfJob } from '../../src/job/stock-of-job.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { Board } from '../../src/model/stock.ts';
import { Random } from '../../src/nesting/running/random.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { cutInto } from '../../src/stock/ripping.ts';
import { randomBatch } from '../nesting/random-batch.ts';
import { laidOut } from '../stock/layouts/laid-out.ts';

const NAME = { design: 'Shore', sets: 1, date: '2026-03-31' };

const box = (length: number, width: number): Ring => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
];

function rackText(boards: readonly Board[]): string {
  const entries = boards.map(({ id, species, thickness, outline, defects, quantity, price }) => ({
    id,
    species,
    thickness,
    outline,
    defects: defects.map((ring) => ({ outline: ring })),
    quantity,
    ...(price === undefined ? {} : { price }),
  }));
  return JSON.stringify({ boards: entries });
}

/** Gross area of all boards of a rack, mm2. */
function areaOf({ boards }: Rack): number {
  return boards.reduce((sum, entry) => sum + entry.quantity * ringArea(boardFromEntry(entry).outline), 0);
}

function batchOf(part: Ring, boards: Board[], change: Partial<Batch> = {}, stack?: number): Batch {
  return {
    sets: 4,
    demands: [
      {
        part: 'fir',
        layer: 'Trees',
        region: { outline: part, openings: [] },
        veins: [],
        copiesPerSet: 1,
        species: 'cherry',
        thickness: 6,
        rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
        ...(stack === undefined ? {} : { stack }),
      },
    ],
    boards,
    kerf: 1,
    clearance: 0,
    edgeMargin: 3,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
    ...change,
  };
}

const plank = (id: string, length: number, more: Partial<Board> = {}): Board => ({
  id,
  species: 'cherry',
  thickness: 6,
  outline: box(length, 100),
  defects: [],
  quantity: 1,
  price: undefined,
  ...more,
});

describe('the rack after a batch', () => {
  it.each(['mm', 'in'] as const)(
    'can be read again in %s where rounding lays sides of a keeper on one another',
    async (unit) => {
      const boards = [plank('A', 900)];
      const layout = await laidOut(batchOf(box(60, 60), boards, { sets: 1 }));
      // Apart by 4 um: a wedge along the upper side, a slit with a bend in it, and a hole.
      const outline: Ring = [
        ...[
          [300, 0],
          [500, 0],
          [500, 80],
          [320, 80],
          [322, 79.996],
          [322, 40],
        ].map(([x, y]) => [x, y] as const),
        ...[
          [350, 40.006],
          [399.99, 44.996],
          [350, 40],
          [300, 40],
        ].map(([x, y]) => [x, y] as const),
      ];
      const hole: Ring = [
        [450, 50],
        [450.003, 50],
        [450, 50.003],
      ];
      const [board] = layout.boards;
      const rectangle = { minX: 322, minY: 0, maxX: 500, maxY: 40 };
      const offcut = {
        id: 'k',
        region: { outline, openings: [hole] },
        rectangle,
        area: ringArea(outline),
        lines: [],
      };
      const kept = { ...layout, boards: [{ ...board, offcuts: [offcut] }] };
      const job = readJob(JSON.stringify({ pattern: 'p.svg', rack: 'r' }));
      const text = rackAfter(rackText(boards), kept, boards, { ...NAME, unit });
      expect(stockOfJob(job, { r: text }, 'job.json').issues).toEqual([]);
      const after = readRack(text);
      expect(after.boards[0].defects).toEqual([]);
      expect(ringArea(boardFromEntry(after.boards[0]).outline)).toBeCloseTo(ringArea(outline), -1);
    },
  );

  it.each(['mm', 'in'] as const)(
    'has outlines in %s that cross themselves nowhere, not even by micrometres',
    async (unit) => {
      const boards = [plank('A', 900)];
      const layout = await laidOut(batchOf(box(60, 60), boards, { sets: 1 }));
      // A slit a few micrometres wide, whose sides cross once they are rounded to 0.01 mm or 0.001 in.
      const slit = (x: number): Ring => [
        ...([
          [0, 0],
          [x + 4, 0],
          [x + 18, 1],
          [x + 1, 2],
          [x + 17, 2],
          [x + 22, 1.04],
          [x + 10, 0],
        ] as const),
        ...([
          [120e3, 0],
          [120e3, 80],
          [0, 80],
        ] as const),
      ];
      const [board] = layout.boards;
      for (let x = 50_000; x < 50_030; x++) {
        const outline: Ring = slit(x).map(([micrometres, y]) => [micrometres / 1000, y] as const);
        const rectangle = { minX: 51, minY: 0, maxX: 120, maxY: 80 };
        const offcut = { id: 'k', region: { outline, openings: [] }, rectangle, area: 9600, lines: [] };
        const kept = { ...layout, boards: [{ ...board, offcuts: [offcut] }] };
        const text = rackAfter(rackText(boards), kept, boards, { ...NAME, unit });
        const written = boardFromEntry(readRack(text).boards[0]).outline;
        expect(referenceRegion({ outline: written, openings: [] }).fault).toBeUndefined();
        expect(ringArea(written)).toBeCloseTo(9600, 0);
      }
    },
  );

  it('is no finer for a jagged end, traced in many short sides', async () => {
    const boards = [plank('A', 900)];
    const layout = await laidOut(batchOf(box(60, 60), boards, { sets: 1 }));
    const [board] = layout.boards;
    const jagged = Array.from(
      { length: 201 },
      (_, i): Point => [200 + 1.5 * Math.sin(1.7 * i), (80 * i) / 200],
    );
    const outline: Ring = [[0, 0], ...jagged, [0, 80]];
    const rectangle = { minX: 0, minY: 0, maxX: 190, maxY: 80 };
    const offcut = { id: 'k', region: { outline, openings: [] }, rectangle, area: 16_000, lines: [] };
    const text = rackAfter(
      rackText(boards),
      { ...layout, boards: [{ ...board, offcuts: [offcut] }] },
      boards,
      NAME,
    );
    const written = boardFromEntry(readRack(text).boards[0]).outline;
    expect(written.length).toBe(outline.length);
    expect(written.flat().every((mm) => mm === Number(mm.toFixed(2)))).toBe(true);
  });

  it('is the rack before less what was used, over random jobs', async () => {
    let kept = 0;
    for (let seed = 51; seed <= 66; seed++) {
      const random = new Random(seed);
      const plain = randomBatch(seed);
      const stack = 1 + random.below(3);
      const batch: Batch = {
        ...plain,
        sets: Math.min(4, plain.sets),
        demands: plain.demands.map((demand) => ({ ...demand, stack })),
        keep: { length: 50, width: 25 },
      };
      const text = rackText(batch.boards);
      const layout = await laidOut(batch);
      const after = readRack(rackAfter(text, layout, batch.boards, NAME));
      const gone = layout.boards.reduce(
        (sum, { copies, areas }) => sum + copies * (areas!.board - areas!.keepers),
        0,
      );
      const before = areaOf(readRack(text));
      // A defect in a keeper is an opening of its outline: the gross area of the rack counts it again.
      const flaws = after.boards.flatMap((entry) => {
        const { defects, keeper, quantity } = boardFromEntry(entry) as Required<Board>;
        return keeper ? defects.map((ring) => quantity * ringArea(ring)) : [];
      });
      const left = areaOf(after) - flaws.reduce((sum, area) => sum + area, 0);
      expect(Math.abs(left + gone - before) / before, `seed ${seed}`).toBeLessThan(1e-4);
      kept += after.lastBatch!.kept.length;
      expect(after.lastBatch!.used.reduce((sum, { boards }) => sum + boards, 0)).toBe(
        layout.boards.reduce((sum, { copies }) => sum + copies, 0),
      );
    }
    expect(kept).toBeGreaterThan(5);
  });

  it('writes what is new in the unit of the job, and 3/8 in as it is', async () => {
    const stock = [plank('A', 800, { thickness: 9.525, outline: box(800, 184.15) })];
    const batch = batchOf(box(60, 90), stock);
    const layout = await laidOut({ ...batch, demands: [{ ...batch.demands[0], thickness: 9.525 }] });
    const text = rackText(stock);
    const inches = rackAfter(text, layout, stock, { ...NAME, unit: 'in' });
    const [keeper] = JSON.parse(inches).boards;
    expect(keeper).toMatchObject({ id: 'K1', thickness: '0.375 in', width: '7.25 in' });
    expect(keeper.length).toMatch(/^\d+(\.\d{1,3})? in$/);
    const [inMm] = JSON.parse(rackAfter(text, layout, stock, NAME)).boards;
    expect(inMm).toMatchObject({ thickness: 9.525, width: 184.15 });
    // Read again they are the same piece, to half a thousandth of an inch.
    expect(Math.abs(readRack(inches).boards[0].length! - inMm.length)).toBeLessThan(0.0178);
  });

  it('leaves entries that were not touched as they are written, and takes what is used off the quantity', async () => {
    const text = JSON.stringify({
      boards: [
        {
          id: 'A',
          species: 'cherry',
          thickness: '6 mm',
          length: '800 mm',
          width: '100 mm',
          quantity: 3,
          price: 8,
        },
        { id: 'Oak', species: 'oak', thickness: '3/4 in', length: "6'", width: '7-1/4 in' },
      ],
    });
    const stock = readRack(text).boards.map(boardFromEntry);
    const layout = await laidOut(batchOf(box(60, 90), stock));
    const after = JSON.parse(rackAfter(text, layout, stock, NAME));
    const [first, oak, keeper] = after.boards;
    expect(first).toEqual({ ...JSON.parse(text).boards[0], quantity: 2 });
    expect(oak).toEqual(JSON.parse(text).boards[1]);
    expect(keeper).toMatchObject({ id: 'K1', keeper: true, from: 'A-1', since: '2026-03-31', width: 100 });
    expect(keeper.largest).toEqual({ length: keeper.length, width: 100 });
    // Half its share of the price is what a keeper is credited with, as in the estimate, where nobody says otherwise.
    expect(keeper.price).toBeCloseTo((0.5 * 8 * keeper.length) / 800, 2);
    expect(after.lastBatch).toMatchObject({ design: 'Shore', used: [{ id: 'A', boards: 1 }] });
  });

  it('remembers the batches of one day, the last first, and forgets those of another', async () => {
    const stock = [plank('A', 800, { quantity: 4 })];
    const layout = await laidOut(batchOf(box(60, 90), stock));
    let text = rackText(stock);
    const days: object[][] = [];
    for (const [design, date] of [
      ['Fir', '2026-03-30'],
      ['Pier', '2026-03-31'],
      ['Heron', '2026-03-31'],
      ['Fir', '2026-03-31'],
    ]) {
      text = rackAfter(text, layout, stock, { design, sets: 1, date, fingerprint: design });
      days.push(readRack(text).lastBatch!.earlierThatDay);
    }
    const told = (design: string) => ({ design, sets: 4, fingerprint: design });
    expect(days).toEqual([[], [], [told('Pier')], [told('Heron'), told('Pier')]]);
  });

  it('remembers of boards of jobs what was taken and left, over other batches', async () => {
    const fir = plank('Fir', 800, { quantity: 3 });
    const pier = plank('Pier', 800);
    let text = rackText([plank('A', 800)]);
    const taken: object[] = [];
    for (const board of [fir, pier, { ...fir, quantity: 2 }]) {
      const layout = await laidOut(batchOf(box(60, 90), [board]));
      text = rackAfter(text, layout, [board], NAME);
      taken.push(readRack(text).takenOfJobs);
    }
    const [first, other] = [
      { id: 'Fir', boards: 1, left: 2 },
      { id: 'Pier', boards: 1, left: 0 },
    ];
    expect(taken).toEqual([[first], [first, other], [other, { ...first, left: 1 }]]);
  });

  it('takes keepers when the order says so, and numbers new ones on', async () => {
    const text = JSON.stringify({
      boards: [
        { id: 'A', species: 'cherry', thickness: 6, length: 800, width: 100 },
        { id: 'K7', species: 'cherry', thickness: 6, length: 500, width: 100, keeper: true },
      ],
    });
    const stock = readRack(text).boards.map(boardFromEntry);
    const layout = await laidOut(batchOf(box(40, 90), stock));
    const after = readRack(rackAfter(text, layout, stock, NAME));
    expect(after.boards.map(({ id }) => id)).toEqual(['A', 'K8']);
    // A board of the job has a name of that kind too, and the job is read beside the new rack.
    const own = { ...stock[0], id: 'K20' };
    const { boards } = readRack(rackAfter(text, layout, [...stock, own], NAME));
    expect(boards.map(({ id }) => id)).toEqual(['A', 'K21']);
  });

  it('keeps the slices of a resawn board that nothing lies on', async () => {
    const stock = [plank('Thick', 800, { thickness: 44, price: 30 })];
    const text = rackText(stock);
    const layout = await laidOut(batchOf(box(60, 90), stock));
    // 44 mm holds (44 + 3.175) / (6 + 1.5875 + 3.175) = 4.38: four slices of 6 mm.
    expect(layout.boards).toMatchObject([{ id: 'Thick-1a', slices: 4, planeTo: 6, copies: 1 }]);
    const after = readRack(rackAfter(text, layout, stock, NAME));
    expect(after.boards).toMatchObject([
      { quantity: 3, thickness: 8.619, price: 7.5 },
      { keeper: true, thickness: 6 },
    ]);
  });

  it('says of slices that nothing lies on what is still to be trimmed off them', async () => {
    const trim = { topEdge: 0, straightEdge: 'clean', leftEnd: 25, rightEnd: 40 } as const;
    const stock = [plank('Thick', 800, { thickness: 44, trim })];
    const layout = await laidOut(batchOf(box(60, 90), stock));
    const [slices] = readRack(rackAfter(rackText(stock), layout, stock, NAME)).boards;
    // Of the slice that is used the ends are gone.
    expect(slices).toMatchObject({ quantity: 3, length: 800, trim });
    const untrimmed = [plank('Thick', 800, { thickness: 44 })];
    const plain = await laidOut(batchOf(box(60, 90), untrimmed));
    expect(rackAfter(rackText(untrimmed), plain, untrimmed, NAME)).not.toContain('trim');
  });

  it('keeps what is left of each board where boards of one entry are used in different ways', async () => {
    // By hand: 19 mm are 2 slices of 3 mm, (19 - 3.175) / 2 = 7.91 mm rough each; the other board is used as it is.
    const stock = [plank('A', 300, { thickness: 19, quantity: 2, price: 12 })];
    const plain = batchOf(box(290, 90), stock, { sets: 1 });
    const [demand] = plain.demands;
    const thick = { ...demand, thickness: 19 };
    const thin = { ...demand, layer: 'Thin', thickness: 3 };
    for (const demands of [
      [thick, thin],
      [thin, thick],
    ]) {
      const layout = await laidOut({ ...plain, demands });
      const after = readRack(rackAfter(rackText(stock), layout, stock, NAME));
      expect(after.boards).toMatchObject([{ quantity: 1, thickness: 7.913, price: 6, from: 'A' }]);
      expect(after.lastBatch!.used).toEqual([{ id: 'A', boards: 2 }]);
    }
  });

  it('keeps whole strips and slices of strips as entries of their own', async () => {
    // One board of 19 mm in three strips: one for the thick part, one resawn into two for the thin one.
    const strips = plank('A', 300, { thickness: 19, quantity: 3, strips: 3, price: 4 });
    const plain = batchOf(box(290, 90), [strips], { sets: 1 });
    const [demand] = plain.demands;
    const demands = [
      { ...demand, thickness: 19 },
      { ...demand, layer: 'Thin', thickness: 3 },
    ];
    const layout = await laidOut({ ...plain, demands });
    const rack = rackText([{ ...strips, outline: box(300, 306), quantity: 1 }]);
    const after = readRack(rackAfter(rack, layout, [strips], NAME));
    expect(after.boards).toMatchObject([
      { thickness: 19, length: 300, width: 100, price: 4 },
      { thickness: 7.913, length: 300, width: 100, price: 2 },
    ]);
    expect(after.boards.map(({ quantity }) => quantity)).toEqual([1, 1]);
  });

  it('says of what is left whether its top edge is that of a board that is straight there, or was ripped', async () => {
    // In the full width of a board beside the parts.
    const kept = async (part: Ring, width: number, more: Partial<Board>) => {
      const stock = [plank('A', 600, { outline: box(600, width), ...more })];
      const layout = await laidOut(batchOf(part, stock, { sets: 2 }));
      return readRack(rackAfter(rackText(stock), layout, stock, NAME)).boards.map((entry) => [
        entry.length,
        entry.width,
        entry.straightTopEdge,
      ]);
    };
    const across = box(130, 94);
    expect(await kept(across, 100, { straightTopEdge: true })).toMatchObject([
      [expect.any(Number), 100, true],
    ]);
    expect(await kept(across, 100, {})).toMatchObject([[expect.any(Number), 100, undefined]]);
    // And one from below parts that lie along the top edge, ripped off.
    const long = await kept(box(290, 94), 280, { straightTopEdge: true });
    expect(long).toEqual([
      [expect.any(Number), 280, true],
      [expect.any(Number), expect.any(Number), true],
    ]);
    expect(long[1][1]).toBeLessThan(190);
  });

  it('says so of the strips of a sheet on which nothing lies', async () => {
    const strips = plank('A', 300, { sheet: true, quantity: 3, strips: 3, price: 4 });
    const layout = await laidOut(batchOf(box(290, 90), [strips], { sets: 1 }));
    const rack = rackText([{ ...strips, outline: box(300, 306), quantity: 1 }]);
    const after = readRack(rackAfter(rack, layout, [strips], NAME));
    expect(after.boards).toMatchObject([{ quantity: 2, sheet: true, straightTopEdge: true, keeper: true }]);
  });

  it('refuses a rack in which two boards have one id', () => {
    const one = { id: 'A', length: 10, width: 10 };
    expect(() => readRack(JSON.stringify({ boards: [one, one] }))).toThrow(/boards\[1\]\.id.*twice/s);
  });
});

describe('stacks', () => {
  it('lays out once for the stack, and the sets that remain in a lower one', async () => {
    const stock = [plank('A', 300, { quantity: 4 })];
    const layout = await laidOut(batchOf(box(60, 90), stock, { sets: 13 }, 3));
    // 13 sets in stacks of 3: four copies on a stack of three boards, one on a single board.
    expect(layout.boards.map(({ id, copies, placements }) => [id, copies, placements.length])).toEqual([
      ['A-1', 3, 4],
      ['A-4', 1, 1],
    ]);
    expect(layout.boards[0].pieces).toEqual(['A-1', 'A-2', 'A-3']);
    expect(layout.boards[0].placements.map(({ set }) => set)).toEqual([1, 4, 7, 10]);
    expect(layout.boards[1].placements[0].set).toBe(13);
    expect(layout.figures).toMatchObject({ completeSets: 13, boards: 4, parts: 13 });
  });

  it('makes twelve sets in stacks of three from four copies', async () => {
    const stock = [plank('A', 300, { quantity: 3 })];
    const layout = await laidOut(batchOf(box(60, 90), stock, { sets: 12 }, 3));
    expect(layout.boards).toHaveLength(1);
    expect(layout.boards[0].placements).toHaveLength(4);
    expect(layout.figures.completeSets).toBe(12);
  });

  it('lowers the stack to the boards there are', async () => {
    const stock = [plank('A', 300, { quantity: 2 })];
    const layout = await laidOut(batchOf(box(60, 90), stock, { sets: 4 }, 3));
    expect(layout.boards.map(({ copies }) => copies)).toEqual([2]);
    expect(layout.unplaced).toEqual([]);
  });
});

describe('what a batch costs in wood', () => {
  // By hand: two parts of 60 mm with a kerf of 1 mm and a cross-cut of 3 mm on either side leave pieces of
  // 196, 232 and 236 mm of a board of 800 mm: 83 % of 9.99 are 8.29. Each by itself would be 2.45 + 2.90 + 2.95.
  // Credited with half of it they are 4.15; what a batch is not charged is what the next one pays for them.
  it.each([
    [1, [2.95, 2.89, 2.45], 829],
    [0.5, [1.48, 1.45, 1.22], 415],
    [0, [0, 0, 0], 0],
  ])(
    'is what was paid less what the keepers are worth in the rack, to the cent: credit %d',
    async (keeperCredit, each, credit) => {
      const pin = {
        layer: 'Trees',
        part: 'fir',
        board: 'A',
        number: 1,
        y: 5,
        rotation: 0,
        turnedOver: false,
      };
      const batch = batchOf(box(60, 90), [plank('A', 800, { price: 9.99 })], {
        sets: 2,
        pins: [
          { ...pin, x: 200 },
          { ...pin, x: 500 },
        ],
        keep: { length: 50, width: 50 },
        crosscutKerf: 3,
      });
      const layout = await laidOut(batch);
      const name = { ...NAME, keeperCredit };
      const after = readRack(rackAfter(rackText(batch.boards), layout, batch.boards, name));
      const worth = after.boards.map(({ price }) => price as number);
      expect(worth).toEqual(each);
      const { lines } = woodCost(layout, batch.boards, { keeperCredit } as Rates);
      expect(lines.map(({ cents }) => cents.likely)).toEqual(credit === 0 ? [999] : [999, -credit]);
      const used = lines.reduce((sum, { cents }) => sum + cents.likely, 0);
      expect(used + Math.round(100 * worth.reduce((a, b) => a + b, 0))).toBe(999);
    },
  );
});

describe('the price of strips that are left', () => {
  it('leaves what it is rounded by to the keepers of the same board: what was paid comes out to the cent', async () => {
    // By hand: 44.00 in seven strips is 6.2857 each; five at 6.29 are two cents more than their 31.43.
    const sheet = { ...plank('S', 800, { price: 44 }), outline: box(800, 7 * 100 + 6 * 3) };
    const strips = cutInto({ strips: 7, lengths: 1 }, sheet, 3);
    const keep = { length: 50, width: 50 };
    const layout = await laidOut(batchOf(box(300, 90), [strips], { sets: 3, keep, crosscutKerf: 3 }));
    const after = readRack(rackAfter(rackText([sheet]), layout, [strips], { ...NAME, keeperCredit: 1 }));
    const [left, ...keepers] = after.boards;
    expect(left).toMatchObject({ quantity: 5, price: 6.29, length: 800, width: 100 });
    expect(keepers).toHaveLength(2);
    const worth = after.boards.reduce((sum, { quantity, price }) => sum + quantity * (price as number), 0);
    const { lines } = woodCost(layout, [strips], { keeperCredit: 1 } as Rates);
    const used = lines.reduce((sum, { cents }) => sum + cents.likely, 0);
    expect(used + Math.round(100 * worth)).toBe(4400);
  });
});

describe('the prices of slices and strips with no keeper after them', () => {
  it.each<[strips: number, price: number, sets: number, left: number[][]]>([
    // Half of 45.01 is 22.505: charged at 22.51, which leaves 22.50 and not as much again.
    [2, 45.01, 1, [[1, 22.5]]],
    // Five strips of 32.14 stay one entry, as a stack asks for.
    [7, 45, 2, [[5, 6.428]]],
    [7, 44, 4, [[3, 6.28667]]],
  ])('make up with the batch what was paid: one of %d of %d', async (strips, price, sets, left) => {
    const sheet = { ...plank('S', 800, { price }), outline: box(800, strips * 100 + (strips - 1) * 3) };
    const stock = cutInto({ strips, lengths: 1 }, sheet, 3);
    const layout = await laidOut(batchOf(box(700, 90), [stock], { sets, keep: { length: 300, width: 90 } }));
    const after = readRack(rackAfter(rackText([sheet]), layout, [stock], NAME));
    expect(after.boards.map((entry) => [entry.quantity, entry.price])).toEqual(left);
    const { lines } = woodCost(layout, [stock], { keeperCredit: 0.5 } as Rates);
    const worth = left.reduce((sum, [quantity, each]) => sum + quantity * each, 0);
    expect(lines[0].cents.likely + Math.round(100 * worth)).toBe(Math.round(100 * price));
  });
});

describe('a rack that cannot be settled', () => {
  const oneBoard: Board = {
    id: 'A',
    species: 'cherry',
    thickness: 6,
    outline: box(200, 60),
    defects: [],
    quantity: 1,
    price: undefined,
  };
  const text = rackText([oneBoard]);

  it('has fewer boards of an entry than the layout takes', async () => {
    const stock = [{ ...oneBoard, quantity: 4 }];
    const layout = await laidOut(batchOf(box(180, 50), stock));
    expect(() => rackAfter(text, layout, stock, NAME)).toThrow(
      'boards[0].quantity, board "A": the layout takes more boards of this entry than the rack has (expected 4 boards, found 1)',
    );
  });

  it.each(['nonsense', '2026-02-31', '31.3.2026', 5, null])('is dated %o', async (date) => {
    const layout = await laidOut(batchOf(box(180, 50), [oneBoard]));
    expect(() => rackAfter(text, layout, [oneBoard], { ...NAME, date } as never)).toThrow('batch.date');
  });
});
