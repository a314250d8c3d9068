import { expect, it } from 'vitest';
import type { Region, Ring } from '../../../src/geometry/shapes.ts';
import { freeStep } from '../../../src/nesting/problem/orientations.ts';
import { rectangle } from '../../rectangle.ts';
import { disc } from '../../sawing/boards.ts';

const parts = (count: number, outline: Ring): Region[] =>
  Array.from({ length: count }, () => ({ outline, openings: [] }));

it('lists the fewer angles, the more curved parts there are', () => {
  const curved = disc(0, 0, 20, 60);
  const steps = [2, 5, 102, 103, 144, 145].map((count) => freeStep(parts(count, curved)));
  expect(steps).toEqual([15, 22.5, 45, 90, 90, 180]);
});

it('and as many as usual of straight ones, whose no-fit polygons are quick', () => {
  const stick = rectangle(80, 20);
  const steps = [150, 200, 300].map((count) => freeStep(parts(count, stick)));
  expect(steps).toEqual([45, 90, 180]);
});
