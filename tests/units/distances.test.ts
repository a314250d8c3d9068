import { expect, it } from 'vitest';
import { formatThickness, formatThin, formatTravel } from '../../src/units/distances.ts';

it.each([
  [6, '6 mm', '0.236 in'],
  [6.35, '6.35 mm', '1/4 in'],
  [20.6375, '20.64 mm', '13/16 in'],
  [20.64, '20.64 mm', '13/16 in'],
  [19, '19 mm', '0.748 in'],
  [19.05, '19.05 mm', '3/4 in'],
  [18, '18 mm', '0.709 in'],
  [0, '0 mm', '0 in'],
])('a thickness of %d mm is written %s and %s', (mm, metric, inches) => {
  expect([formatThickness(mm, 'mm'), formatThickness(mm, 'in')]).toEqual([metric, inches]);
});

it('a kerf is written to a hundredth of a millimetre or a thousandth of an inch, a way of the blade in m or ft', () => {
  expect([formatThin(0.4572, 'mm'), formatThin(0.4572, 'in'), formatThin(1, 'mm')]).toEqual([
    '0.46 mm',
    '0.018 in',
    '1 mm',
  ]);
  expect([formatTravel(6269, 'mm'), formatTravel(6269, 'in')]).toEqual(['6.27 m', '20.6 ft']);
});
