import { expect, it } from 'vitest';
import type { Board } from '../../src/model/stock.ts';
import { otherStrips, type PartInStrips } from '../../src/stock/other-strips.ts';
import { cutInto } from '../../src/stock/ripping.ts';
import { rectangle } from '../rectangle.ts';

const rules = { reach: { throat: 400, longest: undefined }, kerf: 3.175, margin: 3, gap: 1 };
const sheet: Board = {
  id: 'Sheet',
  species: 'birch',
  thickness: 6,
  outline: rectangle(1525, 1525),
  defects: [],
  quantity: 1,
  price: 45,
};
const inStrips = (strips: number, lengths = 1) => cutInto({ strips, lengths }, sheet, rules.kerf);
const part = (along: number, across: number, change: Partial<PartInStrips> = {}): PartInStrips => ({
  ways: [[along, across]],
  copiesPerSet: 1,
  mostRows: Number.POSITIVE_INFINITY,
  ...change,
});

// By hand, Pythagoras, 400 mm throat: 5, 6, 8 and 9 strips are 302.46, 251.52, 187.84 and 166.62 mm wide and turn in lengths
// of 261.77, 311.02, 353.15 and 363.65 mm. A leaf of 240 x 150 mm with a margin of 3 mm all round lies across in five and
// six strips, nine of it in each, and along in eight and nine, six in each: 45, 54, 48 and 54 on a sheet. In seven: 42.
const leaf = part(240, 150, {
  ways: [
    [240, 150],
    [150, 240],
  ],
});

it('names the numbers of strips whose sheet holds more, those that hold most', () => {
  expect(otherStrips(inStrips(5), [leaf], 4, rules)).toEqual([6, 8, 9]);
  expect(otherStrips(inStrips(5), [leaf], 2, rules)).toEqual([6, 9]);
  expect(otherStrips(inStrips(6), [leaf], 4, rules)).toEqual([]);
});

it('keeps room for every part that has it, and for no others', () => {
  // 250 x 200 mm, by the same reckoning, goes 35 times on five strips and 30 times on six, and 181.8 mm are too narrow for it.
  const both = [part(250, 200, { ways: [...part(250, 200).ways, [200, 250]] }), { ...leaf, copiesPerSet: 3 }];
  expect(otherStrips(inStrips(5), both, 4, rules)).toEqual([6]);
  expect(otherStrips(inStrips(5), [leaf, part(300, 100)], 4, rules)).toEqual([6, 8, 9]);
  expect(otherStrips(inStrips(5), [part(300, 100)], 4, rules)).toEqual([]);
});

it('counts the rows that a strip takes, and the lengths it is cut into', () => {
  // One row of 60 mm and its margins in each: 66.3 mm are left of 22 strips.
  expect(otherStrips(inStrips(5), [part(240, 60, { mostRows: 1 })], 2, rules)).toEqual([21, 22]);
  // Lengths of 760.91 mm hold four leaves across in five and six strips, 40 and 48 on a sheet, and along in nine three: 54.
  expect(otherStrips(inStrips(5, 2), [leaf], 1, rules)).toEqual([9]);
});

it('keeps the gap between rows, and none beside the last', () => {
  // Boxes of 240 x 66 mm, 20 mm apart and 3 mm from the edges, six along a strip. Rows of 86 mm less the last gap: three in
  // five strips and in six, two in eight and nine, one in nineteen and twenty, 73.2 mm wide, none in twenty-one.
  // On a sheet: 90, 108, 96, 108, 114 and 120.
  expect(otherStrips(inStrips(5), [part(240, 66)], 4, { ...rules, gap: 20 })).toEqual([6, 9, 19, 20]);
});
