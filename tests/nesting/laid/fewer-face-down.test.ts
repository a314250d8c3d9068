import { describe, expect, test } from 'vitest';
import { boundsOf, type Ring } from '../../../src/geometry/shapes.ts';
import type { Batch, PlacingRules } from '../../../src/model/batch.ts';
import type { LaidBoard, Layout, Section } from '../../../src/model/layout.ts';
import { assembled } from '../../../src/nesting/laid/assembled.ts';
import { withFewerFaceDown } from '../../../src/nesting/laid/fewer-face-down.ts';
import { placementOf } from '../../../src/nesting/laid/placement-of.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../../src/nesting/verify.ts';
import { withRemains } from '../../../src/stock/with-offcuts.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand } from '../plain-batch.ts';

const EITHER_SIDE: PlacingRules = { grain: 'along', grainTolerance: 10, turnOver: true, restEdge: false };

/** An L, which is none of its mirror images, with a vein along its back. */
const ELL = plainDemand(
  'ell',
  [
    [0, 0],
    [30, 0],
    [30, 10],
    [10, 10],
    [10, 20],
    [0, 20],
  ],
  {
    veins: [
      [
        [5, 2],
        [5, 18],
      ],
    ],
    rules: EITHER_SIDE,
  },
);

/** Where a copy of the L lies: x, y, rotation, whether it is turned over. */
type Lie = readonly [x: number, y: number, rotation: number, turnedOver: boolean];

/** Two copies face down and one face up, from 8 to 110 mm along the board. */
const MOSTLY_DOWN: readonly Lie[] = [
  [38, 10, 0, true],
  [80, 15, 7, true],
  [110, 40, 180, false],
];

function batchOf(more: Partial<Batch> = {}): Batch {
  return {
    ...PLAIN_GAPS,
    sets: 3,
    demands: [ELL],
    boards: [plainBoard('shelf', 300, 70)],
    ...more,
  };
}

function laidOn(batch: Batch, lies: readonly Lie[], sections: readonly Section[] = []): LaidBoard {
  const [{ id, species, thickness, outline, defects }] = batch.boards;
  const placements = lies.map(([x, y, rotation, turnedOver], i) =>
    placementOf(batch.demands[0], { x, y, rotation, turnedOver }, i + 1),
  );
  return {
    id: `${id}-1`,
    stock: id,
    species,
    thickness,
    copies: 1,
    outline,
    usable: { outline, openings: defects },
    placements,
    pieces: [`${id}-1`],
    ...(sections.length === 0 ? {} : { sections }),
  };
}

/** The board with fewer of its copies face down. */
function fewer(batch: Batch, board: LaidBoard): LaidBoard {
  return withFewerFaceDown(batch, { boards: [board], unplaced: [] }).boards[0];
}

function layoutOf(batch: Batch, board: LaidBoard): Layout {
  return withRemains(assembled(batch, [{ boards: [board], unplaced: [] }]), batch);
}

function faceDown({ placements }: LaidBoard): number {
  return placements.filter(({ turnedOver }) => turnedOver).length;
}

/** Ends of what lies on a board, mm. */
function ends({ placements }: LaidBoard): [number, number] {
  const { minX, maxX } = boundsOf(placements.flatMap(({ region }) => region.outline));
  return [minX, maxX];
}

describe('a board that lies mostly face down', () => {
  test('is mirrored along its length, and passes the check as before', () => {
    const batch = batchOf();
    const before = laidOn(batch, MOSTLY_DOWN);
    expect(verifyLayout(layoutOf(batch, before), batch).breaches).toEqual([]);
    const after = fewer(batch, before);
    expect([faceDown(before), faceDown(after)]).toEqual([2, 1]);
    expect(ends(after)).toEqual(ends(before));
    const checked = verifyLayout(layoutOf(batch, after), batch);
    expect(checked.breaches).toEqual([]);
    expect(checked.leastDistance).toBeCloseTo(verifyLayout(layoutOf(batch, before)).leastDistance!, 9);
    expect(after.placements.map(({ y, rotation, turnedOver }) => [y, rotation, turnedOver])).toEqual([
      [40, 180, true],
      [15, 353, false],
      [10, 0, false],
    ]);
    const [first, last] = ends(before);
    const mirrored = (ring: Ring) => ring.map(([x, y]) => [expect.closeTo(first + last - x, 4), y]);
    expect(after.placements[1].region.outline).toEqual(mirrored(before.placements[1].region.outline));
    expect(after.placements[1].veins[0]).toEqual(mirrored(before.placements[1].veins[0]));
  });

  test('has its sets numbered from the left again', () => {
    const batch = batchOf();
    const { placements } = fewer(batch, laidOn(batch, MOSTLY_DOWN));
    expect(placements.map(({ set }) => set)).toEqual([1, 2, 3]);
    const starts = placements.map(({ region }) => boundsOf(region.outline).minX);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  test('is mirrored section by section, and only where it helps', () => {
    const batch = batchOf({ sets: 5, crosscutKerf: 3, reach: { throat: 200, longest: undefined } });
    const up: readonly Lie[] = [
      [160, 10, 0, false],
      [200, 10, 0, false],
    ];
    const sections = [
      { number: 1, from: 0, to: 130 },
      { number: 2, from: 133, to: 300 },
    ];
    const before = laidOn(batch, [...MOSTLY_DOWN, ...up], sections);
    const after = fewer(batch, before);
    expect([faceDown(before), faceDown(after)]).toEqual([2, 1]);
    expect(after.placements.slice(3)).toEqual(before.placements.slice(3));
    expect(ends(after)).toEqual(ends(before));
    expect(verifyLayout(layoutOf(batch, after), batch).breaches).toEqual([]);
  });
});

describe('a board is left as it is', () => {
  test('where as many copies lie face up', () => {
    const batch = batchOf({ sets: 2 });
    const board = laidOn(batch, MOSTLY_DOWN.slice(1));
    expect(fewer(batch, board)).toBe(board);
  });

  test('where a copy on it may not be turned over', () => {
    const post = plainDemand('post', rectangle(10, 10));
    const batch = batchOf({ demands: [ELL, post] });
    const bare = laidOn(batch, MOSTLY_DOWN);
    const lying = { x: 120, y: 10, rotation: 0, turnedOver: false };
    const board = { ...bare, placements: [...bare.placements, placementOf(post, lying, 1)] };
    expect(fewer(batch, board)).toBe(board);
  });

  test('where a copy is pinned to it', () => {
    const pin = { layer: 'L', part: 'ell', board: 'shelf', number: 1, x: 110, y: 40, rotation: 180 };
    const batch = batchOf({ pins: [pin] });
    const board = laidOn(batch, MOSTLY_DOWN);
    expect(fewer(batch, board)).toBe(board);
  });

  test('where it has a knot, or is no rectangle', () => {
    const knot: Ring = [
      [200, 30],
      [210, 30],
      [205, 40],
    ];
    const slanted: Ring = [
      [0, 0],
      [280, 0],
      [300, 70],
      [0, 70],
    ];
    for (const more of [{ defects: [knot] }, { outline: slanted }]) {
      const batch = batchOf({ boards: [plainBoard('shelf', 300, 70, more)] });
      const board = laidOn(batch, MOSTLY_DOWN);
      expect(fewer(batch, board)).toBe(board);
    }
  });

  test('where its mirror image leaves less to keep', () => {
    const corner = plainDemand(
      'corner',
      [
        [0, 0],
        [100, 0],
        [100, 96],
        [60, 96],
        [60, 20],
        [0, 20],
      ],
      { rules: EITHER_SIDE },
    );
    // Beside the foot and beyond its end, 120 mm in one piece; at the left only 62 mm.
    const keep = { length: 100, width: 60 };
    const batch = batchOf({ sets: 1, demands: [corner], boards: [plainBoard('shelf', 162, 100)], keep });
    const lies: readonly Lie[] = [[102, 2, 0, true]];
    const board = laidOn(batch, lies);
    expect(layoutOf(batch, board).boards[0].offcuts).toHaveLength(1);
    expect(fewer(batch, board)).toBe(board);
    // Where that is too small as well, nothing is lost.
    const choosy = { ...batch, keep: { length: 130, width: 60 } };
    expect(faceDown(fewer(choosy, board))).toBe(0);
  });
});

test('a layout that the search ends with has no more than half of a plain board face down', async () => {
  const leaf: Ring = [
    [78, 50],
    [67, 67],
    [50, 83],
    [41, 59],
    [38, 50],
    [28, 28],
    [50, 26],
    [63, 37],
  ];
  const demand = plainDemand('leaf', leaf, { rules: { ...EITHER_SIDE, grainTolerance: 0 } });
  const batch = batchOf({
    sets: 40,
    demands: [demand],
    boards: [plainBoard('plank', 900, 200, { quantity: 2 })],
  });
  const seen: Layout[] = [];
  const onProgress = ({ best }: { readonly best: Layout }) => seen.push(best);
  const { layout } = await layOut(batch, { effort: 0, onProgress });
  expect(verifyLayout(layout, batch).breaches).toEqual([]);
  expect(layout.figures.parts).toBe(40);
  for (const board of layout.boards) expect(2 * faceDown(board)).toBeLessThanOrEqual(board.placements.length);
  expect(seen.at(-1)).toEqual(layout);
});
