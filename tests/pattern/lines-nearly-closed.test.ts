import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/shapes.ts';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { box, drawing, drawn, polyline, shape } from './drawn.ts';

/** A window of 20 x 15 mm whose last side ends short of its first corner, or beyond it. */
const window = (x: number, gap: number) =>
  drawn([polyline([x, 10], [x + 20, 10], [x + 20, 25], [x, 25], [x, 10 + gap])]);

const told = (joinGap: number, ...lines: ReturnType<typeof drawn>[]) =>
  patternFromDrawing(drawing([shape([box(0, 0, 120, 40)]), ...lines]), { joinGap }).issues.filter(
    ({ kind }) => kind === 'vein-nearly-closed',
  );

describe('veins that nearly close', () => {
  it('are told, for they are most likely openings, with how far their ends lie apart', () => {
    const [issue, ...others] = told(0.2, window(10, 1));
    expect(others).toEqual([]);
    expect(issue).toMatchObject({ severity: 'note', where: { at: [10, 10] } });
    expect(issue.message).toContain('1.00 mm apart');
    const [several] = told(0.2, window(10, 0.5), window(40, -1.25));
    expect(several.message).toMatch(/2 lines .* up to 1.25 mm apart/);
    expect(several.where?.at).toEqual([10, 10]);
  });

  it('are openings within the gap that is joined, and veins where they are left open on purpose', () => {
    expect(told(0.2, window(10, 0.1))).toEqual([]);
    expect(told(1.5, window(10, 1))).toEqual([]);
    expect(told(0.2, window(10, 4))).toEqual([]);
    // The two sides of a hair, 1 mm apart, enclose nothing that could be meant to fall out.
    const hair: Point[] = [
      [10, 10],
      [40, 10.5],
      [10, 11],
    ];
    expect(told(0.2, drawn([polyline(...hair)]))).toEqual([]);
    // A bay whose sides begin and end at the edge of the part, or beyond it, falls out as it is.
    const bay = (y: number) => drawn([polyline([50, y], [40, 10], [62, 10], [51.5, y])]);
    expect([...told(0.2, bay(40)), ...told(0.2, bay(43))]).toEqual([]);
    expect(told(0.2, bay(38))).toHaveLength(1);
  });
});
