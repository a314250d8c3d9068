import { describe, expect, it } from 'vitest';
import { boxRing, type Point } from '../../src/geometry/shapes.ts';
import type { Offcut } from '../../src/model/layout.ts';
import { standingWood } from '../../src/sawing/standing-wood.ts';

describe('the wood that still stands around parts', () => {
  const ring = (minX: number, minY: number, maxX: number, maxY: number) =>
    boxRing({ minX, minY, maxX, maxY });
  const sections = [
    { number: 1, from: 0, to: 198 },
    { number: 2, from: 201, to: 400 },
  ];
  const parts = [ring(40, 60, 160, 110), ring(240, 60, 360, 110)];
  const stands = (offcuts: readonly Offcut[], at: Point) =>
    standingWood({ usable: { outline: ring(0, 0, 400, 120), openings: [] }, offcuts }, sections, parts, {
      kerf: 1,
      holdSize: 20,
    })(at);
  const above: Point = [100, 60];

  it('is none where a strip over sections was ripped off, nor in what that cut takes', () => {
    const rectangle = { minX: 0, minY: 0, maxX: 400, maxY: 56 };
    const strip: Offcut = {
      id: 'maple-1 keeper 1',
      region: { outline: boxRing(rectangle), openings: [] },
      rectangle,
      area: 400 * 56,
      lines: [
        [
          [0, 57.5],
          [400, 57.5],
        ],
      ],
    };
    expect([stands([], above), stands([strip], above)]).toEqual([true, false]);
    expect(stands([strip], [40, 85])).toBe(true);
  });
});
