import { describe, expect, it } from 'vitest';
import { tightestCurve } from '../../src/geometry/tightest-curve.ts';
import { COMMON_BLADES, sectionDiagonal } from '../../src/sawing/blades.ts';
import { bladeForCut, bladeForWood } from '../../src/sawing/choose-blades.ts';
import { bladeLife, bladesWorn } from '../../src/sawing/time/blade-life.ts';
import { outsideCheck } from '../outside-check.ts';

const INCH = 25.4;
const named = (number: string) => {
  const blade = COMMON_BLADES.find(({ name }) => name === `No. ${number}`);
  if (blade === undefined) throw new Error(number);
  return blade;
};

describe('blades', () => {
  it('have the section diagonals of the table (arithmetic on width and thickness, inches)', () => {
    const diagonals = {
      '2/0': 0.0242,
      '1': 0.0291,
      '3': 0.0349,
      '5': 0.0412,
      '7': 0.0481,
      '9': 0.056,
      '12': 0.0665,
    };
    for (const [number, expected] of Object.entries(diagonals)) {
      outsideCheck({
        what: `Diagonal of the section of a No. ${number} blade, in`,
        source: "Arithmetic on the widths and thicknesses of makers' charts (from memory)",
        expected,
        found: sectionDiagonal(named(number)) / INCH,
        tolerance: 5e-5,
      });
    }
  });

  it('pass their own holes, which are no larger than they need, saw wider than they are thick, and get coarser with the number', () => {
    COMMON_BLADES.forEach((blade, i) => {
      expect(blade.hole).toBeGreaterThan(sectionDiagonal(blade));
      expect(blade.hole).toBeLessThan(1.7 * blade.width);
      expect(blade.kerf).toBeGreaterThan(blade.thickness);
      expect(blade.kerfMeasured).toBe(false);
      if (i > 0) expect(blade.width).toBeGreaterThan(COMMON_BLADES[i - 1].width);
    });
  });

  it('follow curves down to w^2 / (8 c): 0.0902 in for a No. 5 with 0.002 in a side (own derivation)', () => {
    // The same formula with the clearance of 0.05 mm that is used here.
    expect((tightestCurve(named('5').width) * 0.05) / (0.002 * INCH) / INCH).toBeCloseTo(0.0902, 3);
  });

  it('are chosen by thickness as common practice has it: 3 in 1/2 in, 5 in 3/4 in, 9 in 1-1/2 in hardwood', () => {
    const choose = (inches: number) => bladeForWood(COMMON_BLADES, inches * INCH, 1000).name;
    expect([1 / 8, 1 / 4, 1 / 2, 3 / 4, 1, 1.5, 2, 3].map(choose)).toEqual(
      ['2/0', '1', '3', '5', '7', '9', '12', '12'].map((number) => `No. ${number}`),
    );
    // Harder wood takes the next, softer wood a finer one.
    expect(bladeForWood(COMMON_BLADES, 19.05, 1450).name).toBe('No. 7');
    expect(bladeForWood(COMMON_BLADES, 14, 410).name).toBe('No. 3');
  });

  it('are finer where a bend or an opening asks for it, but never too fine for the wood', () => {
    const choose = (bend: number | undefined, hole: number | undefined) =>
      bladeForCut(COMMON_BLADES, 19.05, 1000, { bend, hole });
    expect(choose(undefined, undefined).blade.name).toBe('No. 5');
    expect(choose(2, undefined).blade.name).toBe('No. 3');
    expect(choose(2, undefined).why).toMatch(/radius of 2.00 mm/);
    expect(choose(undefined, 1.2).blade.name).toBe('No. 3');
    expect(choose(undefined, 1.2).why).toMatch(/hole of 1.20 mm/);
    expect(choose(0.3, undefined).blade.name).toBe('No. 3');
    expect(choose(0.3, undefined).why).toMatch(/turned on the spot/);
  });

  it('last 15 to 30 minutes in 3/4 in and 30 to 60 in 1/4 in hardwood (common practice)', () => {
    expect(bladeLife(19.05)).toMatchObject({ low: 15, high: 30 });
    expect(bladeLife(6.35).low).toBeCloseTo(30, 9);
    expect(bladeLife(6.35).high).toBeCloseTo(60, 9);
    // 3.5 in a minute for 22 minutes are 1.96 m.
    expect(bladesWorn(1960, 19.05, 1000).likely).toBeCloseTo(1, 2);
  });
});
