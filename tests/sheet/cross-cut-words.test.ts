import { describe, expect, test } from 'vitest';
import { type Box, boxRing, type Line, type Ring } from '../../src/geometry/shapes.ts';
import { crossCutLines, ripsBeforeCrossCuts } from '../../src/model/cross-cuts.ts';
import type { LaidBoard, Offcut } from '../../src/model/layout.ts';
import { preparingAmounts } from '../../src/sawing/time/preparing-amounts.ts';
import { crossCutWords } from '../../src/sheet/cross-cut-words.ts';
import { flatMarks } from '../../src/sheet/marks/marks.ts';
import { placementSheet } from '../../src/sheet/placement-sheet.ts';
import { handBoard } from './hand-layout.ts';
import { handPlan } from './hand-plan.ts';
import { rip, SECTIONS } from './hand-sections.ts';

const across = (x: number, from: number, to: number): Line => [
  [x, from],
  [x, to],
];

function keeper(number: number, rectangle: Box, lines: readonly Line[]): Offcut {
  const region = { outline: boxRing(rectangle), openings: [] };
  return { id: `maple-1 keeper ${number}`, region, rectangle, area: 1, lines };
}

const parted = (offcuts: readonly Offcut[], change: Partial<LaidBoard> = {}) =>
  handBoard({ sections: SECTIONS, offcuts, ...change });

/** 29 mm ripped off above all sections. */
const WHOLE = keeper(1, { minX: 0, minY: 0, maxX: 300, maxY: 29 }, [rip(30, 0, 300)]);
/** The same above the first two. */
const SHORT = keeper(1, { minX: 0, minY: 0, maxX: 199, maxY: 29 }, [rip(30, 0, 199)]);
/** Between two rows. */
const MIDDLE = keeper(1, { minX: 0, minY: 51, maxX: 300, maxY: 69 }, [rip(50, 0, 300), rip(70, 0, 300)]);

describe('a keeper that is ripped off over several sections', () => {
  test('is not cross-cut with them', () => {
    expect(crossCutLines(parted([WHOLE]))).toEqual([across(100, 30, 120), across(200, 30, 120)]);
    expect(crossCutLines(parted([SHORT]))).toEqual([across(100, 30, 120), across(200, 0, 120)]);
    expect(crossCutLines(parted([MIDDLE]))).toEqual(
      [100, 200].flatMap((x) => [across(x, 0, 50), across(x, 70, 120)]),
    );
    // By a rip without a width, to the rounding of the keeper's edge.
    const fine = keeper(1, { minX: 0, minY: 0, maxX: 300, maxY: 30 }, [rip(29.99995, 0, 300)]);
    expect(crossCutLines(parted([fine]))).toEqual([across(100, 29.99995, 120), across(200, 29.99995, 120)]);
    // A knot leaves the right of the strip alone, and the whole of it is ripped off all the same.
    const right = keeper(1, { minX: 120, minY: 0, maxX: 300, maxY: 29 }, [rip(30, 0, 300)]);
    expect(crossCutLines(parted([right]))).toEqual([across(100, 30, 120), across(200, 30, 120)]);
    // One section's own keeper leaves the cuts as they are, also below a strip.
    const below = keeper(2, { minX: 101, minY: 31, maxX: 199, maxY: 59 }, [
      rip(30, 0, 300),
      rip(60, 101, 199),
    ]);
    expect(crossCutLines(parted([WHOLE, below]))).toEqual([across(100, 30, 120), across(200, 30, 120)]);
    expect(ripsBeforeCrossCuts(parted([WHOLE, below]))).toEqual([rip(30, 0, 300)]);
    expect(crossCutLines(parted([keeper(1, below.rectangle, [rip(30, 101, 199)])]))).toEqual([
      across(100, 0, 120),
      across(200, 0, 120),
    ]);
  });

  test('is told with its rip before the cuts, and where the rip ends short of the board that cut before it', () => {
    const trimmed = { topEdge: 0, straightEdge: 5, leftEnd: 0, rightEnd: 0 };
    const outline = boxRing({ minX: -10, minY: 0, maxX: 300, maxY: 125 });
    const words = (offcuts: readonly Offcut[], change: Partial<LaidBoard> = {}) =>
      crossCutWords(parted(offcuts, { outline, trimmed, ...change }), 'mm');
    const end = 'to the middle of the kerf';
    expect(words([WHOLE])).toBe(
      `rip 90 mm above the straight edge, then cross-cut 110 mm, 210 mm from the left end, ${end}`,
    );
    // An end that hangs down is cross-cut off before, and no fence is set by it.
    const hanging: Ring = [
      [-10, 0],
      [300, 0],
      [300, 125],
      [0, 125],
      [-10, 140],
    ];
    const cutOff = { topEdge: 0, straightEdge: 0, leftEnd: 10, rightEnd: 0 };
    expect(words([WHOLE], { outline: hanging, trimmed: cutOff })).toBe(
      `rip 95 mm above the straight edge, then cross-cut 110 mm, 210 mm from the left end before it is trimmed, ${end}`,
    );
    expect(words([SHORT])).toBe(
      `cross-cut 210 mm from the left end, then rip 90 mm above the straight edge up to 210 mm, then cross-cut 110 mm, ${end}`,
    );
    expect(words([MIDDLE])).toBe(
      `rip 70 mm above the straight edge, then rip 50 mm above the straight edge, then cross-cut 110 mm, 210 mm from the left end, ${end}`,
    );
    // From the top down and along all of it first, in whatever order they free keepers.
    const below = keeper(2, { minX: 0, minY: 71, maxX: 199, maxY: 89 }, [rip(90, 0, 199)]);
    expect(words([below, { ...MIDDLE, lines: [...MIDDLE.lines].reverse() }])).toBe(
      `rip 70 mm above the straight edge, then rip 50 mm above the straight edge, then cross-cut 210 mm from the left end, then rip 30 mm above the straight edge up to 210 mm, then cross-cut 110 mm, ${end}`,
    );
    const right = keeper(1, { minX: 101, minY: 0, maxX: 300, maxY: 29 }, [rip(30, 101, 300)]);
    expect(words([right])).toBe(
      `cross-cut 110 mm from the left end, then rip 90 mm above the straight edge from 110 mm on, then cross-cut 210 mm, ${end}`,
    );
    const four = [
      ...SECTIONS.slice(0, 2),
      { number: 3, from: 201, to: 249 },
      { number: 4, from: 251, to: 300 },
    ];
    const inner = keeper(1, { minX: 101, minY: 0, maxX: 249, maxY: 29 }, [rip(30, 101, 249)]);
    expect(words([inner], { sections: four })).toBe(
      `cross-cut 110 mm, 260 mm from the left end, then rip 90 mm above the straight edge from 110 mm to 260 mm, then cross-cut 210 mm, ${end}`,
    );
    expect(words([])).toBe(`cross-cut 110 mm, 210 mm from the left end, ${end}`);
    // A straight cut of 12 mm goes 6 mm into the board on either side of its line.
    const wide = [
      { number: 1, from: 0, to: 94 },
      { number: 2, from: 106, to: 194 },
      { number: 3, from: 206, to: 300 },
    ];
    const thick = keeper(1, { minX: 106, minY: 0, maxX: 300, maxY: 24 }, [rip(30, 106, 300)]);
    expect(words([thick], { sections: wide })).toBe(
      `cross-cut 110 mm from the left end, then rip 90 mm above the straight edge from 110 mm on, then cross-cut 210 mm, ${end}`,
    );
  });

  test('takes one rip, and as many cross-cuts as pieces are cut', () => {
    const amounts = (offcut: Offcut) => {
      const { ripping, crosscutting } = preparingAmounts({ boards: [parted([offcut])], kerf: 1 });
      return [ripping, crosscutting];
    };
    expect([WHOLE, SHORT, MIDDLE].map(amounts)).toEqual([
      [1, 2],
      [1, 2],
      [2, 4],
    ]);
  });

  test('is drawn without a cross-cut through it', () => {
    const board = parted([WHOLE]);
    const plan = { ...handPlan(board), sections: SECTIONS };
    const marks = flatMarks(placementSheet(board, { job: 'plan', unit: 'mm', kerf: 1, plan }).marks);
    const drawn = (role: string) =>
      marks.flatMap((mark) => (mark.role === role && mark.kind === 'line' ? [mark.points] : []));
    expect(drawn('section')).toEqual(expect.arrayContaining([across(100, 30, 120), across(200, 30, 120)]));
    expect(
      drawn('section')
        .flat()
        .filter(([, y]) => y >= 0 && y < 30),
    ).toEqual([]);
    expect(drawn('keeper')).toContainEqual(rip(30, 0, 300));
  });
});
