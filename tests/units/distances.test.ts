import { expect, it } from 'vitest';
import { formatThickness } from '../../src/units/distances.ts';

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
