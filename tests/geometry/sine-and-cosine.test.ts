import { expect, test } from 'vitest';
import { cosineAndSine } from '../../src/geometry/sine-and-cosine.ts';

test('cosine and sine are those of the language, but for the last bit, at every angle', () => {
  let worst = 0;
  for (let n = -9000; n < 9000; n++) {
    const degrees = n / 10 + 0.0123;
    const radians = (degrees * Math.PI) / 180;
    const [cosine, sine] = cosineAndSine(degrees);
    worst = Math.max(worst, Math.abs(cosine - Math.cos(radians)), Math.abs(sine - Math.sin(radians)));
  }
  // At 900 degrees the radians themselves are rounded by 2e-15.
  expect(worst).toBeLessThan(3e-15);
});

test('quarter turns are exact, with no zero below zero', () => {
  const quarters = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];
  for (let n = -9; n <= 9; n++) expect(cosineAndSine(90 * n)).toEqual(quarters[((n % 4) + 4) % 4]);
  expect(cosineAndSine(-0)).toEqual([1, 0]);
});

test('every bit of them is the same on every machine: the stored fingerprint', () => {
  const values = new Float64Array(Array.from({ length: 3600 }, (_, i) => cosineAndSine(i / 10)).flat());
  let hash = 0x811c9dc5;
  for (const byte of new Uint8Array(values.buffer)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  expect(hash.toString(16)).toBe('913ed0b0');
});
