import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Point, type Ring } from '../../src/geometry/shapes.ts';
import type { Board, Trim } from '../../src/model/stock.ts';
import { Random } from '../../src/nesting/running/random.ts';
import { CLEANED_SHARE, cleanedEdge, trimmedOutline, trimmedSides } from '../../src/stock/trim.ts';
import { usableOf } from '../../src/stock/usable.ts';

const rectangle: Ring = [
  [0, 0],
  [800, 0],
  [800, 150],
  [0, 150],
];

const NO_TRIM: Trim = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };

function board(outline: Ring, trim: Partial<Trim> = {}, defects: Ring[] = []): Board {
  return {
    id: 'A',
    species: 'cherry',
    thickness: 19,
    outline,
    defects,
    quantity: 1,
    price: undefined,
    trim: { ...NO_TRIM, ...trim },
  };
}

/** A waney board: both edges wander, the ends are square. */
function waney(random: Random): Ring {
  const xs = Array.from({ length: 21 }, (_, i) => i * 40);
  const top = xs.map((x): Point => [x, random.between(0, 12)]);
  const bottom = xs.map((x): Point => [x, 180 - random.between(0, 15)]);
  return [...top, ...bottom.reverse()];
}

it('trims are told from the trim, not from what a crack across the board leaves of it', () => {
  const crack: Ring = [
    [500, -5],
    [510, -5],
    [520, 160],
    [505, 160],
  ];
  expect(boundsOf(usableOf(board(rectangle, {}, [crack])).outline).maxX).toBeLessThan(520);
  expect(trimmedSides(board(rectangle, {}, [crack]))).toBeUndefined();
  const sides = { topEdge: 0, straightEdge: 0, leftEnd: 8, rightEnd: 0 };
  expect(trimmedSides(board(rectangle, { leftEnd: 8, straightEdge: 'clean' }, [crack]))).toEqual(sides);
  // Less than any saw takes off is no cut.
  expect(trimmedSides(board(rectangle, { rightEnd: 0.03, topEdge: 0.01 }))).toBeUndefined();
  expect(trimmedSides(board(rectangle, { leftEnd: 8, rightEnd: 0.03 }))).toEqual(sides);
  const sloped: Ring = [
    [0, 0],
    [800, 0],
    [800, 140],
    [400, 150],
    [0, 150],
  ];
  expect(trimmedSides(board(sloped, { straightEdge: 'clean' }))?.straightEdge).toBeCloseTo(8, 6);
});

describe('trimmedOutline', () => {
  it('takes a strip of its own off every edge and end', () => {
    const left = trimmedOutline(
      board(rectangle, { topEdge: 5, straightEdge: 10, leftEnd: 20, rightEnd: 30 }),
    );
    expect(boundsOf(left.outline)).toEqual({ minX: 20, minY: 5, maxX: 770, maxY: 140 });
    expect(regionArea(left)).toBeCloseTo(750 * 135, 6);
  });

  it('leaves the larger piece where a strip off an edge parts the board', () => {
    // A notch from the upper edge, deeper than what is left below it is trimmed.
    const notched: Ring = [
      ...([
        [0, 0],
        [300, 0],
        [300, 120],
        [350, 120],
      ] as const),
      ...([
        [350, 0],
        [800, 0],
        [800, 150],
        [0, 150],
      ] as const),
    ];
    const left = trimmedOutline(board(notched, { straightEdge: 40 }));
    expect(boundsOf(left.outline)).toEqual({ minX: 350, minY: 0, maxX: 800, maxY: 110 });
    const mirrored = notched.map(([x, y]): Point => [800 - x, y]);
    expect(boundsOf(trimmedOutline(board(mirrored, { straightEdge: 40 })).outline).maxX).toBe(450);
  });

  it('leaves nothing of a board that is trimmed away', () => {
    expect(trimmedOutline(board(rectangle, { leftEnd: 500, rightEnd: 400 })).outline).toEqual([]);
    expect(usableOf(board(rectangle, { straightEdge: 200 }, [rectangle])).outline).toEqual([]);
  });

  it('rips nothing off an edge that is straight already', () => {
    expect(regionArea(trimmedOutline(board(rectangle, { straightEdge: 'clean' })))).toBeCloseTo(120_000, 6);
  });

  it('rips a wandering edge at its deepest hollow, and no deeper', () => {
    const random = new Random(5);
    for (let round = 0; round < 10; round++) {
      const outline = waney(random);
      const edge = cleanedEdge(outline);
      const run = (y: number) => longestWoodRun(outline, y);
      expect(run(edge - 1e-4)).toBeGreaterThanOrEqual(CLEANED_SHARE * 800 - 0.01);
      // Ripped a tenth of a millimetre less, the edge would have a gap or be too short.
      expect(run(edge + 0.1)).toBeLessThan(CLEANED_SHARE * 800);
      const usable = trimmedOutline(board(outline, { straightEdge: 'clean' }));
      expect(boundsOf(usable.outline).maxY).toBeCloseTo(edge, 3);
      expect(regionArea(usable)).toBeLessThan(ringArea(outline));
    }
  });

  it('gives a leaning edge the height at which nine tenths of it are straight', () => {
    const leaning: Ring = [
      [0, 0],
      [1000, 0],
      [1000, 100],
      [0, 200],
    ];
    // The cut at y is 10 (200 - y) long: 900 at y = 110.
    expect(cleanedEdge(leaning)).toBeCloseTo(110, 6);
    // Wherever the board lies in its drawing.
    const away = leaning.map(([x, y]): Point => [x + 5000, y - 300]);
    expect(cleanedEdge(away)).toBeCloseTo(-190, 6);
  });

  it('goes on below a hollow whose runs are too short, and to the far edge where none is long enough', () => {
    // Below y = 60 the board is whole; above, two horns of 400 and 350 stand.
    const horned: Ring = [
      ...([
        [0, 0],
        [1000, 0],
        [1000, 100],
        [650, 100],
      ] as const),
      ...([
        [650, 60],
        [400, 60],
        [400, 100],
        [0, 100],
      ] as const),
    ];
    expect(cleanedEdge(horned)).toBeCloseTo(60, 6);
    const peaked: Ring = [
      [0, 0],
      [500, 100],
      [1000, 0],
    ];
    // 10 (100 - y) long: nine tenths at y = 10.
    expect(cleanedEdge(peaked)).toBeCloseTo(10, 6);
    const spindle: Ring = [
      [0, 50],
      [500, 100],
      [1000, 50],
      [500, 0],
    ];
    // The longest run is the widest place: nine tenths of it at y = 55.
    expect(cleanedEdge(spindle)).toBeCloseTo(55, 6);
  });
});

/** The longest stretch in wood at a height, by stepping along the board: slow and plain. */
function longestWoodRun(ring: Ring, y: number): number {
  const step = 0.25;
  let longest = 0;
  let run = 0;
  for (let x = step / 2; x < 800; x += step) {
    run = isInside([x, y], ring) ? run + step : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

function isInside([x, y]: Point, ring: Ring): boolean {
  let inside = false;
  ring.forEach(([bx, by], i) => {
    const [ax, ay] = ring[(i + ring.length - 1) % ring.length];
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  });
  return inside;
}
