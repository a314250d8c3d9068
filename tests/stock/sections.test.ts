import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import { longestSection, partingsAround, partingsOf, SHORTEST, swingOf } from '../../src/stock/sections.ts';
import { MM_PER_UNIT } from '../../src/units/length.ts';
import { box } from '../rectangle.ts';

const inch = (value: number) => value * MM_PER_UNIT.in;

describe('longestSection', () => {
  // By hand, Pythagoras: a board 6 in wide turns fully in a 20 in throat up to 19.08 in, in 16 in up to 14.83 in;
  // 8 in wide in 16 in up to 13.86 in.
  it.each([
    [6, 20, 19.08],
    [6, 16, 14.83],
    [8, 16, 13.86],
  ])('of a board %d in wide in a throat of %d in is %d in', (width, throat, expected) => {
    const length = longestSection(inch(width), { throat: inch(throat), longest: undefined });
    expect(length / MM_PER_UNIT.in).toBeCloseTo(expected, 2);
  });

  it('is no longer than what is handled', () => {
    expect(longestSection(100, { throat: 1000, longest: 300 })).toBe(300);
    expect(longestSection(100, { throat: undefined, longest: 300 })).toBe(300);
  });
});

describe('partingsOf', () => {
  const reach = { throat: undefined, longest: 300 };
  const lengths = (length: number, filled: readonly number[] = []) =>
    partingsOf({ outline: box(0, 0, length, 100), openings: [] }, { reach, kerf: 3, filled }).map(
      (sections) => sections.map(({ from, to }) => [from, to]),
    );

  it('leaves a board whole that need not be cut', () => {
    expect(lengths(300)).toEqual([[]]);
  });

  it('cuts as long as may be from either end, alike, and as rows of parts ask, the kerf between', () => {
    expect(lengths(700, [255, 301, 20])).toEqual([
      [
        [0, 300],
        [303, 603],
        [606, 700],
      ],
      [
        [0, 94],
        [97, 397],
        [400, 700],
      ],
      [
        [0, 231.3333],
        [234.3333, 465.6666],
        [468.6666, 700],
      ],
      [
        [0, 255],
        [258, 513],
        [516, 700],
      ],
    ]);
  });

  it('is the same wherever the board lies in its drawing; sections are numbered and hold their wood', () => {
    const usable = { outline: box(1000, -50, 1700, 50), openings: [box(1020, -10, 1040, 10)] };
    const [sections] = partingsOf(usable, { reach, kerf: 3 });
    expect(sections.map(({ number, from, to }) => [number, from, to])).toEqual([
      [1, 1000, 1300],
      [2, 1303, 1603],
      [3, 1606, 1700],
    ]);
    for (const { from, to, usable: wood } of sections) {
      expect(boundsOf(wood.outline)).toEqual({ minX: from, minY: -50, maxX: to, maxY: 50 });
      expect(wood.openings.length).toBe(from === 1000 ? 1 : 0);
    }
    // A throat is measured over the width of the board: 300 x 400 mm turn in 500 mm.
    const wide = { outline: box(0, 200, 900, 600), openings: [] };
    const [turning] = partingsOf(wide, { reach: { throat: 500, longest: undefined }, kerf: 0 });
    expect(turning.map(({ from, to }) => [from, to])).toEqual([
      [0, 300],
      [300, 600],
      [600, 900],
    ]);
  });

  it('has one parting where all ways come to the same, and none of lengths not worth a cut', () => {
    expect(lengths(603)).toEqual([
      [
        [0, 300],
        [303, 603],
      ],
    ]);
    expect(lengths(603, [300, 49.9])).toHaveLength(1);
    expect(lengths(603, [50])).toHaveLength(2);
  });

  it('turns a section as short as is worth a cut, and takes the throat as length where none turns', () => {
    const throat = Math.hypot(50, 120);
    expect(longestSection(120, { throat, longest: undefined })).toBeCloseTo(50, 9);
    expect(longestSection(121, { throat, longest: undefined })).toBe(throat);
    expect(longestSection(500, { throat, longest: 90 })).toBe(90);
  });

  it('gives a short rest to the last two, and lets the cut take what is no wider than itself', () => {
    // By hand: 40 mm after the first cut are too short, 300 + 40 - 3 = 337 mm are halved around the kerf; 50 suffice.
    expect(lengths(340)[0]).toEqual([
      [0, 168.5],
      [171.5, 340],
    ]);
    expect(lengths(353)[0]).toEqual([
      [0, 300],
      [303, 353],
    ]);
    for (const length of [301.5, 303]) expect(lengths(length)[0]).toEqual([[0, 300]]);
  });

  it('puts its lines on the grid of layouts, and the last end where the board ends', () => {
    const usable = { outline: box(0.00005, 0, 700.00005, 100), openings: [] };
    for (const sections of partingsOf(usable, { reach, kerf: 3 })) {
      expect(sections[0].from).toBe(0.00005);
      const end = sections[sections.length - 1].to;
      expect(700.00005 - end).toBeGreaterThanOrEqual(0);
      expect(700.00005 - end).toBeLessThan(1e-4);
      const lines = sections.flatMap(({ from, to }) => [from, to]).slice(1, -1);
      for (const mm of lines) expect(mm).toBeCloseTo(Math.round(mm * 1e4) / 1e4, 9);
    }
  });

  it('loses no wood at the end of a board whose length is not on the grid', () => {
    const usable = { outline: box(0, 0, 700.00005, 100), openings: [] };
    expect(partingsOf(usable, { reach, kerf: 3 })[0][2]).toMatchObject({ from: 606, to: 700.00005 });
  });

  it('never leaves a sliver, and no wood between sections but the kerf, over lengths from 300 to 1500 mm', () => {
    const faults: string[] = [];
    for (let length = 300.5; length < 1500; length += 23.3) {
      for (const sections of lengths(length, [151, 200, 289.37])) {
        const sizes = sections.map(([from, to]) => to - from);
        const cuts = sections.slice(1).map(([from], i) => from - sections[i][1]);
        // What is left at the end is no wider than a cut.
        const rest = length - sections[sections.length - 1][1];
        const isRight =
          sections[0][0] === 0 &&
          sizes.every((size) => size >= 50 && size <= 300 + 1e-6) &&
          cuts.every((cut) => Math.abs(cut - 3) < 1e-3) &&
          rest <= 3.001;
        if (!isRight) faults.push(`${length}: ${sections.join(' ')}`);
      }
    }
    expect(faults).toEqual([]);
  });
});

describe('partingsAround', () => {
  const reach = { throat: undefined, longest: 300 };
  const ways = (length: number, kept: readonly { from: number; to: number }[]) =>
    partingsAround({ outline: box(0, 0, length, 100), openings: [] }, kept, { reach, kerf: 3 }).map(
      (sections) => sections.map(({ from, to }) => [from, to]),
    );

  it('cuts sections as long as may be from either end where nothing is in the way', () => {
    expect(ways(700, [{ from: 100, to: 200 }])).toEqual([
      [
        [0, 300],
        [303, 603],
        [606, 700],
      ],
      [
        [0, 94],
        [97, 397],
        [400, 700],
      ],
    ]);
    expect(ways(290, [{ from: 100, to: 200 }])).toEqual([[]]);
  });

  it.each([
    [
      'before what is kept at the line',
      500,
      [{ from: 280, to: 400 }],
      [
        [0, 277],
        [280, 500],
      ],
    ],
    [
      'before all that has no cut between',
      500,
      [
        { from: 200, to: 298 },
        { from: 299, to: 420 },
      ],
      [
        [0, 197],
        [200, 500],
      ],
    ],
    [
      'a short end off what then turns',
      600,
      [{ from: 30, to: 310 }],
      [
        [0, 27],
        [30, 330],
        [333, 600],
      ],
    ],
    [
      'no end too short for any part',
      330,
      [],
      [
        [0, 277],
        [280, 330],
      ],
    ],
    [
      'what is longer than a section free',
      900,
      [{ from: 100, to: 500 }],
      [
        [0, 97],
        [100, 500],
        [503, 803],
        [806, 900],
      ],
    ],
    [
      'no short end off what does not turn',
      900,
      [{ from: 40, to: 500 }],
      [
        [0, 500],
        [503, 803],
        [806, 900],
      ],
    ],
    [
      'nothing behind what reaches the end',
      502,
      [{ from: 100, to: 500 }],
      [
        [0, 97],
        [100, 502],
      ],
    ],
  ])('cuts %s', (_, length, kept, expected) => {
    expect(ways(length, kept)[0]).toEqual(expected);
  });

  it('never cuts what is kept, and leaves no section too short where it need not', () => {
    for (let at = 0; at <= 400; at += 7) {
      const kept = [
        { from: at, to: at + 150 },
        { from: at + 170, to: at + 260 },
      ];
      for (const sections of ways(800, kept)) {
        for (const { from, to } of kept) expect(sections.some((s) => s[0] <= from && s[1] >= to)).toBe(true);
        const short = sections.filter(([from, to]) => to - from < SHORTEST);
        expect(short.every(([from, to]) => from === 0 || to === 800)).toBe(true);
        expect(sections.every(([from, to]) => to - from <= 300)).toBe(true);
      }
    }
  });
});

describe('swingOf', () => {
  it('reaches from the farthest point of a part, openings and all, to the farthest corner', () => {
    const section = { outline: box(0, 0, 300, 40), openings: [] };
    const part = { outline: box(0, 0, 10, 10), openings: [] };
    expect(swingOf(part, section)).toBeCloseTo(Math.hypot(300, 40), 9);
    const middle = { outline: box(140, 15, 180, 25), openings: [] };
    expect(swingOf(middle, section)).toBeCloseTo(Math.hypot(180, 25), 9);
    // An opening is sawn as well, wherever it lies.
    expect(swingOf({ ...middle, openings: [box(200, 5, 210, 10)] }, section)).toBeCloseTo(
      Math.hypot(210, 35),
      9,
    );
  });
});
