import { describe, expect, it } from 'vitest';
import { regionsFromRings } from '../../src/geometry/clipper.ts';
import { filledArea } from '../../src/geometry/filled-area.ts';
import { holdsRing, locateInRing, regionsArea } from '../../src/geometry/ring.ts';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import { seeded } from '../seeded.ts';

/** One path of four, of which some share sides and corners. */
const SHARED: Ring[] = [
  [
    [2, 5],
    [10, 5],
    [10, 7],
    [2, 7],
  ],
  [
    [5, 2],
    [9, 2],
    [9, 8],
    [5, 8],
  ],
  [
    [0, 2],
    [4, 7],
    [0, 5],
    [5, 0],
    [1, 1],
    [4, 0],
  ],
  [
    [4, 5],
    [7, 5],
    [7, 6],
    [4, 6],
  ],
];

/** Windings of the rings around a point that lies on none of them, by a ray to the right (y down). */
function windings([px, py]: Point, rings: readonly Ring[]): number {
  let count = 0;
  for (const ring of rings) {
    ring.forEach(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length];
      if (ay <= py === by <= py) return;
      if (ax + ((py - ay) / (by - ay)) * (bx - ax) > px) count += by > ay ? 1 : -1;
    });
  }
  return count;
}

describe('filledArea', () => {
  it('counts a bow tie, nested squares and a square drawn twice as the fill rules do', () => {
    const square = (at: number, side: number): Ring => [
      [at, at],
      [at + side, at],
      [at + side, at + side],
      [at, at + side],
    ];
    expect(
      filledArea(
        [
          [
            [0, 0],
            [10, 10],
            [10, 0],
            [0, 10],
          ],
        ],
        'evenodd',
      ),
    ).toBeCloseTo(50, 9);
    expect(filledArea([square(0, 9), square(2, 5)], 'evenodd')).toBeCloseTo(56, 9);
    expect(filledArea([square(0, 9), square(2, 5)], 'nonzero')).toBeCloseTo(81, 9);
    expect(filledArea([square(0, 9), [...square(2, 5)].reverse()], 'nonzero')).toBeCloseTo(56, 9);
    expect(filledArea([square(0, 9), square(0, 9)], 'evenodd')).toBeCloseTo(0, 9);
    expect(filledArea([], 'nonzero')).toBe(0);
  });
});

describe('regionsFromRings of rings that share sides and corners', () => {
  // By hand: the three boxes fill 16 + 24 + 3 less twice what two share, 8 + 3 + 2, and four times more what all share,
  // 2: 25. The zigzag fills 10.5 and lies over the boxes with 1.4 of its tip: 25 + 10.5 - 2.8. A picture of the drawing
  // 1200 points wide counts 32.70 too.
  it('keeps the pieces that were lost', () => {
    const boxes = [SHARED[0], SHARED[1], SHARED[3]];
    expect(regionsArea(regionsFromRings(boxes, 'evenodd'))).toBeCloseTo(25, 3);
    expect(regionsArea(regionsFromRings(SHARED, 'evenodd'))).toBeCloseTo(32.7, 3);
  });

  it('leaves openings in the piece around them where another piece touches it', () => {
    const drawn: Ring[] = [
      [
        [4.211, 2.6959],
        [6.9068, -1.5151],
        [7.749, -0.9759],
        [3.5381, -3.6718],
        [5.0532, 3.2351],
      ],
      [
        [6.9068, -1.5151],
        [3.8411, -2.2904],
        [4.6833, -1.7512],
      ],
    ];
    const regions = regionsFromRings(drawn, 'evenodd');
    const inOutlines = regions.map(({ outline, openings }) =>
      openings.map((ring) => holdsRing(outline, ring)),
    );
    expect(inOutlines).toEqual([[], [true]]);
  });

  it('fills the points that a ray finds inside, random rings on whole numbers', () => {
    const random = seeded(3);
    const wrong: string[] = [];
    const whole = () => Math.floor(7 * random());
    for (let round = 0; round < 40; round++) {
      const rings = Array.from({ length: 2 + (round % 4) }, () =>
        Array.from({ length: 3 + (round % 7) }, (): Point => [whole(), whole()]),
      );
      for (const rule of ['evenodd', 'nonzero'] as const) {
        const regions = regionsFromRings(rings, rule);
        if (Math.abs(regionsArea(regions) - filledArea(rings, rule)) > 0.05) wrong.push(`${rule} ${round}`);
        for (let sample = 0; sample < 10; sample++) {
          const point: Point = [7 * random(), 7 * random()];
          const count = windings(point, rings);
          const around = regions
            .flatMap(({ outline, openings }) => [outline, ...openings])
            .filter((ring) => locateInRing(point, ring) === 1);
          const isFilled = rule === 'evenodd' ? count % 2 !== 0 : count !== 0;
          if (around.length % 2 === (isFilled ? 0 : 1)) wrong.push(`${rule} ${round} at ${point}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });
});
