import { describe, expect, it } from 'vitest';
import { uniteRegions } from '../../src/geometry/clipper.ts';
import { filledArea } from '../../src/geometry/filled-area.ts';
import { oriented, regionsArea, ringPerimeter } from '../../src/geometry/ring.ts';
import { boxRing, type Ring } from '../../src/geometry/shapes.ts';
import { withoutSpikes } from '../../src/geometry/spikes.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number) => boxRing({ minX, minY, maxX, maxY });

describe('withoutSpikes', () => {
  it('takes a way out and straight back off, wherever the ring begins, and leaves other rings as they are', () => {
    const spiked: Ring = [
      [0, 0],
      [10, 0],
      [10, 5],
      [18, 5],
      [14, 5],
      [10, 5],
      [10, 10],
      [0, 10],
    ];
    for (let turn = 0; turn < spiked.length; turn++) {
      const outline = [...spiked.slice(turn), ...spiked.slice(0, turn)];
      const [region] = withoutSpikes([{ outline, openings: [[...outline].reverse()] }]);
      for (const ring of [region.outline, ...region.openings]) {
        expect(ringPerimeter(ring)).toBeCloseTo(40, 9);
        expect(ring).not.toContainEqual([18, 5]);
      }
    }
    const plain = { outline: box(0, 0, 9, 9), openings: [box(2, 2, 4, 4)] };
    const crack: Ring = [
      [5, 5],
      [7, 7],
      [6, 6],
    ];
    expect(withoutSpikes([{ ...plain, openings: [...plain.openings, crack] }])).toEqual([plain]);
  });
});

describe('uniteRegions', () => {
  it('leaves no cut of no width where shapes share sides', () => {
    const shapes: Ring[] = [
      box(10, 20, 25, 35),
      box(25, 15, 35, 40),
      box(20, 10, 35, 15),
      [
        [30, 40],
        [5, 15],
        [20, 0],
      ],
      box(15, 5, 25, 15),
    ];
    const united = uniteRegions(shapes.map((outline) => ({ outline, openings: [] })));
    const rings = shapes.map((ring) => oriented(ring, true));
    expect(regionsArea(united)).toBeCloseTo(filledArea(rings, 'nonzero'), 2);
    // The opening is a triangle, by hand: a cut had led from it along y 15 to the right edge.
    expect(united.map(({ openings }) => openings.map(ringPerimeter))).toEqual([
      [expect.closeTo(1.25 + 5 + Math.hypot(1.25, 5), 3)],
    ]);
  });
});
