import fc from 'fast-check';
import svgpath from 'svgpath';
import { describe, expect, test } from 'vitest';
import type { Curve, Segment } from '../../src/geometry/curve.ts';
import { pointAt } from '../../src/geometry/curve.ts';
import { readPathData } from '../../src/svg/path-data.ts';

/** Short text of curves: M, L, C and A with rounded numbers, arcs by centre and sweep in degrees. */
function written(curves: readonly Curve[]): string {
  const n = (values: readonly number[]): string => values.map((v) => Number(v.toFixed(6)) + 0).join(' ');
  const one = (segment: Segment): string => {
    if (segment.kind === 'line') return `L${n(segment.to)}`;
    if (segment.kind === 'cubic') return `C${n([...segment.c1, ...segment.c2, ...segment.to])}`;
    return `A(${n([...segment.centre, (segment.sweep * 180) / Math.PI])})${n(segment.to)}`;
  };
  return curves
    .map(({ start, segments, closed }) => `M${n(start)}${segments.map(one).join('')}${closed ? 'z' : ''}`)
    .join(' ');
}

function read(data: string): string {
  const { curves, problem } = readPathData(data);
  expect(problem).toBeUndefined();
  return written(curves);
}

describe('W3C SVG 2, section 9.3 examples', () => {
  test('a triangle', () => {
    expect(read('M 100 100 L 300 100 L 200 300 z')).toBe('M100 100L300 100L200 300L100 100z');
  });

  test.each([
    ['M 100 200 L 200 100 -100 -200', 'M 100 200 L 200 100 L -100 -200'],
    ['m 10 20 5 5 5 -5', 'M10 20L15 25L20 20'],
    ['M 0.6 0.5', 'M0.6.5'],
    ['M 1 2 L 3 4 5 6 H 7 V 8', 'M1,2,3,4,5,6H7V8'],
    ['M100-200L3 4', 'M 100 -200 L 3 4'],
    ['M 1e1 1E-1 L .5e+1 -1.5', 'M10 .1 5-1.5'],
    ['M0 0 09 007', 'M0 0L9 7'],
  ])('%s is %s', (a, b) => {
    expect(read(a)).toBe(read(b));
  });

  test('cubic01: S mirrors the control point before it', () => {
    expect(read('M100,200 C100,100 250,100 250,200 S400,300 400,200')).toBe(
      'M100 200C100 100 250 100 250 200C250 300 400 300 400 200',
    );
  });

  test('S after another command starts from the current point', () => {
    expect(read('M0 0L5 5S9 9 10 0')).toBe('M0 0L5 5C5 5 9 9 10 0');
  });

  test('quad01: T mirrors, as the cubic of the same curve', () => {
    expect(read('M200,300 Q400,50 600,300 T1000,300')).toBe(
      read('M200,300 Q400,50 600,300 Q800,550 1000,300'),
    );
    expect(read('M0 0Q3 6 6 0')).toBe('M0 0C2 4 4 4 6 0');
  });

  test('arcs01: three quarters of a circle about (300, 200), and one quarter about (275, 175)', () => {
    expect(read('M300,200 h-150 a150,150 0 1,0 150,-150 z')).toBe(
      'M300 200L150 200A(300 200 -270)300 50L300 200z',
    );
    expect(read('M275,175 v-150 a150,150 0 0,0 -150,150 z')).toBe(
      'M275 175L275 25A(275 175 -90)125 175L275 175z',
    );
  });

  test('commands after z go on from the start of the closed subpath', () => {
    expect(read('M1 1h4v4zl-1-1')).toBe('M1 1L5 1L5 5L1 1z M1 1L0 0');
    expect(read('M1 1h4v4zm2 2h1')).toBe('M1 1L5 1L5 5L1 1z M3 3L4 3');
  });
});

describe('arcs: W3C SVG 2, section 9.5.1 "Out-of-range elliptical arc parameters"', () => {
  test('equal end points leave the arc out', () => {
    expect(read('M0 0L5 5A3 3 0 1 1 5 5L9 9')).toBe('M0 0L5 5L9 9');
  });
  test('a zero radius is a straight line', () => {
    expect(read('M0 0A0 5 0 0 1 10 0')).toBe('M0 0L10 0');
    expect(read('M0 0A5 0 0 0 1 10 0')).toBe('M0 0L10 0');
  });
  test('negative radii lose their sign', () => {
    expect(read('M0 0A-5-5 0 0 1 10 0')).toBe(read('M0 0A5 5 0 0 1 10 0'));
  });
  test('radii too small are scaled up', () => {
    expect(read('M0 0A1 1 0 0 1 10 0')).toBe('M0 0A(5 0 180)10 0');
  });
  test('flags need no separator', () => {
    expect(read('M0 0a5 5 0 0110 0')).toBe('M0 0A(5 0 180)10 0');
    expect(read('M0 0a5,5,0,1,0,.5.5')).toBe(read('M0 0 a 5 5 0 1 0 0.5 0.5'));
  });
  test('an arc of a radius beyond all measure is the line it looks like', () => {
    expect(read('M0 0A1e12 1e12 0 0 1 10 0')).toBe('M0 0L10 0');
  });
});

describe('W3C SVG 2, section 9.5.4: drawn up to the first mistake', () => {
  test.each([
    ['M 10,10 L 20,20,30', 'M10 10L20 20', 18],
    ['M0 0L10 10x5 5L3 3', 'M0 0L10 10', 10],
    ['M0 0L10 10L5', 'M0 0L10 10', 12],
    ['M0 0L10 10L5,,5', 'M0 0L10 10', 13],
    ['M0 0A5 5 0 2 1 10 0', '', 11],
    ['M0 0L1 1R1 2 3 4', 'M0 0L1 1', 8],
    ['M0 0L1 1L1e999 0', 'M0 0L1 1', 9],
    ['M0 0L1 1LNaN 0', 'M0 0L1 1', 9],
    ['L1 1', '', 0],
    ['none', '', 0],
  ])('%s', (data, drawn, at) => {
    const { curves, problem } = readPathData(data);
    expect(written(curves)).toBe(drawn);
    expect(problem?.at).toBe(at);
  });

  test('nothing is no mistake', () => {
    expect(readPathData('')).toEqual({ curves: [], problem: undefined });
    expect(readPathData(' \n\t ').problem).toBeUndefined();
  });
});

/** What svgpath 2.6 reads, made absolute and unshortened; the library is the outside opinion here. */
interface SegmentHolder {
  readonly segments: readonly (readonly [string, ...number[]])[];
}

function pointsBySvgpath(data: string): [number, number][] {
  const { segments } = svgpath(data).abs().unshort() as unknown as SegmentHolder;
  const points: [number, number][] = [];
  let x = 0;
  let y = 0;
  for (const [letter, ...numbers] of segments) {
    if (letter === 'Z') continue;
    if (letter === 'H') x = numbers[0];
    else if (letter === 'V') y = numbers[0];
    else [x, y] = [numbers[numbers.length - 2], numbers[numbers.length - 1]];
    if (letter !== 'M') points.push([x, y]);
  }
  return points;
}

/** Points without those equal to the one before: an arc that ends where it starts is no segment. */
function withoutStandstill(points: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  let [x, y] = [1, 2];
  return points.filter((point) => {
    const moves = Math.hypot(point[0] - x, point[1] - y) > 1e-9;
    [x, y] = point;
    return moves;
  });
}

test('end points agree with svgpath on random paths', () => {
  const number = fc.integer({ min: -999, max: 999 }).map((n) => n / 8);
  const pair = fc.tuple(number, number).map((p) => p.join(' '));
  const flag = fc.constantFrom('0', '1');
  const command = fc.oneof(
    fc.tuple(fc.constantFrom('L', 'l', 'T', 't'), pair).map((p) => p.join('')),
    fc.tuple(fc.constantFrom('H', 'h', 'V', 'v'), number).map((p) => p.join('')),
    fc.tuple(fc.constantFrom('S', 's', 'Q', 'q'), pair, pair).map(([c, ...p]) => c + p.join(',')),
    fc.tuple(fc.constantFrom('C', 'c'), pair, pair, pair).map(([c, ...p]) => c + p.join(' ')),
    fc
      .tuple(fc.constantFrom('A', 'a'), pair, number, flag, flag, pair)
      .map(([c, r, t, f, s, p]) => `${c}${r} ${t} ${f}${s}${p}`),
  );
  fc.assert(
    fc.property(fc.array(command, { minLength: 1, maxLength: 20 }), (commands) => {
      const data = `M1 2${commands.join('')}`;
      const { curves, problem } = readPathData(data);
      expect(problem).toBeUndefined();
      const ends = curves.flatMap(({ segments }) => segments.map(({ to }) => to));
      expect(withoutStandstill(ends)).toEqual(
        withoutStandstill(pointsBySvgpath(data)).map(([x, y]) => [
          expect.closeTo(x, 6),
          expect.closeTo(y, 6),
        ]),
      );
    }),
    { seed: 11, numRuns: 300 },
  );
});

test('an arc starts and ends where the path says', () => {
  const number = fc.integer({ min: -999, max: 999 }).map((n) => n / 8);
  const flag = fc.constantFrom('0', '1');
  fc.assert(
    fc.property(number, number, number, number, number, flag, flag, (rx, ry, tilt, x, y, large, sweep) => {
      const { curves } = readPathData(`M3 4A${rx} ${ry} ${tilt} ${large} ${sweep} ${x} ${y}`);
      for (const { start, segments } of curves) {
        const begin = pointAt(start, segments[0], 0);
        const end = pointAt(start, segments[0], 1);
        expect(Math.hypot(begin[0] - 3, begin[1] - 4)).toBeLessThan(1e-9 * 1000);
        expect(Math.hypot(end[0] - x, end[1] - y)).toBeLessThan(1e-9 * 1000);
      }
    }),
    { seed: 12, numRuns: 500 },
  );
});
