import { expect, test } from 'vitest';
import { insidePoint } from '../../src/geometry/inside-point.ts';
import type { Point, Ring } from '../../src/geometry/shapes.ts';

// Closed forms of the inscribed circle: Euclid IV.4 (triangle: r = 2 area / perimeter) and plain symmetry.
const square: Ring = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

test('a square: its centre, half its side', () => {
  const { at, radius } = insidePoint({ outline: square, openings: [] });
  expect(radius).toBeCloseTo(5, 6);
  expect(at[0]).toBeCloseTo(5, 6);
});

test('a right triangle of 3, 4, 5: radius 1', () => {
  const triangle: Ring = [
    [0, 0],
    [4, 0],
    [0, 3],
  ];
  const { at, radius } = insidePoint({ outline: triangle, openings: [] }, 0.001);
  expect(Math.abs(radius - 1)).toBeLessThanOrEqual(0.001);
  expect(Math.hypot(at[0] - 1, at[1] - 1)).toBeLessThan(0.1);
});

test('an opening is kept out', () => {
  const opening: Ring = [
    [1, 1],
    [7, 1],
    [7, 9],
    [1, 9],
  ];
  const { at, radius } = insidePoint({ outline: square, openings: [opening] });
  expect(at[0]).toBeGreaterThan(7);
  expect(Math.abs(radius - 1.5)).toBeLessThanOrEqual(0.05);
});

test('the precision shrinks with the shape', () => {
  const tiny = square.map(([x, y]) => [x / 1000, y / 1000] as const);
  expect(insidePoint({ outline: tiny, openings: [] }).radius).toBeCloseTo(0.005, 5);
});

test('a long strip has its widest place in the middle, and a tiny shape where it is widest', () => {
  const slit: Ring = [
    [0, 7],
    [300, 7],
    [300, 7.2],
    [0, 7.2],
  ];
  const { at, radius } = insidePoint({ outline: slit, openings: [] });
  expect(at).toEqual([150, 7.1]);
  expect(radius).toBeCloseTo(0.1, 12);
  // An angle of hundredths of a millimetre: the middle of its box is inside, but close to the corner between the legs.
  const angle: Ring = [
    [0, 0],
    [0.04, 0],
    [0.04, 0.012],
    [0.022, 0.012],
    [0.022, 0.04],
    [0, 0.04],
  ];
  expect(insidePoint({ outline: angle, openings: [] }).radius).toBeGreaterThan(0.008);
});

test('shapes without an inside give radius 0 and one of their points', () => {
  expect(insidePoint({ outline: [], openings: [] })).toEqual({ at: [0, 0], radius: 0 });
  const flat: Ring = [
    [1, 2],
    [5, 2],
    [9, 2],
  ];
  expect(insidePoint({ outline: flat, openings: [] })).toEqual({ at: [1, 2], radius: 0 });
});

test('a hair has no inside, and is not searched for one', () => {
  const hair: Ring = [
    [0, 0],
    [900, 0],
    [900, 0.0002],
    [0, 0.0002],
  ];
  expect(insidePoint({ outline: hair, openings: [] })).toEqual({ at: [0, 0], radius: 0 });
  // 2 m of a strip that a saw can cut.
  const strip = hair.map(([x, y]): Point => [(x / 900) * 2000, (y / 0.0002) * 2]);
  expect(insidePoint({ outline: strip, openings: [] }).radius).toBeCloseTo(1, 6);
});
