import { describe, expect, it } from 'vitest';
import {
  boardFeet,
  quarterThickness,
  SQUARE_MM_PER_SQUARE_FOOT,
  SURFACED_TWO_SIDES_INCHES,
} from '../../src/units/lumber.ts';
import { outsideCheck } from '../outside-check.ts';

describe('quarterThickness', () => {
  // NHLA surfaced-two-sides thickness, as tabulated by The Engineering ToolBox: 4/4 -> 13/16, 8/4 -> 1-3/4 in.
  it('gives the surfaced thickness of a nominal label', () => {
    outsideCheck({
      what: 'Surfaced thickness of 4/4 and 8/4 lumber, mm',
      source: 'NHLA surfaced two sides, as tabulated by The Engineering ToolBox: 13/16 in, 1-3/4 in',
      expected: [(13 / 16) * 25.4, 1.75 * 25.4],
      found: [quarterThickness('4/4') ?? 0, quarterThickness('8 / 4') ?? 0],
      tolerance: 1e-9,
    });
  });

  // From memory: surfacing two sides takes 3/16 in off lumber up to 6/4, and 1/4 in off what is thicker.
  it('takes as much off each label as is surfaced off lumber of its thickness', () => {
    for (const [label, surfaced] of Object.entries(SURFACED_TWO_SIDES_INCHES)) {
      const nominal = Number.parseInt(label, 10) / 4;
      expect(nominal - surfaced, label).toBe(nominal <= 1.5 ? 3 / 16 : 1 / 4);
    }
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
    outsideCheck({
      what: 'Board feet of 6-1/4 in x 8 ft x 2 in, before rounding',
      source: 'American Hardwood Export Council, grading guide, surface measure examples',
      expected: 8.333,
      found: boardFeet(6.25 * 25.4 * 8 * 304.8, 2 * 25.4),
      tolerance: 5e-4,
    });
    expect(boardFeet(SQUARE_MM_PER_SQUARE_FOOT, 25.4)).toBeCloseTo(1, 12);
  });
});
