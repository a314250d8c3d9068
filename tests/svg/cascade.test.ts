import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/svg/read-drawing.ts';
import { filledArea, page, paintedBounds, paintedShapes } from './drawn.ts';

/** Area in mm2 of what elements paint on a page in mm, and the kinds of what was reported of them. */
function read(body: string): { area: number; kinds: string[] } {
  const { drawing, issues } = readDrawing(page(body));
  return { area: filledArea(drawing), kinds: issues.map(({ kind }) => kind) };
}

describe('lengths in a style', () => {
  test.each([
    ['style="width: 10px"', 500, []],
    // CSS Values and Units Level 3, section 5: no length but 0 may lack its unit, so the attribute holds.
    ['style="width: 10"', 2000, ['style-value-ignored']],
    ['style="rx: 5; ry: 0"', 2000, ['style-value-ignored']],
    ['style="x: 0"', 2000, []],
  ])('%s', (style, area, kinds) => {
    const found = read(`<rect width="40" height="50" ${style}/>`);
    expect(found.area).toBeCloseTo(area, 6);
    expect(found.kinds).toEqual(kinds);
  });
});

test('an origin without units is none in a style, and told; in an attribute it is one', () => {
  // Half a turn about (0, 0) leaves the page to the left; about (20, 30) the rectangle lands on it.
  const moved = (origin: string) => {
    const { drawing, issues } = readDrawing(
      page(`<rect width="40" height="60" transform="rotate(180)" ${origin}/>`),
    );
    return { box: paintedBounds(drawing), kinds: issues.map(({ kind }) => kind) };
  };
  const about0 = moved('style="transform-origin: 20 30"');
  expect(about0.box.minX).toBeCloseTo(-40, 6);
  expect(about0.kinds).toEqual(['style-value-ignored']);
  for (const origin of ['transform-origin="20 30"', 'style="transform-origin: calc( 2 * 10px) 30px"']) {
    const about20 = moved(origin);
    expect(about20.box.minX).toBeCloseTo(0, 6);
    expect(about20.box.minY).toBeCloseTo(0, 6);
    expect(about20.kinds).toEqual([]);
  }
});

test.each([
  // CSS Transforms Level 1, section 4: the third value is a length; Firefox and Chromium pass these origins over.
  '20px 30px 10%',
  'calc(10px + 10px) 30 calc(2px)',
  '20px 30px 0 0',
])('an origin of %s in a style is passed over', (origin) => {
  const { drawing, issues } = readDrawing(
    page(`<rect width="40" height="60" transform="rotate(180)" style="transform-origin: ${origin}"/>`),
  );
  expect(paintedBounds(drawing).minX).toBeCloseTo(-40, 6);
  expect(issues.map(({ kind }) => kind)).toEqual(['style-value-ignored']);
});

test('an origin of a hundred thousand brackets is told in moments', () => {
  const started = performance.now();
  expect(
    read(`<g style="transform-origin: ${'('.repeat(100_000)}"><rect width="5" height="4"/></g>`),
  ).toEqual({
    area: 20,
    kinds: ['style-value-ignored'],
  });
  expect(performance.now() - started).toBeLessThan(2000);
});

test('an origin of 0 0 on the page is its corner, and not its middle as without one', () => {
  const leftOf = (origin: string) => {
    const { drawing } = readDrawing(
      page('<rect width="40" height="60"/>').replace(
        '<svg ',
        `<svg style="transform: scale(0.5); ${origin}" `,
      ),
    );
    return paintedBounds(drawing).minX;
  };
  expect(leftOf('transform-origin: 0 0')).toBeCloseTo(0, 6);
  expect(leftOf('')).toBeCloseTo(25, 6);
});

// SVG 2, property stroke-width: a negative value is invalid. Firefox and Chromium draw such a line as wide as without it.
test.each(['stroke-width="-1"', 'style="stroke-width: -1px"', 'stroke-width="-5%"'])(
  'a line with %s is as wide as the group around it says',
  (width) => {
    const { drawing, issues } = readDrawing(
      page(
        `<g stroke-width="4"><rect width="5" height="4" fill="none" stroke="red" ${width}/></g><g stroke-width="0"><path d="M9 9h5" stroke="red" style="stroke-width: calc(1px - 2px)"/></g>`,
      ),
    );
    expect(paintedShapes(drawing.root).map(({ stroke, strokeWidth }) => [stroke, strokeWidth])).toEqual([
      ['red', 4],
      ['none', 0],
    ]);
    expect(issues.map(({ kind }) => kind)).toEqual(['style-value-ignored']);
  },
);

test.each([
  ['style="font-size: var(--size)"', 'style-value-ignored'],
  ['font-size="var(--size)"', 'style-value-ignored'],
  ['style="clip-rule: var(--rule)"', 'style-value-ignored'],
  ['style="mask-image: url(#m)"', 'style-not-carried-out'],
  ['style="-webkit-mask: url(#m)"', 'style-not-carried-out'],
  ['style="-webkit-clip-path: url(#m)"', 'style-not-carried-out'],
])('%s is told: it would change what shows', (attribute, kind) => {
  expect(read(`<rect width="4" height="5" ${attribute}/>`)).toEqual({
    area: expect.closeTo(20, 6),
    kinds: [kind],
  });
});

test.each([
  // SVG 2 section 5.6: rules match the copy as a tree of its own, where no group lies around the copied shape.
  ['.cut rect { fill: none; stroke: red }', 100],
  ['.cut > rect { display: none }', 100],
  [':not(.cut) > rect { display: none }', 100],
  ['path + rect { display: none }', 100],
  ['rect:first-child { display: none }', 0],
  ['use > rect { fill: none }', 100],
  // What asks of the element alone holds in both.
  ['.reed { display: none }', 0],
])('a copied shape under %s', (css, area) => {
  const copy = '<use href="#r" x="50"/>';
  const group =
    '<g class="cut" clip-path="url(#none)"><path d="M0 0"/><rect id="r" class="reed" width="10" height="10"/></g>';
  // The original lies in a definition, so that the copy alone is counted.
  expect(read(`<style>${css}</style><defs>${group}</defs>${copy}`).area).toBeCloseTo(area, 6);
});

test('a value that is ignored is told once, not for every shape that a rule gives it to', () => {
  const rects = Array.from({ length: 50 }, (_, i) => `<rect class="w" x="${2 * i}" width="1" height="1"/>`);
  const { issues } = readDrawing(
    page(`<style>.w { fill: var(--wood); stroke: var(--line) }</style>${rects.join('')}`),
  );
  expect(issues.map(({ kind, received }) => [kind, received])).toEqual([
    ['style-value-ignored', '"fill: var(--wood)"'],
    ['style-value-ignored', '"stroke: var(--line)"'],
  ]);
});

test('a length that is ignored for want of a unit is told with the unit', () => {
  const { issues } = readDrawing(page('<rect style="width: 10" height="10"/><rect width="5" height="5"/>'));
  expect(issues.map(({ remedy }) => remedy)).toEqual(['Write its unit, as in "width: 10px".']);
});

test.each([
  // SVG 2, user agent style sheet: a symbol that is used has display: inline !important.
  ['style="display: none"', 2000],
  ['display="none"', 2000],
  ['opacity="0"', 0],
])('a symbol with %s that is used', (attribute, area) => {
  const symbol = `<symbol id="reed" ${attribute}><rect width="40" height="50"/></symbol>`;
  expect(read(`${symbol}<use href="#reed"/>`).area).toBeCloseTo(area, 6);
  expect(read(symbol).area).toBe(0);
});

describe('a length in em follows the font size', () => {
  test.each([
    ['font-size="10"', 10],
    ['style="font: 10px serif"', 10],
    ['style="font: italic 700 50%/2 Small Caps, serif"', 10],
    ['style="font: x-large serif"', 24],
    ['style="font: inherit"', 20],
    ['style="font: initial"', 16],
    ['style="font-size: 5px; font: 10px serif"', 10],
    ['style="font: 5px serif; font-size: 10px"', 10],
    // A font without a family is none.
    ['style="font: 10px"', 20],
    ['style="font-size: larger"', 24],
    ['font-size="smaller"', 20 / 1.2],
  ])('%s', (attribute, size) => {
    const { area, kinds } = read(`<g font-size="20"><rect width="1em" height="1" ${attribute}/></g>`);
    expect(area).toBeCloseTo(size, 3);
    expect(kinds).toEqual([]);
  });
});

test('what a fill and a clip path name may be written as an address, as browsers take it', () => {
  const defs = `<linearGradient id="h\u00fcgel"><stop/></linearGradient><linearGradient id="b" href="#h%C3%BCgel"/>
    <clipPath id="see 1%"><rect width="20" height="50"/></clipPath>`;
  const rect = '<rect width="40" height="50"';
  for (const fill of ['url(#h%C3%BCgel)', 'url(#h\u00fcgel)', 'url(#b)'])
    expect(read(`${defs}${rect} fill="${fill}"/>`)).toEqual({ area: 2000, kinds: [] });
  expect(read(`${defs}${rect} clip-path="url(#see%201%25)"/>`).area).toBe(1000);
});

test('a style that resets all properties is told, for it is not carried out', () => {
  expect(read('<rect width="40" height="50" fill="none" style="all: initial"/>').kinds).toEqual([
    'style-not-carried-out',
    'shape-not-shown',
  ]);
});
