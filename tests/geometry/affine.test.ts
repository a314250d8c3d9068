import { describe, expect, it } from 'vitest';
import {
  type Affine,
  applyToPoint,
  applyToRegion,
  applyToVector,
  compose,
  determinant,
  IDENTITY,
  placementMap,
  rotation,
} from '../../src/geometry/affine.ts';
import type { Point } from '../../src/geometry/shapes.ts';

const close = (found: readonly number[], expected: readonly number[]) => {
  expect(found).toHaveLength(expected.length);
  found.forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i], 12);
  });
};

describe('affine maps', () => {
  const shear: Affine = [1, 2, 3, 4, 5, 6];
  const scale: Affine = [2, 0, 0, 3, 10, 20];

  it('move points by their matrix, and directions without the translation', () => {
    // x' = 1 x 7 + 3 x 8 + 5, y' = 2 x 7 + 4 x 8 + 6.
    expect(applyToPoint(shear, [7, 8])).toEqual([36, 52]);
    expect(applyToVector(shear, [7, 8])).toEqual([31, 46]);
    expect(applyToPoint(IDENTITY, [7, 8])).toEqual([7, 8]);
  });

  it('do the inner one first when composed', () => {
    const both = compose(shear, scale);
    for (const point of [
      [0, 0],
      [1, 0],
      [0, 1],
      [3, -4],
    ] as Point[])
      expect(applyToPoint(both, point)).toEqual(applyToPoint(shear, applyToPoint(scale, point)));
    expect(determinant(both)).toBe(determinant(shear) * determinant(scale));
    expect(determinant(shear)).toBe(-2);
  });

  it('move every ring of a region', () => {
    const region = {
      outline: [
        [0, 0],
        [1, 0],
        [1, 1],
      ],
      openings: [
        [
          [2, 2],
          [3, 2],
          [3, 3],
        ],
      ],
    } as const;
    expect(applyToRegion(scale, region)).toEqual({
      outline: [
        [10, 20],
        [12, 20],
        [12, 23],
      ],
      openings: [
        [
          [14, 26],
          [16, 26],
          [16, 29],
        ],
      ],
    });
  });
});

describe('rotation', () => {
  it('is exact at quarter turns, however often round', () => {
    const turned = (degrees: number) => applyToPoint(rotation(degrees), [3, 4]).map((value) => value + 0);
    for (const round of [-720, 0, 360]) {
      expect(turned(round)).toEqual([3, 4]);
      expect(turned(round + 90)).toEqual([-4, 3]);
      expect(turned(round + 180)).toEqual([-3, -4]);
      expect(turned(round + 270)).toEqual([4, -3]);
    }
  });

  it('turns x towards y', () => {
    close(applyToPoint(rotation(30), [2, 0]), [Math.sqrt(3), 1]);
    close(applyToPoint(rotation(-30), [2, 0]), [Math.sqrt(3), -1]);
  });
});

describe('placementMap', () => {
  it('turns over, then rotates, then moves', () => {
    expect(applyToPoint(placementMap([100, 200], 90, false), [3, 4])).toEqual([96, 203]);
    // Turned over the point is (-3, 4); a quarter turn makes that (-4, -3).
    expect(applyToPoint(placementMap([100, 200], 90, true), [3, 4])).toEqual([96, 197]);
    expect(determinant(placementMap([1, 2], 33, true))).toBeCloseTo(-1, 12);
  });
});
