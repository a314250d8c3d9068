import { describe, expect, it } from 'vitest';
import { clipLines } from '../../src/geometry/clip-lines.ts';
import { insideRegion, lineLength } from '../../src/geometry/ring.ts';
import { boxRing, type Line, type Point, type Region, type Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { seeded } from '../seeded.ts';

const square = (x: number, y: number, side: number): Ring =>
  boxRing({ minX: x, minY: y, maxX: x + side, maxY: y + side });
const solid = (outline: Ring, openings: Ring[] = []): Region => ({ outline, openings });

describe('clipLines', () => {
  it('keeps what lies in the solid and leaves out what lies in an opening', () => {
    const across: Line = [
      [-10, 50],
      [110, 50],
    ];
    expect(clipLines([across], [solid(square(0, 0, 100), [square(40, 40, 20)])])).toEqual([
      [
        [0, 50],
        [40, 50],
      ],
      [
        [60, 50],
        [100, 50],
      ],
    ]);
  });

  it('keeps bends, parts a line at every border, and measures what lies inside', () => {
    const bent: Ring = [
      [5, 5],
      [15, 5],
      [15, 15],
      [-5, 15],
    ];
    const pieces = clipLines(
      [bent, bent.slice(0, 2)],
      [solid(square(0, 0, 10)), solid([...square(12, 0, 20)].reverse())],
    );
    // By hand: 5 from x 5 to 10; 3 + 10 + 3 beyond x 12; the same start once more, 5 and 3.
    expect(pieces.map(lineLength)).toEqual([5, 16, 5, 3]);
    expect(pieces[1]).toHaveLength(4);
    expect(clipLines([bent], [])).toEqual([]);
    expect(clipLines([], [solid(square(0, 0, 10))])).toEqual([]);
  });

  it('hands a line that lies inside back as it is drawn, however it begins', () => {
    // clipper-lib gave the points of these in another order.
    const level: Line[] = [
      [
        [60, 50],
        [40, 50],
        [45, 40],
        [70, 60],
      ],
      [
        [40, 50],
        [60, 50],
        [65, 40],
        [70, 60],
      ],
    ];
    expect(clipLines(level, [solid(square(0, 0, 100))])).toEqual(level);
  });

  it('counts what runs along an edge, and a corner that is only touched parts nothing', () => {
    const region = solid(square(0, 0, 100), [
      [
        [50, 20],
        [60, 40],
        [40, 40],
      ],
    ]);
    const lines: Line[] = [
      [
        [10, 100],
        [50, 100],
        [50, 80],
      ],
      [
        [10, 20],
        [90, 20],
      ],
    ];
    expect(clipLines(lines, [region])).toEqual(lines);
  });

  it('refuses what is out of range with a typed error', () => {
    const far: Line = [
      [0, 0],
      [1e9, 0],
    ];
    expect(() => clipLines([far], [solid(square(0, 0, 100))])).toThrow(FretlayError);
  });

  it('keeps the points that lie in the regions and no others, on random lines', () => {
    const random = seeded(11);
    for (let k = 0; k < 12; k++) {
      const radii = Array.from({ length: 24 }, () => 15 + 35 * random());
      const star = radii.map((r, i): Point => {
        const angle = (2 * Math.PI * i) / radii.length;
        return [r * Math.cos(angle), r * Math.sin(angle)];
      });
      const region = solid(star, [square(-8, -8, 16)]);
      const line: Point[] = Array.from({ length: 6 }, () => [100 * random() - 50, 100 * random() - 50]);
      // Level at its beginning and in its course.
      line[1] = [line[1][0], line[0][1]];
      line[4] = [line[4][0], line[3][1]];
      const steps = 1000;
      let inside = 0;
      for (let i = 1; i < line.length; i++) {
        const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
        const length = Math.hypot(bx - ax, by - ay);
        for (let s = 0; s < steps; s++) {
          const t = (s + 0.5) / steps;
          if (insideRegion([ax + t * (bx - ax), ay + t * (by - ay)], region)) inside += length / steps;
        }
      }
      const pieces = clipLines([line], [region]);
      expect(Math.abs(pieces.reduce((sum, piece) => sum + lineLength(piece), 0) - inside)).toBeLessThan(1.5);
    }
  });
});
