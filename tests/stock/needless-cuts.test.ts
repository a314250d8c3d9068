import { describe, expect, it } from 'vitest';
import { withoutNeedlessCuts } from '../../src/stock/needless-cuts.ts';
import type { Cell } from '../../src/stock/tighten-sections.ts';

const RULES = { longest: 386, keepLength: 203, gap: 4 };

function cell(from: number, to: number, carries: boolean): Cell {
  return { from, to, carries: carries ? { minX: from + 3, maxX: to - 3 } : undefined };
}

describe('cross-cuts that nobody asks for', () => {
  it('are left out where an end too short to be kept turns together with what is sawn', () => {
    expect(withoutNeedlessCuts([cell(0, 176, true), cell(179, 347, false)], RULES)).toEqual([
      { from: 0, to: 347 },
    ]);
    expect(withoutNeedlessCuts([cell(0, 100, false), cell(103, 347, true)], RULES)).toEqual([
      { from: 0, to: 347 },
    ]);
    expect(withoutNeedlessCuts([cell(0, 170, true), cell(173, 340, true)], RULES)).toEqual([
      { from: 0, to: 340 },
    ]);
  });

  it('stay where the saw needs them, or where an empty piece may be kept as it is', () => {
    const tooLong = [cell(0, 347, true), cell(350, 526, true), cell(529, 582, false)];
    expect(withoutNeedlessCuts(tooLong, RULES)).toEqual([
      { from: 0, to: 347 },
      { from: 350, to: 582 },
    ]);
    const kept = [cell(0, 150, true), cell(153, 360, false)];
    expect(withoutNeedlessCuts(kept, RULES)).toEqual(kept.map(({ from, to }) => ({ from, to })));
    expect(withoutNeedlessCuts([...kept].reverse(), RULES)).toHaveLength(2);
  });

  it('stay between parts that lie nearer than a blade and its clearance ask for', () => {
    // Parts end 3 mm from the lines of a cut of 3 mm: 9 mm lie between them.
    const near = [cell(0, 100, true), cell(103, 200, true), cell(203, 300, true)];
    expect(withoutNeedlessCuts(near, { ...RULES, gap: 9 })).toEqual([{ from: 0, to: 300 }]);
    expect(withoutNeedlessCuts(near, { ...RULES, gap: 9.1 })).toHaveLength(3);
    const withRest = [cell(0, 100, true), cell(103, 106, false), cell(109, 200, true)];
    expect(withoutNeedlessCuts(withRest, { ...RULES, gap: 15 })).toHaveLength(1);
    expect(withoutNeedlessCuts(withRest, { ...RULES, gap: 15.1 })).toHaveLength(2);
  });
});
