import fc from 'fast-check';
import { expect, test } from 'vitest';
import { curveLength } from '../../src/geometry/curve-length.ts';
import { curveArea } from '../curve-area.ts';
import { filledArea, paintedBounds, paintedShapes, readClean } from './drawn.ts';

/** What must not depend on how a drawing is written: the same shape by other transforms, units, elements or order. */

const coordinate = fc.integer({ min: 10, max: 90 });
const point = fc.tuple(coordinate, coordinate).map(([x, y]) => `${x} ${y}`);
const command = fc.oneof(
  point.map((to) => `L${to}`),
  fc.tuple(point, point, point).map((points) => `C${points.join(' ')}`),
  fc.tuple(point, point).map((points) => `Q${points.join(' ')}`),
  fc
    .tuple(
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 40 }),
      coordinate,
      fc.constantFrom('00', '01', '10', '11'),
      point,
    )
    .map(([rx, ry, tilt, flags, to]) => `A${rx} ${ry} ${tilt} ${flags}${to}`),
);
const path = fc
  .tuple(point, fc.array(command, { minLength: 2, maxLength: 6 }))
  .map(([start, commands]) => `M${start}${commands.join('')}z`);

/** Signed area by Green's theorem and length of all curves, without flattening. */
function measured(body: string): { area: number; length: number } {
  const curves = paintedShapes(readClean(body, ['shapes-off-page']).root).flatMap((shape) => shape.curves);
  return {
    area: Math.abs(curves.reduce((sum, curve) => sum + curveArea(curve), 0)),
    length: curves.reduce((sum, curve) => sum + curveLength(curve), 0),
  };
}

function expectSame(body: string, plain: { area: number; length: number }, scale = 1): void {
  const { area, length } = measured(body);
  expect(Math.abs(area - plain.area * scale * scale)).toBeLessThan(1e-6 * (1 + plain.length * scale) ** 2);
  expect(Math.abs(length - plain.length * scale)).toBeLessThan(1e-6 * (1 + plain.length * scale));
}

test('area and cut length stay under moves, turns and mirrors, written in any way', () => {
  fc.assert(
    fc.property(
      path,
      fc.integer({ min: -180, max: 180 }),
      fc.integer({ min: -30, max: 30 }),
      (d, turn, shift) => {
        const element = `<path d="${d}"/>`;
        const plain = measured(element);
        const radians = (turn * Math.PI) / 180;
        const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
        expectSame(`<g transform="rotate(${turn} 50 50)">${element}</g>`, plain);
        expectSame(
          `<g style="transform: translate(${shift}px, 1mm) rotate(${turn}deg)">${element}</g>`,
          plain,
        );
        expectSame(`<g transform="matrix(${cos} ${sin} ${-sin} ${cos} ${shift} 0)">${element}</g>`, plain);
        expectSame(
          `<defs><g id="a" transform="scale(-1 1)">${element}</g></defs><use href="#a" x="${shift}"/>`,
          plain,
        );
      },
    ),
    { seed: 41, numRuns: 60 },
  );
});

test('area grows with the square of a scale, length with the scale, however it is written', () => {
  fc.assert(
    fc.property(path, fc.constantFrom(0.25, 0.5, 2, 3), (d, scale) => {
      const element = `<path d="${d}"/>`;
      const plain = measured(element);
      expectSame(`<g transform="scale(${scale})">${element}</g>`, plain, scale);
      const side = 100 * scale;
      expectSame(
        `<svg width="${side}" height="${side}" viewBox="0 0 100 100" overflow="visible">${element}</svg>`,
        plain,
        scale,
      );
    }),
    { seed: 42, numRuns: 60 },
  );
});

test('a skew keeps the area of every shape', () => {
  fc.assert(
    fc.property(path, fc.integer({ min: -60, max: 60 }), (d, angle) => {
      const element = `<path d="${d}"/>`;
      const { area, length } = measured(`<g transform="skewX(${angle})">${element}</g>`);
      expect(Math.abs(area - measured(element).area)).toBeLessThan(1e-6 * (1 + length) ** 2);
    }),
    { seed: 43, numRuns: 60 },
  );
});

/** SVG 2 section 10 says which path each basic shape equals. */
test('basic shapes equal the paths the standard gives for them', () => {
  const size = fc.integer({ min: 1, max: 40 });
  fc.assert(
    fc.property(
      size,
      size,
      fc.integer({ min: 0, max: 20 }),
      fc.integer({ min: 0, max: 20 }),
      (w, h, rx, ry) => {
        const cut = [Math.min(rx, w / 2), Math.min(ry, h / 2)];
        const [a, b] = cut[0] > 0 && cut[1] > 0 ? cut : [0, 0];
        const arc = (x: number, y: number): string => `a${a} ${b} 0 0 1 ${x} ${y}`;
        const rect = `<path d="M${a} 0H${w - a}${arc(a, b)}V${h - b}${arc(-a, b)}H${a}${arc(-a, -b)}V${b}${arc(a, -b)}z"/>`;
        expectSame(`<rect width="${w}" height="${h}" rx="${rx}" ry="${ry}"/>`, measured(rect));
        const half = (x: number): string => `a${w} ${h} 0 0 1 ${x} 0`;
        expectSame(
          `<ellipse rx="${w}" ry="${h}"/>`,
          measured(`<path d="M${-w} 0${half(2 * w)}${half(-2 * w)}z"/>`),
        );
      },
    ),
    { seed: 44, numRuns: 60 },
  );
});

test('a circle under any map is an ellipse of area pi det, and its box is exact', () => {
  const entry = fc.integer({ min: -20, max: 20 }).map((n) => n / 10);
  fc.assert(
    fc.property(entry, entry, entry, entry, (a, b, c, d) => {
      const det = Math.abs(a * d - b * c);
      fc.pre(det > 0.05);
      const drawing = readClean(`<circle r="10" transform="matrix(${a} ${b} ${c} ${d} 50 50)"/>`);
      expect(Math.abs(filledArea(drawing, 1e-3) / (100 * Math.PI * det) - 1)).toBeLessThan(2e-3);
      // The half-width of the image of a circle is r times the length of the first row of the map.
      const { minX, maxX, minY, maxY } = paintedBounds(drawing);
      expect((maxX - minX) / 2).toBeCloseTo(10 * Math.hypot(a, c), 3);
      expect((maxY - minY) / 2).toBeCloseTo(10 * Math.hypot(b, d), 3);
    }),
    { seed: 45, numRuns: 50 },
  );
});
