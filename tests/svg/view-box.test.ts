import { describe, expect, test } from 'vitest';
import { applyToPoint } from '../../src/geometry/affine.ts';
import { readViewBox, viewBoxMap } from '../../src/svg/view-box.ts';
import { outsideCheck } from '../outside-check.ts';

test.each([
  ['0 0 300 200', { kind: 'box', box: { x: 0, y: 0, width: 300, height: 200 } }],
  ['-1.5,-2 , 3e1 4', { kind: 'box', box: { x: -1.5, y: -2, width: 30, height: 4 } }],
  ['0 0 0 5', { kind: 'empty' }],
  ['0 0 -5 5', { kind: 'mistaken' }],
  ['0 0 5', { kind: 'mistaken' }],
  ['0 0 5 5 5', { kind: 'mistaken' }],
  ['0 0 5px 5', { kind: 'mistaken' }],
  [undefined, { kind: 'none' }],
])('viewBox %s', (text, reading) => {
  expect(readViewBox(text)).toEqual(reading);
});

/**
 * The figure of SVG 2 section 8.7: a box of 30 x 40 (a smile) in viewports of 50 x 30 and 30 x 60; where its corners
 * come to lie follows from section 8.2 step by step.
 */
const box = { x: 0, y: 0, width: 30, height: 40 };

describe('preserveAspectRatio', () => {
  test.each([
    // Height decides in 50 x 30: scale 3/4, 22.5 wide.
    ['xMinYMin meet', 50, 30, [0, 0], [22.5, 30]],
    ['xMidYMid', 50, 30, [13.75, 0], [36.25, 30]],
    ['xMaxYMax meet', 50, 30, [27.5, 0], [50, 30]],
    // Width decides in 30 x 60: scale 1.
    ['xMidYMin meet', 30, 60, [0, 0], [30, 40]],
    ['xMidYMid meet', 30, 60, [0, 10], [30, 50]],
    ['xMidYMax meet', 30, 60, [0, 20], [30, 60]],
    // Slice takes the larger scale: 5/3 in 50 x 30, 3/2 in 30 x 60.
    ['xMinYMin slice', 50, 30, [0, 0], [50, 200 / 3]],
    ['xMinYMid slice', 50, 30, [0, 15 - 100 / 3], [50, 15 + 100 / 3]],
    ['xMinYMax slice', 50, 30, [0, 30 - 200 / 3], [50, 30]],
    ['xMidYMid slice', 30, 60, [-7.5, 0], [37.5, 60]],
    ['none', 50, 30, [0, 0], [50, 30]],
    ['defer xMinYMin', 50, 30, [0, 0], [22.5, 30]],
  ] as const)('%s in %d x %d', (text, width, height, corner, opposite) => {
    const map = viewBoxMap(box, width, height, text);
    if (map === undefined) throw new Error('no map');
    outsideCheck({
      what: `A viewBox of 30 x 40 in a viewport of ${width} x ${height} under "${text}": its corners, px`,
      source: 'W3C SVG 2, section 8.2, step by step on the figure of section 8.7',
      expected: [...corner, ...opposite],
      found: [...applyToPoint(map, [0, 0]), ...applyToPoint(map, [30, 40])],
      tolerance: 1e-9,
    });
  });

  test.each(['xMidYMid meat', 'xmidymid', 'xMid', 'none none', ''])('"%s" is mistaken', (text) => {
    expect(viewBoxMap(box, 50, 30, text)).toBeUndefined();
  });
});
