import { expect, test } from 'vitest';
import { readPattern } from '../../src/job/read-pattern.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import { drawCheckPicture } from '../../src/sheet/check-picture.ts';

test('the numbers of places close together stand beside one another', () => {
  // A gull of 15 mm: too small to hold, and with a neck in its middle.
  const gull =
    'M 5,10 C 7.5,6 11,6 12.5,9.5 C 14,6 17.5,6 20,10 C 17.5,8 14.5,8.5 12.5,11 C 10.5,8.5 7.5,8 5,10 Z';
  const { pattern } = readPattern(
    `<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><g id="Birds"><path id="gull" d="${gull}"/></g></svg>`,
  );
  const svg = drawCheckPicture(pattern, checkPattern(pattern));
  const numbers = [...svg.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" font-size="3"/g)];
  const [[x, y], [otherX, otherY]] = numbers.map(([, x, y]) => [Number(x), Number(y)]);
  expect(numbers.length).toBe(2);
  expect(Math.abs(x - otherX) > 1.7 || Math.abs(y - otherY) > 2.3, `${x}, ${y}`).toBe(true);
});

test('two numbers on one line are not read as one', () => {
  // A ring of 4 mm: its one bend is tight, and it is too small to hold, at places 2 mm apart.
  const { pattern } = readPattern(
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><g id="Buoys"><circle cx="15" cy="10" r="2"/></g></svg>',
  );
  const svg = drawCheckPicture(pattern, checkPattern(pattern));
  const numbers = [...svg.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" font-size="3"[^>]*>(\d)/g)];
  expect(numbers.map(([, , , number]) => number)).toEqual(['1', '2']);
  const [[x, y], [otherX, otherY]] = numbers.map(([, x, y]) => [Number(x), Number(y)]);
  // A digit is 1.7 mm wide.
  expect(
    Math.abs(x - otherX) > 1.7 + 1.4 || Math.abs(y - otherY) > 2.3,
    `${x}, ${y} and ${otherX}, ${otherY}`,
  ).toBe(true);
});

test('the saw that a pattern is held against is told, in the unit of the list', () => {
  const { pattern } = readPattern(
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90"><rect id="jetty" width="80" height="80"/></svg>',
  );
  const saw = { kerf: 0.8, bladeWidth: 1.27, hole: 1.6 };
  const check = checkPattern(pattern, { saw });
  expect(drawCheckPicture(pattern, check)).toContain(
    '>Checked for a kerf of 0.80 mm, a blade 1.27 mm wide and holes of 1.60 mm.<',
  );
  // 0.8 / 25.4 = 0.0315, 1.27 / 25.4 = 0.05, 1.6 / 25.4 = 0.063.
  expect(drawCheckPicture(pattern, check, 'in')).toMatch(
    /kerf of 0\.03\d* in, a blade 0\.05\d* in .* 0\.06\d* in/,
  );
});
