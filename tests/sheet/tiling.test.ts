import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coverage, windowCount, windowStarts } from '../../src/sheet/paper/tiling.ts';

describe('the number of windows', () => {
  test('is one plus what is left, by the stride, rounded up', () => {
    // 48 in drawn on pages that show 10.5 in or 8 in, sharing 0.5 in: 1 + ceil(37.5 / 10) and 1 + ceil(40 / 7.5).
    expect(windowCount(48, { size: 10.5, overlap: 0.5 })).toBe(5);
    expect(windowCount(48, { size: 8, overlap: 0.5 })).toBe(7);
    expect(windowCount(10, { size: 10, overlap: 2 })).toBe(1);
    expect(windowCount(18, { size: 10, overlap: 2 })).toBe(2);
    expect(windowCount(18.001, { size: 10, overlap: 2 })).toBe(3);
  });
});

describe('the starts of the windows', () => {
  const extents = fc
    .array(
      fc.tuple(fc.double({ min: 0, max: 1000, noNaN: true }), fc.double({ min: 1, max: 90, noNaN: true })),
      {
        maxLength: 30,
      },
    )
    .map((list) => list.map(([from, size]) => ({ from, to: Math.min(1000, from + size) })));

  test('cover everything with no fewer than the overlap, whatever the parts', () => {
    fc.assert(
      fc.property(extents, fc.double({ min: 120, max: 900, noNaN: true }), (parts, size) => {
        const starts = windowStarts({ from: 0, to: 1000 }, { size, overlap: 12 }, parts);
        expect(starts.length).toBe(windowCount(1000, { size, overlap: 12 }));
        expect(starts[0]).toBeLessThanOrEqual(0);
        expect(starts[starts.length - 1] + size).toBeGreaterThanOrEqual(1000 - 1e-6);
        starts.slice(1).forEach((start, i) => {
          expect(starts[i] + size - start).toBeGreaterThanOrEqual(12 - 1e-6);
        });
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  test('leave a text whole as well, but for no part', () => {
    const text = { from: 180, to: 230 };
    const starts = (parts: { from: number; to: number }[], texts: { from: number; to: number }[]) =>
      windowStarts({ from: 0, to: 500 }, { size: 200, overlap: 10 }, parts, texts);
    expect(starts([], [text])).toEqual([0, 179, 369]);
    // Before the text, the second window would end in a part that the third could not begin before.
    expect(starts([{ from: 290, to: 385 }], [text])).toEqual(starts([{ from: 290, to: 385 }], []));
  });

  test('show a part with the cross-cut beside it where there is room to shift, and a text whole before that', () => {
    const part = { from: 375, to: 480 };
    const starts = (to: number, texts: { from: number; to: number }[], cut: number) =>
      windowStarts({ from: 0, to }, { size: 200, overlap: 10 }, [part], texts, [{ from: cut, to: part.to }]);
    expect(starts(500, [], 374)).toEqual([0, 190, 373]);
    expect(starts(500, [], 370)).toEqual([0, 190, 369]);
    expect(starts(500, [{ from: 180, to: 230 }], 370)).toEqual([0, 179, 369]);
    // Three windows just reach to the end.
    expect(starts(580, [], 370)).toEqual([0, 190, 380]);
    // No page is as long as from this cut to the end of its part.
    expect(starts(500, [], 270)).toEqual([0, 190, 374]);
  });

  test('a part that an even tiling would cut is moved to one page', () => {
    const part = { from: 170, to: 230 };
    const starts = windowStarts({ from: 0, to: 350 }, { size: 200, overlap: 10 }, [part]);
    expect(starts.length).toBe(2);
    expect(starts.some((start) => start <= part.from - 1 && part.to + 1 <= start + 200)).toBe(true);
  });

  test('without parts to spare the windows overlap as little as they may', () => {
    expect(windowStarts({ from: 0, to: 380 }, { size: 200, overlap: 10 }, [])).toEqual([0, 190]);
  });

  test('one window stands in the middle of what it shows', () => {
    expect(windowStarts({ from: 0, to: 100 }, { size: 200, overlap: 10 }, [])).toEqual([-50]);
  });
});

test('what costs a further window is left out, the near end first', () => {
  const all = { from: -10, to: 206 };
  expect(coverage(all, { from: 4, to: 196 }, { from: 4, to: 196 }, { size: 220, overlap: 10 })).toEqual(all);
  expect(coverage(all, { from: 4, to: 196 }, { from: 4, to: 196 }, { size: 205, overlap: 10 })).toEqual({
    from: 4,
    to: 206,
  });
  expect(coverage(all, { from: -4, to: 196 }, { from: -4, to: 196 }, { size: 206, overlap: 10 })).toEqual({
    from: -10,
    to: 196,
  });
  expect(coverage(all, { from: 4, to: 196 }, { from: 4, to: 196 }, { size: 195, overlap: 10 })).toEqual({
    from: 4,
    to: 196,
  });
  // A name beside the content is on the page as long as it costs none.
  expect(coverage(all, { from: 1, to: 196 }, { from: 4, to: 196 }, { size: 195, overlap: 10 })).toEqual({
    from: 1,
    to: 196,
  });
  expect(coverage(all, { from: 1, to: 196 }, { from: 4, to: 196 }, { size: 193, overlap: 10 })).toEqual({
    from: 4,
    to: 196,
  });
});
