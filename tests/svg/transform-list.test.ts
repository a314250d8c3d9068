import fc from 'fast-check';
import svgpath from 'svgpath';
import { describe, expect, test } from 'vitest';
import { type Affine, applyToPoint } from '../../src/geometry/affine.ts';
import {
  readCssTransform,
  readTransformAttribute,
  readTransformOrigin,
} from '../../src/svg/transform-list.ts';

const frame = { width: 200, height: 100, fontSize: 10, rootFontSize: 16, mmPerPx: 25.4 / 96 };

function attribute(text: string): Affine {
  const reading = readTransformAttribute(text);
  if (!reading.ok) throw new Error(reading.problem);
  return reading.map;
}

function css(text: string): Affine {
  const reading = readCssTransform(text, frame);
  if (!reading.ok) throw new Error(reading.problem);
  return reading.map;
}

const close = (map: Affine) => map.map((value) => expect.closeTo(value, 9));

describe('attribute grammar: CSS Transforms Level 1, section 8', () => {
  test.each<[string, Affine]>([
    ['translate(10)', [1, 0, 0, 1, 10, 0]],
    ['translate(10,-5)', [1, 0, 0, 1, 10, -5]],
    ['translate(10-5)', [1, 0, 0, 1, 10, -5]],
    [' scale( 2 ) ', [2, 0, 0, 2, 0, 0]],
    ['scale(2 .5)', [2, 0, 0, 0.5, 0, 0]],
    ['rotate(90)', [0, 1, -1, 0, 0, 0]],
    ['rotate(90 10 20)', [0, 1, -1, 0, 30, 10]],
    ['skewX(45)', [1, 0, 1, 1, 0, 0]],
    ['skewY(45)', [1, 1, 0, 1, 0, 0]],
    ['matrix(1 2 3 4 5 6)', [1, 2, 3, 4, 5, 6]],
    // The list acts from right to left: scale first.
    ['translate(10 0),scale(2)', [2, 0, 0, 2, 10, 0]],
    ['translate(10 0)scale(2)', [2, 0, 0, 2, 10, 0]],
    ['', [1, 0, 0, 1, 0, 0]],
    ['none', [1, 0, 0, 1, 0, 0]],
  ])('%s', (text, map) => {
    expect(attribute(text)).toEqual(close(map));
  });

  test.each([
    'rotate(90deg)',
    'foo(3)',
    'translate(1 2 3)',
    'scale()',
    'matrix(1 2 3)',
    'rotate(90',
    'rotate 90',
    'Rotate(90)',
    'translate(1),',
    'translate(1,,2)',
    'translate(1) x',
    'scale(1e400)',
    'translate(10px)',
    'rotate(1 2)',
    'skewx(3)',
  ])('%s is no transform', (text) => {
    expect(readTransformAttribute(text).ok).toBe(false);
  });

  test('agrees with svgpath on random lists', () => {
    const number = fc.integer({ min: -400, max: 400 }).map((n) => n / 4);
    const step = fc.oneof(
      fc.tuple(number, number).map(([x, y]) => `translate(${x} ${y})`),
      fc.tuple(number, number).map(([x, y]) => `scale(${x / 50},${y / 50})`),
      fc.tuple(number, number, number).map((n) => `rotate(${n.join(' ')})`),
      number.map((a) => `skewX(${a / 2})`),
      number.map((a) => `skewY(${a / 2})`),
    );
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 4 }), (steps) => {
        const text = steps.join(' ');
        const moved = svgpath('M3 7').transform(text).toString();
        const [x, y] = applyToPoint(attribute(text), [3, 7]);
        const [ex, ey] =
          moved
            .slice(1)
            .match(/-?[\d.]+(?:e[+-]?\d+)?/g)
            ?.map(Number) ?? [];
        const size = 1 + Math.hypot(ex, ey);
        expect(Math.hypot(x - ex, y - ey) / size).toBeLessThan(1e-6);
      }),
      { seed: 30, numRuns: 300 },
    );
  });
});

describe('CSS grammar: CSS Transforms Level 1, section 12', () => {
  test.each<[string, Affine]>([
    ['translate(1in)', [1, 0, 0, 1, 96, 0]],
    ['translate(10px, 50%)', [1, 0, 0, 1, 10, 50]],
    ['translateX(2em)', [1, 0, 0, 1, 20, 0]],
    ['translateY(25.4mm)', [1, 0, 0, 1, 0, 96]],
    ['rotate(90deg)', [0, 1, -1, 0, 0, 0]],
    ['rotate(100grad)', [0, 1, -1, 0, 0, 0]],
    ['rotate(0.25turn)', [0, 1, -1, 0, 0, 0]],
    ['rotate(3.141592653589793rad)', [-1, 0, 0, -1, 0, 0]],
    ['scale(2, 50%)', [2, 0, 0, 0.5, 0, 0]],
    ['scaleX(2) scaleY(3)', [2, 0, 0, 3, 0, 0]],
    ['skew(45deg)', [1, 0, 1, 1, 0, 0]],
    ['skewX(0)', [1, 0, 0, 1, 0, 0]],
    ['matrix(1, 2, 3, 4, 5, 6)', [1, 2, 3, 4, 5, 6]],
  ])('%s', (text, map) => {
    expect(css(text)).toEqual(close(map));
  });

  test.each([
    'rotate(90)',
    'translate(10, 5)',
    'translate(10px 5px)',
    'perspective(3px)',
    'scale()',
    'rotate(1px)',
  ])('%s is no CSS transform', (text) => {
    expect(readCssTransform(text, frame).ok).toBe(false);
  });

  test.each<[string, readonly [number, number] | undefined]>([
    ['50% 50%', [100, 50]],
    ['center', [100, 50]],
    ['left', [0, 50]],
    ['top', [100, 0]],
    ['top left', [0, 0]],
    ['bottom 10px', undefined],
    ['right bottom', [200, 100]],
    ['center left', [0, 50]],
    ['10px', [10, 50]],
    ['10px 20mm', [10, (20 * 96) / 25.4]],
    ['1px 2px 3px 4px', undefined],
    ['here', undefined],
    ['calc(50% + 3px) calc(1px*(2 + 3))', [103, 5]],
    ['', undefined],
  ])('transform-origin: %s', (text, origin) => {
    expect(readTransformOrigin(text, frame)).toEqual(origin?.map((value) => expect.closeTo(value, 9)));
  });
});
