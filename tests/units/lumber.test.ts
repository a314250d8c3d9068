import { describe, expect, it } from 'vitest';
import { boardFeet, quarterThickness, SQUARE_MM_PER_SQUARE_FOOT } from '../../src/units/lumber.ts';

describe('quarterThickness', () => {
  // NHLA surfaced-two-sides thickness, as tabulated by The Engineering ToolBox: 4/4 -> 13/16, 8/4 -> 1-3/4 in.
  it('gives the surfaced thickness of a nominal label', () => {
    expect(quarterThickness('4/4')).toBeCloseTo(20.6375, 9);
    expect(quarterThickness('8 / 4')).toBeCloseTo(44.45, 9);
  });

  it('leaves three quarters of an inch alone', () => {
    expect(quarterThickness('3/4')).toBeUndefined();
    expect(quarterThickness('3/4 in')).toBeUndefined();
    expect(quarterThickness('constructor')).toBeUndefined();
  });
});

describe('boardFeet', () => {
  // Surface measure examples of the American Hardwood Export Council grading guide: 6-1/4 in x 8 ft of 2 in stock
  // holds 8.333 board feet before rounding.
  it('is width x length x thickness / 12 with inches, feet, inches', () => {
    expect(boardFeet(6.25 * 25.4 * 8 * 304.8, 2 * 25.4)).toBeCloseTo((6.25 * 8 * 2) / 12, 9);
    expect(boardFeet(SQUARE_MM_PER_SQUARE_FOOT, 25.4)).toBeCloseTo(1, 12);
  });
});
