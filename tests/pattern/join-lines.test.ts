import { expect, test } from 'vitest';
import { ringArea } from '../../src/geometry/ring.ts';
import type { Line } from '../../src/geometry/shapes.ts';
import { joinLines } from '../../src/pattern/join-lines.ts';

const sourced = (...lines: Line[]) => lines.map((line, source) => ({ line, source }));
const square: Line[] = [
  [
    [0, 0],
    [10, 0],
  ],
  [
    [10, 10],
    [10, 0.1],
  ],
  [
    [10.1, 10],
    [0, 10],
  ],
  [
    [0, 9.9],
    [0, 0.1],
  ],
];

test('four sides drawn in any direction, with gaps within the limit, close a square', () => {
  const { rings, rest } = joinLines(sourced(...square), 0.2);
  expect(rest).toEqual([]);
  expect(rings).toHaveLength(1);
  expect(rings[0].lines.map(({ source }) => source).toSorted()).toEqual([0, 1, 2, 3]);
  expect(ringArea(rings[0].ring)).toBeCloseTo(100, 0);
});

test('a gap wider than the limit leaves every line as it was drawn', () => {
  const lines = sourced(...square);
  const { rings, rest } = joinLines(lines, 0.05);
  expect(rings).toEqual([]);
  expect(rest).toEqual(lines);
});

test('of two ends within reach the nearer is taken', () => {
  const near: Line = [
    [10, 0.05],
    [10, 10],
    [0, 10],
    [0, 0],
  ];
  const far: Line = [
    [10.15, 0],
    [50, 0],
  ];
  const { rings, rest } = joinLines(sourced(square[0], far, near), 0.2);
  expect(rings.map(({ lines }) => lines.map(({ source }) => source))).toEqual([[0, 2]]);
  expect(rest.map(({ source }) => source)).toEqual([1]);
});

test('an open chain beside a closed one is handed back, not lost', () => {
  const tail: Line = [
    [30, 0],
    [40, 0],
  ];
  const more: Line = [
    [40, 0],
    [50, 5],
  ];
  const { rings, rest } = joinLines(sourced(tail, ...square, more), 0.2);
  expect(rings).toHaveLength(1);
  expect(rest.map(({ source }) => source).toSorted()).toEqual([0, 5]);
});

test('a ring behind a tail is found, whichever comes first', () => {
  const tail: Line = [
    [-20, 0],
    [0, 0],
  ];
  for (const lines of [
    [tail, ...square],
    [...square, tail],
  ]) {
    const { rings, rest } = joinLines(sourced(...lines), 0.2);
    expect(rings).toHaveLength(1);
    expect(rest.map(({ line }) => line)).toEqual([tail]);
  }
});

test('an open chain of 10,000 lines is walked once, not once from each of them', () => {
  const lines = Array.from(
    { length: 10_000 },
    (_, i): Line => [
      [i, 0],
      [i + 1, 0],
    ],
  );
  expect(joinLines(sourced(...lines), 0.2).rest).toHaveLength(10_000);
});

test('lines of more points than a call takes arguments are joined all the same', () => {
  const points = 150_000;
  const there: Line = Array.from({ length: points }, (_, i) => [i, i % 2]);
  const back: Line = Array.from({ length: points }, (_, i) => [i, 10 + (i % 2)]);
  const last = points - 1;
  const ends: Line[] = [
    [there[last], back[last]],
    [back[0], there[0]],
  ];
  const { rings } = joinLines(sourced(there, back, ...ends), 0.2);
  expect(rings.map(({ ring }) => ring.length)).toEqual([2 * points]);
});

test('lines to and fro that meet end to end close no outline when they cross one another thousands of times', () => {
  const chain = (count: number) =>
    sourced(
      ...Array.from(
        { length: count },
        (_, i): Line => [
          [200 * (i % 2), (i * 37) % count],
          [200 * ((i + 1) % 2), ((i + 1) * 37) % count],
        ],
      ),
    );
  expect(joinLines(chain(12), 0.2).rings).toHaveLength(1);
  const { rings, rest } = joinLines(chain(200), 0.2);
  expect(rings).toEqual([]);
  expect(rest).toEqual(chain(200));
});
