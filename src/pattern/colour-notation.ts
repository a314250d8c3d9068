/**
 * Colours as they are written, to tell whether two are the same. How clear a colour is plays no part: a paint that is half
 * seen through is still that of its wood.
 */

/** Gradients and patterns: programs write one for each shape, so their names do not tell one wood from another. */
const SHADED = 'a gradient or pattern';

/**
 * A colour in one of the ways to write it, `#rrggbb`: so are `#FFF`, `white` and `rgb(100% 100% 100% / 0.5)`. Others, such as
 * `hsl()` and longer names, are given back as written.
 */
export function colourKey(colour: string): string {
  const lower = colour.trim().toLowerCase();
  if (lower.startsWith('url(')) return SHADED;
  const named = NAMED.get(lower);
  if (named !== undefined) return named;
  if (/^#[0-9a-f]{3,4}$/.test(lower)) return lower.slice(0, 4).replace(/[0-9a-f]/g, '$&$&');
  if (/^#(?:[0-9a-f]{6}|[0-9a-f]{8})$/.test(lower)) return lower.slice(0, 7);
  const shares = /^rgba?\(([^)]*)\)$/.exec(lower)?.[1].match(/[\d.]+%?/g);
  if (shares === undefined || shares === null || shares.length < 3) return lower;
  return `#${shares.slice(0, 3).map(twoDigits).join('')}`;
}

/** A share of red, green or blue, 0 to 255 or a percentage, in two digits. */
function twoDigits(share: string): string {
  const value = Number.parseFloat(share) * (share.endsWith('%') ? 2.55 : 1);
  return Math.min(255, Math.round(value)).toString(16).padStart(2, '0');
}

/**
 * The sixteen names of HTML 4, and all those that are shorter than their numbers, which programs write that shrink drawings
 * (CSS Color Module Level 4, section 6.1).
 */
const NAMED: ReadonlyMap<string, string> = new Map(
  Object.entries({
    aqua: '#00ffff',
    azure: '#f0ffff',
    beige: '#f5f5dc',
    bisque: '#ffe4c4',
    black: '#000000',
    blue: '#0000ff',
    brown: '#a52a2a',
    coral: '#ff7f50',
    fuchsia: '#ff00ff',
    gold: '#ffd700',
    gray: '#808080',
    green: '#008000',
    grey: '#808080',
    indigo: '#4b0082',
    ivory: '#fffff0',
    khaki: '#f0e68c',
    lime: '#00ff00',
    linen: '#faf0e6',
    maroon: '#800000',
    navy: '#000080',
    olive: '#808000',
    orange: '#ffa500',
    orchid: '#da70d6',
    peru: '#cd853f',
    pink: '#ffc0cb',
    plum: '#dda0dd',
    purple: '#800080',
    red: '#ff0000',
    salmon: '#fa8072',
    sienna: '#a0522d',
    silver: '#c0c0c0',
    snow: '#fffafa',
    tan: '#d2b48c',
    teal: '#008080',
    tomato: '#ff6347',
    violet: '#ee82ee',
    wheat: '#f5deb3',
    white: '#ffffff',
    yellow: '#ffff00',
  }),
);
