import { describe, expect, it } from 'vitest';
import { combineRegions } from '../../src/geometry/clipper.ts';
import { partedAreas } from '../../src/geometry/parted-areas.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import { boxRing, type Line, type Point, type Region } from '../../src/geometry/shapes.ts';
import { seeded } from '../seeded.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number) => boxRing({ minX, minY, maxX, maxY });
const solid: Region = { outline: box(0, 0, 40, 20), openings: [box(10, 5, 20, 15)] };
const areas = (lines: readonly Line[], halfWidth = 0) =>
  partedAreas(solid, lines, halfWidth).sort((a, b) => a - b);

describe('partedAreas', () => {
  it('finds the area of a region without lines, its openings left out', () => {
    expect(areas([])).toHaveLength(1);
    expect(areas([])[0]).toBeCloseTo(700, 6);
  });

  it('parts what lines cut through, also with an opening in between, and takes their width off', () => {
    const across: Line[] = [
      [
        [0, 10],
        [10, 10],
      ],
      [
        [20, 10],
        [40, 10],
      ],
    ];
    const upright: Line = [
      [30, 0],
      [30, 20],
    ];
    // By hand: halves of 350, of which 10 x 10 lie right of the upright line; a level line takes a row at most.
    for (const [i, area] of [100, 100, 250, 250].entries())
      expect(Math.abs(areas([...across, upright])[i] - area)).toBeLessThan(0.06 * 20);
    // Both lines 1 mm wide: of the right half 9.5 x 9.5 is left beyond the upright one, and a row less at most.
    const wide = areas([...across, upright], 0.5);
    expect(wide).toHaveLength(4);
    expect(Math.abs(wide[0] - 9.5 * 9.5)).toBeLessThan(0.05 * 10);
    expect(areas([across[1], upright])).toHaveLength(3);
    expect(areas([across[0]])).toHaveLength(1);
  });

  it('parts a region higher than a metre in rows that are higher', () => {
    const house: Region = { outline: box(0, 0, 9000, 9000), openings: [] };
    const uprights = [3000, 6000].map(
      (x): Line => [
        [x, 0],
        [x, 9000],
      ],
    );
    const parted = partedAreas(house, uprights, 0);
    expect(parted).toHaveLength(3);
    for (const area of parted) expect(area).toBeCloseTo(27e6, -1);
  });

  it('goes round the end of a line that stops short, however it runs', () => {
    for (const [x, y] of [
      [39, 10],
      [39, 1],
      [30, 19],
      [25, 19.5],
    ])
      expect(
        areas([
          [
            [20, 10],
            [x, y],
          ],
        ]),
      ).toHaveLength(1);
    expect(
      areas(
        [
          [
            [20, 10],
            [39.8, 10],
          ],
        ],
        0.1,
      ),
    ).toHaveLength(1);
    expect(
      areas(
        [
          [
            [20, 10],
            [39.92, 10],
          ],
          [
            [0, 10],
            [10, 10],
          ],
        ],
        0.1,
      ),
    ).toHaveLength(2);
  });

  it('counts the pieces that lines which cross leave, as clipper-lib does', () => {
    const random = seeded(3);
    const plain: Region = { outline: box(0, 0, 400, 400), openings: [] };
    const lines = Array.from({ length: 9 }, (): [Point, Point] => [
      [0, 400 * random()],
      [400, 400 * random()],
    ]);
    const slits = lines.map(
      ([[, a], [, b]]): Region => ({
        outline: [
          [-1, a],
          [401, b],
          [401, b + 0.001],
          [-1, a + 0.001],
        ],
        openings: [],
      }),
    );
    const worthCounting = (found: readonly number[]) => found.filter((area) => area >= 10).length;
    const expected = worthCounting(combineRegions('difference', [plain], slits).map(regionArea));
    expect(expected).toBeGreaterThan(12);
    expect(worthCounting(partedAreas(plain, lines, 0))).toBe(expected);
  });
});
