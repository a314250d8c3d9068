import { describe, expect, test } from 'vitest';
import { boundsOf, type Point, type Ring } from '../../src/geometry/shapes.ts';
import type { Batch, Demand, PlacingRules } from '../../src/model/batch.ts';
import type { LayOutOptions, LayOutProgress } from '../../src/model/laying-out.ts';
import type { Board } from '../../src/model/stock.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { randomBatch } from './random-batch.ts';

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function disc(radius: number, points = 48): Ring {
  return Array.from({ length: points }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / points;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

const ALONG: PlacingRules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false };

function demand(part: string, outline: Ring, copiesPerSet: number, rest: Partial<Demand> = {}): Demand {
  return {
    part,
    layer: 'hills',
    region: { outline, openings: [] },
    veins: [],
    copiesPerSet,
    species: 'black walnut',
    thickness: 19,
    rules: ALONG,
    ...rest,
  };
}

function board(id: string, length: number, width: number, rest: Partial<Board> = {}): Board {
  const outline = rectangle(length, width);
  return {
    id,
    species: 'Black Walnut',
    thickness: 19.2,
    outline,
    defects: [],
    quantity: 1,
    price: undefined,
    ...rest,
  };
}

function batch(demands: Demand[], boards: Board[], rest: Partial<Batch> = {}): Batch {
  return {
    sets: 1,
    demands,
    boards,
    kerf: 1,
    clearance: 0,
    edgeMargin: 2,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
    ...rest,
  };
}

/** Random jobs of the fuzz test; `FRETLAY_FUZZ_JOBS=500 npx vitest run tests/nesting/lay-out` runs many more. */
const JOBS = Number(process.env.FRETLAY_FUZZ_JOBS ?? 14);

describe('layOut', () => {
  test(
    'every layout of random jobs passes the independent verifier',
    async () => {
      for (let seed = 1; seed <= JOBS; seed++) {
        const job = { ...randomBatch(seed), ...(seed % 4 === 3 ? { setsTogether: true } : {}) };
        const { layout } = await layOut(job, { effort: seed % 5 === 0 ? 0.5 : 0 });
        expect(verifyLayout(layout).breaches, `seed ${seed}`).toEqual([]);
      }
    },
    60_000 + 3000 * JOBS,
  );

  test('every other copy of a layout pinned where it lies: the others find their places again', async () => {
    for (let seed = 1; seed <= 4; seed++) {
      const free = randomBatch(seed);
      const { layout } = await layOut(free, { effort: 0 });
      const pins = layout.boards.flatMap(({ stock, id, placements }) =>
        placements
          .filter((_, i) => i % 2 === 0)
          .map((copy) => ({ ...copy, board: stock, number: Number(id.slice(stock.length + 1)) })),
      );
      const again = (await layOut({ ...free, pins }, { effort: 0 })).layout;
      expect(verifyLayout(again).breaches, `seed ${seed}`).toEqual([]);
      for (const { layer, part, x, y, rotation } of pins) {
        const lying = again.boards.flatMap(({ placements }) => placements);
        expect(lying).toContainEqual(expect.objectContaining({ layer, part, x, y, rotation }));
      }
    }
  });

  test('same job, seed and effort give the same layout, another seed another one', async () => {
    const job = batch(
      [demand('hill', disc(20), 9), demand('ridge', [...rectangle(50, 30)].slice(0, 3), 8)],
      [board('plank', 300, 150)],
    );
    const first = await layOut(job, { effort: 2, seed: 5 });
    const again = await layOut(job, { effort: 2, seed: 5 });
    const other = await layOut(job, { effort: 2, seed: 6 });
    expect(again.layout).toEqual(first.layout);
    expect(other.layout.boards).not.toEqual(first.layout.boards);
  });

  test('a small part goes into the opening of a large one when the board has no other room', async () => {
    const frame = demand('frame', rectangle(100, 100), 1, {
      region: {
        outline: rectangle(100, 100),
        openings: [rectangle(60, 60).map(([x, y]): Point => [x + 20, y + 20])],
      },
    });
    const { layout } = await layOut(batch([frame, demand('sun', disc(25), 1)], [board('square', 106, 106)]));
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('copies that find no place are listed with a reason a person understands', async () => {
    const { layout, issues } = await layOut(
      batch(
        [demand('beam', rectangle(500, 40), 1), demand('tile', rectangle(90, 90), 4)],
        [board('short', 200, 100)],
      ),
      { effort: 0.2 },
    );
    const why = Object.fromEntries(layout.unplaced.map((copy) => [copy.part, copy.why]));
    expect(why.beam).toBe('larger than every board of black walnut 19 mm');
    expect(why.tile).toBe('no room left on the board of black walnut 19 mm');
    expect(layout.unplaced.filter(({ part }) => part === 'tile')).toHaveLength(2);
    expect(issues.map(({ kind }) => kind)).toEqual(['copies-unplaced', 'copies-unplaced']);
    expect(layout.figures.completeSets).toBe(0);
  });

  test('of boards too small for a part only the others are told to be full', async () => {
    const { layout } = await layOut(
      batch([demand('tile', rectangle(90, 90), 4)], [board('short', 200, 100), board('slim', 200, 50)]),
      { effort: 0 },
    );
    expect(layout.unplaced.map(({ why }) => why)).toEqual(
      Array(2).fill('no room left on the one of 2 boards of black walnut 19 mm large enough for it'),
    );
  });

  test('the reason of a part that may be turned is found once, however many of its copies find no place', async () => {
    const readsOf = async (sets: number) => {
      let reads = 0;
      // The rules are read for every angle at which the part is held against the boards.
      const rules: PlacingRules = {
        ...ALONG,
        grain: 'free',
        get restEdge() {
          reads++;
          return false;
        },
      };
      const wheel = demand('wheel', disc(60), 1, { rules });
      const { layout } = await layOut(batch([wheel], [board('slim', 300, 100)], { sets }), { effort: 0 });
      expect(layout.unplaced).toHaveLength(sets);
      return reads;
    };
    expect(await readsOf(100)).toBeLessThan(2 * (await readsOf(5)));
  });

  test('that boards of an entry are not looked at is told where those that are looked at are all full', async () => {
    const told = async (sets: number, defects: Ring[]) => {
      const stock = board('square', 100, 100, { quantity: 302, defects });
      const { layout } = await layOut(batch([demand('tile', rectangle(90, 90), 1)], [stock], { sets }), {
        effort: 0,
      });
      return layout.unplaced.map(({ why }) => why);
    };
    expect(await told(301, [])).toEqual([
      'no room left on the 300 boards of black walnut 19 mm; of one entry no more than 300 are looked at, so enter the others as a second one',
    ]);
    // A knot in the middle of each leaves no board for it, however many there are.
    const knot = rectangle(10, 10).map(([x, y]): Point => [x + 45, y + 45]);
    const [why] = await told(1, [knot]);
    expect(why).toMatch(/^no room left on the \d+ boards of black walnut 19 mm$/);
  });

  test('a batch that is changed in place and laid out again is laid out as it is then', async () => {
    const outline = rectangle(40, 30).map(([x, y]) => [x, y] as [number, number]);
    const changed = {
      ...batch([demand('a', rectangle(40, 30), 1), demand('b', outline, 1)], [board('plank', 300, 120)]),
    };
    await layOut(changed, { effort: 0 });
    outline[1][0] = 80;
    outline[2][0] = 80;
    changed.edgeMargin += 4;
    const { layout } = await layOut(changed, { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout, changed).breaches).toEqual([]);
  });

  test('of a board whose sections are too short for a part the saw is told, not the board', async () => {
    const boards = [board('slim', 300, 90), board('wide', 300, 200)];
    const reach = { throat: 240, longest: undefined };
    const { layout, issues } = await layOut(
      batch([demand('reed', rectangle(150, 80), 2)], boards, { reach }),
      { effort: 0 },
    );
    expect(layout.unplaced.map(({ why }) => why)).toEqual([
      'no room left on the one of 2 boards of black walnut 19 mm large enough for it; 1 more would hold it whole, but not in sections cut for the saw',
    ]);
    expect(issues.find(({ kind }) => kind === 'copies-unplaced')?.remedy).toContain('"strips"');
  });

  test.each([
    ['waney', 90],
    ['off the level by a tenth', 99.9],
  ])('a lower edge that is %s is told where a flat bottom would have to stand on it', async (_, ends) => {
    const outline: Ring = [
      [0, 0],
      [200, 0],
      [200, ends],
      [100, 100],
      [0, ends],
    ];
    const bank = demand('bank', rectangle(90, 20), 1, { rules: { ...ALONG, restEdge: true } });
    const slab = board('slab', 200, 100, { outline });
    const told = async (boards: Board[]) => {
      const { layout, issues } = await layOut(batch([bank], boards), { effort: 0 });
      expect(issues[0].remedy).toContain('"straightEdge": "clean"');
      expect(issues[0].remedy).not.toContain('"strips"');
      return layout.unplaced.map(({ why }) => why);
    };
    const unripped = 'no straight edge, for the lower one is not ripped';
    const wood = 'of black walnut 19 mm';
    const room = 'no room left on the straight edge of';
    expect(await told([slab])).toEqual([`${room} the board ${wood}, which has ${unripped}`]);
    // What is too small for it would not hold it with a straight edge either.
    const small = { ...slab, id: 'small', outline: outline.map(([x, y]) => [x / 4, y / 4] as const) };
    expect(await told([slab, small])).toEqual([
      `${room} the one of 2 boards ${wood} large enough for it, which has ${unripped}`,
    ]);
    const pair = [slab, { ...slab, id: 'other' }];
    expect(await told(pair)).toEqual([`${room} the 2 boards ${wood}, all of which have ${unripped}`]);
  });

  test('a straight edge that is unsound is told, with what of it has to come off: "clean" takes nothing off a rectangle', async () => {
    const bank = demand('bank', rectangle(90, 20), 2, { rules: { ...ALONG, restEdge: true } });
    const told = async (change: Partial<Board>, alongTo = 200, from = 92) => {
      const defects = [rectangle(alongTo, 100 - from).map(([x, y]) => [x, y + from] as const)];
      const slab = board('slab', 200, 100, { defects, ...change });
      const { layout, issues } = await layOut(batch([bank], [slab]), { effort: 0 });
      return [layout.unplaced.at(-1)?.why, issues.at(-1)?.remedy];
    };
    const trim = { topEdge: 0, straightEdge: 'clean', leftEnd: 0, rightEnd: 0 } as const;
    for (const [why, remedy] of [await told({}), await told({ trim }), await told({}, 105)]) {
      expect(why).toBe(
        'no room left on the straight edge of the board of black walnut 19 mm, which has no sound straight edge, for defects run along most of the lower one',
      );
      expect(remedy).toContain('Rip the defects off: "straightEdge" under "trim", as far up as they reach.');
      expect(remedy).not.toContain('"clean"');
      expect(remedy).not.toContain('"strips"');
    }
    expect(await told({ trim: { ...trim, straightEdge: 8 } })).toEqual([undefined, undefined]);
  });

  test('of a part that has to stand on the straight edge that edge is told to be full, not the board', async () => {
    const bank = demand('bank', rectangle(90, 20), 3, { rules: { ...ALONG, restEdge: true } });
    const { layout, issues } = await layOut(batch([bank], [board('wide', 200, 100)]), { effort: 0 });
    expect(layout.unplaced.map(({ why }) => why)).toEqual([
      'no room left on the straight edge of the board of black walnut 19 mm',
    ]);
    expect(issues[0].remedy).toContain('"restEdge"');
    expect(issues[0].remedy).toMatch(
      /^This is the first layout alone, of effort 0: let it search\. Else: Add stock/,
    );
    const searched = await layOut(batch([bank], [board('wide', 200, 100)]), { effort: 0.1 });
    expect(searched.issues[0].remedy).toMatch(/^Add stock/);
    expect(issues[0].remedy).toContain('rip wide boards into "strips"');
    // A board with a trim, knots or another outline is refused with "strips".
    expect(issues[0].remedy).toContain(
      'enter those of one that is no plain rectangle as boards of their own',
    );
    expect(issues[0].remedy).toContain('"straightTopEdge"');
  });

  test('where all boards are straight above too both edges are told to be full, and none is asked to be said so', async () => {
    const bank = demand('bank', rectangle(90, 20), 5, { rules: { ...ALONG, restEdge: true } });
    const wide = { ...board('wide', 200, 100), straightTopEdge: true };
    const told = async (boards: Board[]) => {
      const { layout, issues } = await layOut(batch([bank], boards), { effort: 0 });
      return [layout.unplaced[0].why, issues[0].remedy?.includes('straightTopEdge')];
    };
    const wood = 'of black walnut 19 mm';
    expect(await told([wide])).toEqual([`no room left on either straight edge of the board ${wood}`, false]);
    const low = board('low', 20, 100);
    expect(await told([wide, low])).toEqual([
      `no room left on either straight edge of the one of 2 boards ${wood} large enough for it`,
      false,
    ]);
    const rough = { ...board('rough', 95, 100), quantity: 1 };
    const many = { ...bank, copiesPerSet: 6 };
    const { layout } = await layOut(batch([many], [wide, rough]), { effort: 0 });
    expect(layout.unplaced.map(({ why }) => why)).toEqual([
      `no room left on the straight edge of the 2 boards ${wood}`,
    ]);
  });

  test('a demand without a board of its wood is reported', async () => {
    const { layout, issues } = await layOut(
      batch([demand('leaf', disc(10), 1, { species: 'holly' })], [board('plank', 100, 100)]),
    );
    expect(layout.unplaced[0].why).toBe('there is no board of holly 19 mm');
    expect(issues.map(({ kind }) => kind)).toEqual(['no-board-of-this-wood', 'copies-unplaced']);
  });

  test('boards of the wood that others have, or of which nothing is left, are not told to be missing', async () => {
    const slab = { ...board('slab', 100, 60), thickness: 25 };
    const leaf = demand('leaf', rectangle(50, 50), 1, { thickness: 25 });
    const thin = demand('thin', rectangle(50, 50), 1, { layer: 'thin' });
    const pins = [{ layer: 'thin', part: 'thin', board: 'slab', number: 1, x: 5, y: 5, rotation: 0 }];
    const pinned = await layOut({ ...batch([leaf, thin], [slab]), pins }, { effort: 0 });
    expect(pinned.issues.map(({ kind, message }) => `${kind}: ${message}`)).toEqual([
      'copies-unplaced: 1 copy found no place: the boards of black walnut 25 mm are taken by other parts, or too few for a stack',
    ]);

    const trim = { topEdge: 30, straightEdge: 30, leftEnd: 0, rightEnd: 0 };
    const trimmed = await layOut(batch([leaf], [{ ...slab, trim }]), { effort: 0 });
    expect(trimmed.issues.map(({ kind, message }) => `${kind}: ${message}`)).toEqual([
      'copies-unplaced: 1 copy found no place: trims and defects leave nothing of the boards of black walnut 25 mm',
    ]);
  });

  test('a part with a rest edge stands on the straight edge of the board, unturned', async () => {
    const hill = demand(
      'hill',
      [
        [0, 40],
        [30, 0],
        [60, 10],
        [90, 40],
      ],
      3,
      {
        rules: { ...ALONG, restEdge: true },
      },
    );
    const { layout } = await layOut(batch([hill], [board('plank', 320, 100)], { edgeMargin: 4 }));
    expect(layout.unplaced).toEqual([]);
    for (const { region, rotation, turnedOver } of layout.boards[0].placements) {
      expect(boundsOf(region.outline).maxY).toBeCloseTo(100, 4);
      expect([rotation, turnedOver]).toEqual([0, false]);
    }
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('parts with round bottoms stand on that edge too, also where the quick first layout is the best', async () => {
    // Blobs of many points, each by a simpler outline in the search: none may hang below the true one.
    const round = (part: string, waves: number) =>
      demand(
        part,
        Array.from({ length: 240 }, (_, i) => {
          const turn = (i * Math.PI) / 120;
          const radius = 25 + 4 * Math.sin(waves * turn + waves);
          return [radius * Math.cos(turn), radius * Math.sin(turn)] as const;
        }),
        2,
        { rules: { ...ALONG, restEdge: true } },
      );
    const demands = [3, 5, 7, 8].map((waves) => round(`blob ${waves}`, waves));
    const knot: Ring = [
      [200, 20],
      [215, 20],
      [215, 35],
      [200, 35],
    ];
    const plank = { ...board('plank', 520, 140), defects: [knot] };
    const { layout } = await layOut(batch(demands, [plank], { reach: { throat: 240, longest: undefined } }), {
      effort: 0,
    });
    expect(layout.unplaced).toEqual([]);
    for (const { region } of layout.boards[0].placements) {
      expect(boundsOf(region.outline).maxY).toBeCloseTo(140, 3);
    }
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('as many sets as fit are completed when the stock is too small', async () => {
    // A set is a 90 x 90 block and a 90 x 9 bar: a 300 x 100 board has room for three blocks, but each set needs both.
    const { layout } = await layOut(
      batch(
        [demand('block', rectangle(90, 90), 1), demand('bar', rectangle(90, 9), 1)],
        [board('plank', 300, 105)],
        {
          sets: 5,
        },
      ),
    );
    expect(layout.figures.completeSets).toBe(3);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('one complete set counts for more than more copies, also when the search is stopped', async () => {
    // By hand: the board has room for three blocks side by side, or for one block and one bar.
    const holly = { species: 'holly', thickness: 6 };
    const job = batch(
      [
        demand('block', rectangle(41, 36), 1),
        demand('bar', rectangle(80, 18), 1),
        demand('sun', disc(12), 1, holly),
      ],
      [board('plank', 129, 40), board('sheet', 300, 200, holly)],
      { sets: 3 },
    );
    const stop = new AbortController();
    const onProgress: LayOutOptions['onProgress'] = ({ done }) => (done >= 0.5 ? stop.abort() : undefined);
    for (const options of [{ effort: 0 }, { effort: 1 }, { effort: 1, signal: stop.signal, onProgress }]) {
      const { layout } = await layOut(job, options);
      expect([layout.figures.completeSets, layout.unplaced.length]).toEqual([1, 4]);
    }
    expect(stop.signal.aborted).toBe(true);
  });

  test('pinned copies stay where they are, the others are laid around and into them', async () => {
    const frame = demand('frame', rectangle(100, 100), 1, {
      region: {
        outline: rectangle(100, 100),
        openings: [rectangle(60, 60).map(([x, y]): Point => [x + 20, y + 20])],
      },
    });
    const job = batch([frame, demand('sun', disc(24), 5)], [board('plank', 300, 106, { quantity: 2 })], {
      sets: 2,
      pins: [
        {
          layer: 'hills',
          part: 'frame',
          board: 'plank',
          number: 2,
          x: 220,
          y: 103,
          rotation: 180,
          turnedOver: false,
        },
        {
          layer: 'hills',
          part: 'sun',
          board: 'plank',
          number: 1,
          x: 40,
          y: 60,
          rotation: 0,
          turnedOver: false,
        },
      ],
    });
    const { layout } = await layOut(job, { effort: 0.5 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    const [first, second] = layout.boards;
    expect([first.id, second.id]).toEqual(['plank-1', 'plank-2']);
    expect(second.placements).toContainEqual(
      expect.objectContaining({ part: 'frame', x: 220, y: 103, rotation: 180 }),
    );
    expect(first.placements).toContainEqual(expect.objectContaining({ part: 'sun', x: 40, y: 60 }));
    expect(layout.figures.parts).toBe(12);
  });

  test('sets that stay together lie each on one board, as many as fit', async () => {
    // A board of 400 x 100 holds four tiles: one set of three and one more tile, which then has to stay off.
    const job = batch([demand('tile', rectangle(90, 90), 3)], [board('plank', 400, 100, { quantity: 3 })], {
      sets: 4,
      setsTogether: true,
    });
    const { layout } = await layOut(job, { effort: 0.5 });
    expect(layout.boards.map(({ placements }) => placements.map(({ set }) => set))).toEqual([
      [1, 1, 1],
      [2, 2, 2],
      [3, 3, 3],
    ]);
    expect(layout.unplaced).toEqual(
      Array(3).fill({ part: 'tile', layer: 'hills', set: 4, why: 'no board has room left for a whole set' }),
    );
    expect(verifyLayout(layout).breaches).toEqual([]);
    const free = await layOut({ ...job, setsTogether: false }, { effort: 0.5 });
    const apart = { ...free.layout, setsTogether: true };
    expect(free.layout.unplaced).toEqual([]);
    expect(verifyLayout(apart).breaches.map(({ kind }) => kind)).toContain('set-apart');
  });

  test('sets that stay together take the first of several boards alike', async () => {
    // Boards in sections differ in what the cross-cuts leave of them, and the best of them was taken, whatever its number.
    const job = batch([demand('tile', rectangle(60, 60), 4)], [board('plank', 700, 140, { quantity: 4 })], {
      sets: 5,
      setsTogether: true,
      reach: { throat: 300, longest: undefined },
    });
    const { layout } = await layOut(job, { effort: 0 });
    expect(layout.boards.map(({ id, pieces }) => [id, pieces])).toEqual([['plank-1', ['plank-1']]]);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('the search saves a board where order alone does not', async () => {
    // Eight right triangles of 96 x 96 make four squares; boxes of them would need two boards.
    const triangle: Ring = [
      [0, 0],
      [96, 0],
      [0, 96],
    ];
    const job = batch([demand('gable', triangle, 8)], [board('plank', 408, 105, { quantity: 2 })]);
    const { layout } = await layOut(job, { effort: 4 });
    expect(layout.unplaced).toEqual([]);
    expect(layout.figures.boards).toBe(1);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('discs: the plain grid where it beats staggered rows', async () => {
    // 600 x 150 mm holds 36 discs of 50 mm on the grid and 35 in staggered rows (arithmetic on rows).
    const job = batch([demand('coin', disc(24.99), 36)], [board('plank', 600, 150)], {
      kerf: 0,
      edgeMargin: 0,
    });
    const { layout } = await layOut(job, { effort: 1 });
    expect(layout.figures.parts).toBe(36);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });
});

describe('stopping', () => {
  test('an abort during the search comes back within moments with a valid, complete layout', async () => {
    const job = batch([demand('hill', disc(20, 400), 30)], [board('plank', 600, 200)]);
    const stop = new AbortController();
    let asked = 0;
    const { layout } = await layOut(job, {
      effort: 1e6,
      signal: stop.signal,
      onProgress: ({ best }) => {
        if (best.unplaced.length === 0) {
          asked = performance.now();
          stop.abort();
        }
      },
    });
    // The search breathes every 15 ms; the limit leaves room for a busy machine.
    expect(performance.now() - asked).toBeLessThan(1000);
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('an abort while the first wood is searched leaves no other wood without its layout', async () => {
    const holly = { species: 'holly', thickness: 6 };
    const job = batch(
      [demand('hill', disc(20, 400), 12), demand('sun', disc(12), 20, holly)],
      [board('plank', 600, 200), board('sheet', 300, 200, holly)],
    );
    const stop = new AbortController();
    const { layout, issues } = await layOut(job, {
      effort: 1e6,
      signal: stop.signal,
      onProgress: ({ done }) => (done > 0 ? stop.abort() : undefined),
    });
    expect(layout.boards.map(({ stock }) => stock)).toEqual(['plank', 'sheet']);
    expect({ unplaced: layout.unplaced, issues }).toEqual({ unplaced: [], issues: [] });
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('while one wood is searched the best so far has the other woods too, whoever may stop it', async () => {
    const holly = { species: 'holly', thickness: 6 };
    const job = batch(
      [demand('hill', disc(20, 400), 12), demand('sun', disc(12), 20, holly)],
      [board('plank', 600, 200), board('sheet', 300, 200, holly)],
    );
    for (const signal of [undefined, new AbortController().signal]) {
      const told: [string, number][] = [];
      await layOut(job, {
        effort: 0.2,
        signal,
        onProgress: ({ message, best }) => told.push([message, best.figures.parts]),
      });
      expect(told.some(([message]) => message.startsWith('1 parts in'))).toBe(true);
      expect(told.every(([, parts]) => parts === 32)).toBe(true);
    }
  });

  test('the last call says that all is done, and shows what is handed back; after a stop there is none', async () => {
    const job = batch([demand('hill', disc(20, 400), 12)], [board('plank', 600, 200)]);
    const told: LayOutProgress[] = [];
    const { layout } = await layOut(job, { effort: 1, onProgress: (progress) => told.push(progress) });
    expect(told.at(-1)!.done).toBe(1);
    expect(told.at(-1)!.best).toEqual(layout);
    expect(told.every(({ done }, n) => n === 0 || done >= told[n - 1].done)).toBe(true);
    const stop = new AbortController();
    const shares: number[] = [];
    const onProgress = ({ done }: LayOutProgress) => {
      shares.push(done);
      stop.abort();
    };
    await layOut(job, { effort: 1e6, signal: stop.signal, onProgress });
    expect(shares.every((done) => done < 1)).toBe(true);
  });

  test('everything is laid in boxes first, all woods at once; an abort there has a place for every copy', async () => {
    const holly = { species: 'holly', thickness: 6 };
    const suns = Array.from({ length: 12 }, (_, i) => demand(`sun ${i}`, disc(8 + i / 2), 1, holly));
    const job = batch(
      [demand('hill', disc(20, 400), 12), ...suns],
      [board('plank', 600, 200), board('sheet', 300, 200, holly)],
    );
    const stop = new AbortController();
    const told: string[] = [];
    const { layout } = await layOut(job, {
      signal: stop.signal,
      onProgress: ({ message, best }) => {
        if (told.push(`${message}: ${best.figures.parts}`) === 1) stop.abort();
      },
    });
    expect(told[0]).toBe('first layout in boxes: 24');
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test.each([
    ['two woods', { setsTogether: false }],
    ['sets that stay on one board', { setsTogether: true }],
  ])('every layout that is told holds the copies of all woods and sets: %s', async (_, rest) => {
    const holly = { species: 'holly', thickness: 6 };
    const job = batch(
      [demand('hill', disc(20, 6), 2), demand('sun', disc(12, 6), 3, holly)],
      [board('plank', 110, 100, { quantity: 2 }), board('sheet', 300, 200, holly)],
      { sets: 3, ...rest },
    );
    for (const signal of [undefined, new AbortController().signal]) {
      const told: number[] = [];
      const { layout } = await layOut(job, {
        effort: 0.01,
        signal,
        onProgress: ({ best }) => {
          expect(verifyLayout(best).breaches).toEqual([]);
          told.push(best.figures.completeSets);
        },
      });
      expect(layout.figures.completeSets).toBe(3);
      expect(told.length).toBeGreaterThan(2);
      expect(told.every((sets) => sets === 3)).toBe(true);
    }
  });

  test('a board that one wood has whole is not resawn for another when the search is stopped', async () => {
    // The first layout has the thick parts on the dear board and the thin one on the cheap one; the search soon the other
    // way round. Mixed, one of the boards were sawn whole and in slices, under two names.
    const notched: Ring = [
      [0, 0],
      [40, 0],
      [28, 18],
      [40, 30],
      [0, 30],
    ];
    const job = batch(
      [demand('thick', notched, 12), demand('thin', rectangle(200, 150), 1, { thickness: 6 })],
      [board('dear', 300, 200, { price: 50 }), board('cheap', 300, 200, { price: 10 })],
      { clearance: 0.5, thicknessTolerance: 0.5 },
    );
    const stop = new AbortController();
    let better = 0;
    const { layout } = await layOut(job, {
      effort: 60,
      signal: stop.signal,
      onProgress: ({ message }) => (message.startsWith('1 parts') && ++better > 1 ? stop.abort() : undefined),
    });
    expect(stop.signal.aborted).toBe(true);
    expect(layout.unplaced).toEqual([]);
    expect(layout.boards.map(({ stock }) => stock).sort()).toEqual(['cheap', 'dear']);
    expect(verifyLayout(layout).breaches).toEqual([]);
  });

  test('a search that is stopped before it began says so of every copy', async () => {
    const { layout, issues } = await layOut(
      batch([demand('hill', disc(20), 2)], [board('plank', 600, 200)]),
      {
        signal: AbortSignal.abort(),
      },
    );
    expect(layout.unplaced.map(({ why }) => why)).toEqual(
      Array(2).fill('the search was stopped before it found a place'),
    );
    expect(issues).toMatchObject([
      { kind: 'copies-unplaced', remedy: 'Plan it once more, and let it search longer.' },
    ]);
  });
});
