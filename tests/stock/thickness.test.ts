import { describe, expect, it } from 'vitest';
import { slicesIn } from '../../src/model/resawing.ts';
import { thicknessFit } from '../../src/stock/thickness.ts';
import { MM_PER_UNIT } from '../../src/units/length.ts';
import { SURFACED_TWO_SIDES_INCHES } from '../../src/units/lumber.ts';
import { outsideCheck } from '../outside-check.ts';

const inch = (value: number) => value * MM_PER_UNIT.in;

describe('thicknessFit', () => {
  it('takes a board within the tolerance as it is', () => {
    expect(thicknessFit(19.4, 19, 0.5)).toEqual({ work: 'none' });
    expect(thicknessFit(18.5, 19, 0.5)).toEqual({ work: 'none' });
  });

  it('refuses a thin board', () => {
    expect(thicknessFit(18, 19, 0.5)).toEqual({ work: 'refused' });
  });

  // 4/4 is 1 in rough and 13/16 in surfaced on two sides (NHLA, as tabulated by The Engineering ToolBox).
  it('planes 4/4 to its surfaced thickness, 3/32 in from each side', () => {
    const fit = thicknessFit(inch(1), inch(SURFACED_TWO_SIDES_INCHES['4/4']), 0.5);
    expect(fit).toMatchObject({ work: 'plane' });
    outsideCheck({
      what: 'What is planed off each side of rough 4/4, in',
      source: 'NHLA thicknesses as tabulated by The Engineering ToolBox: 1 in rough, 13/16 in surfaced',
      expected: 3 / 32,
      found: fit.work === 'plane' ? fit.eachSide / MM_PER_UNIT.in : 'not planed',
      tolerance: 1e-9,
    });
  });

  // By hand: 13/16 in holds two slices of 1/4 in, 1/16 in to clean each, one 1/8 in cut: 2 x 5/16 + 1/8 = 3/4 in.
  it('resaws 13/16 in into two slices of 1/4 in, and 8/4 into four', () => {
    expect(thicknessFit(inch(13 / 16), inch(1 / 4), 0.5)).toEqual({ work: 'resaw', slices: 2 });
    expect(slicesIn(inch(3 / 4), inch(1 / 4))).toBe(2);
    expect(slicesIn(inch(3 / 4) - 0.01, inch(1 / 4))).toBe(1);
    expect(slicesIn(inch(1.75), inch(1 / 4))).toBe(4);
  });

  it('never counts more slices than fit, whatever the sizes', () => {
    for (let wanted = 2; wanted < 30; wanted += 0.7) {
      for (let thickness = wanted + 6.4; thickness < 80; thickness += 1.3) {
        const slices = slicesIn(thickness, wanted);
        const needed = (n: number) => n * (wanted + inch(1 / 16)) + (n - 1) * inch(1 / 8);
        if (slices > 0) expect(needed(slices)).toBeLessThanOrEqual(thickness + 1e-6);
        expect(needed(slices + 1)).toBeGreaterThan(thickness);
      }
    }
  });
});
