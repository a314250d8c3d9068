import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { colourKey } from '../../src/pattern/colour-notation.ts';

/** What a renderer of its own (resvg) paints for a colour, as `#rrggbb`. */
function painted(colour: string): string {
  const { pixels } = new Resvg(
    `<svg xmlns="http://www.w3.org/2000/svg" width="1" height="1"><rect width="1" height="1" fill="${colour}"/></svg>`,
  ).render();
  return `#${[...pixels.subarray(0, 3)].map((share) => share.toString(16).padStart(2, '0')).join('')}`;
}

/** The sixteen of HTML 4, then the others that are shorter than their numbers. */
const NAMES =
  'aqua black blue fuchsia gray green lime maroon navy olive purple red silver teal white yellow ' +
  'azure beige bisque brown coral gold grey indigo ivory khaki linen orange orchid peru pink plum salmon sienna snow tan ' +
  'tomato violet wheat';

describe('a colour', () => {
  it.each(NAMES.split(' '))('called %s is what a renderer paints', (name) => {
    expect(colourKey(name)).toBe(painted(name));
    expect(colourKey(` ${name.toUpperCase()} `)).toBe(painted(name));
  });

  it.each([
    '#fA0',
    '#FFAA00',
    'rgb(255,170,0)',
    'rgb( 255 170 0 )',
    'rgb(300, 170, 0)',
    'rgb(100%, 66.67%, 0%)',
  ])('written as %s is what a renderer paints', (colour) => {
    expect(colourKey(colour)).toBe('#ffaa00');
    expect(painted(colour)).toBe('#ffaa00');
  });

  it('is the same however clear it is', () => {
    for (const clear of ['#fa08', '#ffaa0080', 'rgba(255, 170, 0, .5)', 'rgb(100% 66.67% 0% / 50%)'])
      expect(colourKey(clear)).toBe('#ffaa00');
  });

  it('is given back as written where it is not known, and a gradient is like any other', () => {
    expect(['hsl(10 20% 30%)', 'rebeccapurple', '#12345', 'rgb(1)'].map(colourKey)).toEqual([
      'hsl(10 20% 30%)',
      'rebeccapurple',
      '#12345',
      'rgb(1)',
    ]);
    expect(colourKey('url(#sky) red')).toBe(colourKey("url('#shore')"));
  });
});
