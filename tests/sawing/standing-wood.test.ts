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

  /** Where wood stands beside a bar from edge to edge of a board of 40 x 60 mm: above it 15 mm less, below it 20 mm less 1.5. */
  function besideBar(holdSize: number, top = 15, bottom = 40): [above: boolean, below: boolean] {
    const usable = { outline: ring(0, 0, 40, 60), openings: [] };
    const one = [{ number: 1, from: 0, to: 40 }];
    const at = standingWood({ usable, offcuts: [] }, one, [ring(0, top, 40, bottom)], { kerf: 1, holdSize });
    return [at([20, top]), at([20, bottom])];
  }

  it('is only what a hand can hold, and of small pieces alone the largest', () => {
    // Pieces of 40 x 13.5 and 40 x 18.5 mm.
    expect(besideBar(40)).toEqual([true, true]);
    expect(besideBar(41)).toEqual([false, true]);
    expect(besideBar(41, 20, 45)).toEqual([true, false]);
  });

  it('is none where kerfs leave less than a millimetre, on one side or on all', () => {
    // 1.4 mm: the kerf and 0.4 mm; 1.6 mm: the kerf and 0.6 mm, of which the outline of what stands takes half a millimetre.
    expect(besideBar(10, 1.4, 40)).toEqual([false, true]);
    expect(besideBar(10, 1.6, 40)).toEqual([true, true]);
    expect(besideBar(10, 1.4, 58.6)).toEqual([false, false]);
    // Between two bars, 2 x 1 mm of kerf and 0.9 or 1.2 mm.
    const between = (gap: number) =>
      standingWood(
        { usable: { outline: ring(0, 0, 400, 120), openings: [] }, offcuts: [] },
        [{ number: 1, from: 0, to: 400 }],
        [ring(100, 20, 300, 50), ring(100, 50 + gap, 300, 90)],
        { kerf: 1, holdSize: 20 },
      )([200, 50]);
    expect([between(2.9), between(3.2)]).toEqual([false, true]);
  });
});
