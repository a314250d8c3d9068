import { expect, test } from 'vitest';
import { boxRing } from '../../src/geometry/shapes.ts';
import type { Offcut } from '../../src/model/layout.ts';
import { type Mark, text } from '../../src/sheet/marks/marks.ts';
import { BoxedMarks } from '../../src/sheet/paper/boxed-marks.ts';
import { keeperNames } from '../../src/sheet/paper/keeper-names.ts';

const rectangle = { minX: 0, minY: 0, maxX: 1000, maxY: 100 };
const keeper: Offcut = {
  id: 'maple-1 keeper 1',
  region: { outline: boxRing(rectangle), openings: [] },
  rectangle,
  area: 100_000,
  lines: [],
};
const boxed = (marks: Mark[]) => new BoxedMarks({ marks, box: rectangle, grainRow: undefined });
const page = (minX: number, maxX: number) => {
  const window = { minX, minY: 0, maxX, maxY: 100 };
  return { window, own: window };
};

test('a keeper whose middle no page shows is named in the middle of the largest piece that has room for its name', () => {
  // Its middle is at 500; the pages show 470 and 380 mm of it.
  const pages = [page(610, 990), page(10, 480)];
  const nameOf = (...marks: Mark[]) =>
    pages.map((each) =>
      keeperNames([keeper], boxed(marks), pages)
        .get(each)
        ?.map(({ text, at }) => [text, at[0]]),
    );
  const label = (x: number) => text('label', 'Bank', [x, 50], 4, 'middle');
  expect(nameOf()).toEqual([undefined, [['keeper 1', 245]]]);
  // A label there sends it to the other page, and one on each leaves none.
  expect(nameOf(label(245))).toEqual([[['keeper 1', 800]], undefined]);
  expect(nameOf(label(245), label(800))).toEqual([undefined, undefined]);
  expect(nameOf(label(100))).toEqual([undefined, [['keeper 1', 245]]]);
});

test('a keeper whose middle a page shows is named there by the sheet alone', () => {
  expect(keeperNames([keeper], boxed([]), [page(10, 600)]).size).toBe(0);
});
