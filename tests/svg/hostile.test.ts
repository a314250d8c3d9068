import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/issues/issue.ts';
import { tryReadDrawing } from '../../src/svg/read-drawing.ts';
import { page, paintedShapes } from './drawn.ts';

/** Files made to crash, hang or flood a reader. Each ends in a drawing or in a typed error, within bounds. */

function errorKinds(text: string): string[] {
  return tryReadDrawing(text)
    .issues.filter(({ severity }) => severity === 'error')
    .map(({ kind }) => kind);
}

function entityBomb(levels: number): string {
  const declarations = Array.from({ length: levels }, (_, i) => {
    const inner = i === 0 ? 'lake' : `&e${i - 1};`;
    return `<!ENTITY e${i} "${inner.repeat(10)}">`;
  });
  return `<!DOCTYPE svg [${declarations.join('')}]><svg><title>&e${levels - 1};</title></svg>`;
}

describe('refused with a typed error', () => {
  test.each([
    ['nothing', '', 'svg-empty'],
    ['only white space', ' \n ', 'svg-empty'],
    ['no markup', 'hello', 'svg-missing'],
    ['a null character', '<svg>\u0000</svg>', 'svg-malformed'],
    ['half a surrogate', '<svg a="\ud800"/>', 'svg-malformed'],
    ['an unclosed comment', '<svg><!-- ', 'svg-malformed'],
    ['an unclosed CDATA section', `<svg><style><![CDATA[${'x'.repeat(100_000)}`, 'svg-malformed'],
    ['an unknown entity', '<svg>&leaf;</svg>', 'svg-malformed'],
    ['twice the same attribute', '<svg width="1" width="2"/>', 'svg-malformed'],
    ['entities that grow tenfold nine times', entityBomb(9), 'svg-malformed'],
    [
      'entities that name each other',
      '<!DOCTYPE svg [<!ENTITY a "&b;"><!ENTITY b "&a;">]><svg id="&a;"/>',
      'svg-malformed',
    ],
    [
      'one long entity used many times',
      `<!DOCTYPE svg [<!ENTITY a "${'x'.repeat(10_000)}">]><svg><title>${'&a;'.repeat(10_000)}</title></svg>`,
      'svg-malformed',
    ],
    ['elements hidden in an entity', '<!DOCTYPE svg [<!ENTITY a "<path/>">]><svg>&a;</svg>', 'svg-malformed'],
    ['100,000 nested groups', page('<g>'.repeat(100_000) + '</g>'.repeat(100_000)), 'nesting-too-deep'],
    [
      'a chain of copies 3,000 deep',
      page(Array.from({ length: 3000 }, (_, i) => `<g id="c${i}"><use href="#c${i + 1}"/></g>`).join('')),
      'nesting-too-deep',
    ],
    ['a page of no width', '<svg width="0" height="10"/>', 'page-empty'],
    ['a viewBox of no height', '<svg viewBox="0 0 10 0"/>', 'page-empty'],
  ])('%s', (_, text, kind) => {
    expect(errorKinds(text)).toEqual([kind]);
    expect(tryReadDrawing(text).drawing).toBeUndefined();
  });

  test('a job in the place of its drawing, in one line and with what to name instead', () => {
    const { issues } = tryReadDrawing('{\n  "design": "Lake",\n  "pattern": "lake.svg"\n}');
    expect(issues.map((issue) => formatIssue(issue))).toEqual([
      'drawing: the file is JSON, as a job is, and not an SVG drawing (expected a text that starts with <svg> or <?xml, found {). Name the drawing itself, which a job has under "pattern".',
    ]);
    const [other] = tryReadDrawing('{\\rtf1 a letter}').issues;
    expect(other.message).toBe('the file is not an SVG drawing');
  });

  test('copies of copies that come to a hundred thousand million shapes', () => {
    const levels = Array.from(
      { length: 11 },
      (_, i) => `<g id="u${i + 1}">${`<use href="#u${i}"/>`.repeat(10)}</g>`,
    );
    const bomb = page(`<defs><path id="u0" d="M0 0h1v1z"/>${levels.join('')}</defs><use href="#u11"/>`);
    expect(errorKinds(bomb)).toEqual(['use-too-many']);
  });

  test('selectors that take too much work', () => {
    const sheet = `<style>${'.a b{fill:red}'.repeat(10_000)}</style>`;
    expect(errorKinds(page(`${sheet}${'<g class="a"><b/></g>'.repeat(1500)}`))).toEqual(['style-too-costly']);
  });

  test('a rule of so many declarations that they take too much work on each of many shapes', () => {
    const sheet = `<style>rect{${'fill:red;'.repeat(20_000)}}</style>`;
    expect(errorKinds(page(`${sheet}${'<rect width="1" height="1"/>'.repeat(300)}`))).toEqual([
      'style-too-costly',
    ]);
  });
});

describe('read as far as it makes sense', () => {
  test('names that every object of the language has are no units, words or entities of the file', () => {
    const named = `<!DOCTYPE svg [<!ENTITY a "hull&constructor;">]>${page('<rect id="&a;" width="9" height="9"/>')}`;
    expect(paintedShapes(tryReadDrawing(named).drawing!.root).map(({ id }) => id)).toEqual([
      'hull&constructor;',
    ]);
    const sized = tryReadDrawing(
      page(
        '<g font-size="constructor"><rect width="1em" height="9"/></g><rect width="2valueOf" height="9"/>',
      ),
    );
    expect(paintedShapes(sized.drawing!.root)[0].curves[0].segments[0].to).toEqual([16, 0]);
    expect(sized.issues.map(({ message }) => message)).toEqual([
      'width is ignored: the unit "valueof" is not known here',
    ]);
  });

  test('numbers beyond any drawing leave their shape out', () => {
    const { drawing, issues } = tryReadDrawing(
      page(
        `<path d="M0 0L1e308 1e308 1e308-1e308z"/><path d="M0 0A1e308 1e308 0 1 1 1 1"/><circle r="1e308"/>
         <path transform="scale(1e308) scale(1e308)" d="M0 0h1v1z"/><rect width="1e999" height="3"/>
         <rect width="10" height="10"/>`,
      ),
    );
    expect(issues.map(({ kind }) => kind)).toEqual([
      'shape-out-of-range',
      'shape-out-of-range',
      'shape-out-of-range',
      'transform-ignored',
      'length-ignored',
    ]);
    expect(drawing === undefined ? 0 : paintedShapes(drawing.root).length).toBe(2);
  });

  test.each([
    ['style sheets nested without end', `<style>${'@media all{'.repeat(50_000)}</style>`],
    ['selectors nested without end', `<style>${':not('.repeat(50_000)}</style>`],
    ['a sheet of 50,000 mistakes', `<style>${'a{b c}'.repeat(50_000)}</style>`],
    ['a style of 100,000 mistakes', `<g style="${'a;'.repeat(100_000)}"/>`],
    [
      'a clip path that crosses itself a hundred million times',
      `<clipPath id="c"><path d="M0 0${Array.from({ length: 20_000 }, (_, i) => `L${(i * 7919) % 100} ${(i * 104_729) % 97}`).join('')}"/></clipPath><rect clip-path="url(#c)" width="9" height="9"/>`,
    ],
    [
      '5,000 circles of 90 m under a clip path',
      `<clipPath id="c"><path d="M0 0h50v50h-50z"/></clipPath>${'<circle clip-path="url(#c)" r="90000"/>'.repeat(5_000)}`,
    ],
    ['a class said 50,000 times', `<style>.a{fill:red}</style><g class="${'a '.repeat(50_000)}"/>`],
    [
      'a selector of 30 steps on a deep tree',
      `<style>${'g '.repeat(30)}> x{fill:red}</style>${'<g>'.repeat(900)}${'</g>'.repeat(900)}`,
    ],
    ['a style of 100,000 spaces', `<g style="fill:${' '.repeat(100_000)}"/>`],
    ['a length of 100,000 digits', `<rect width="${'1'.repeat(100_000)}x" height="1"/>`],
    ['a colour of 100,000 zeros', `<g fill="rgba(0,0,0,${'0'.repeat(100_000)}x)"><path d="M0 0h1v1z"/></g>`],
    ['100,000 transforms', `<g transform="${'rotate(1)'.repeat(100_000)}"/>`],
    [
      'names of the language itself',
      '<g __proto__="1" id="__proto__" class="constructor"/><use href="#constructor"/>',
    ],
  ])('%s', (_, body) => {
    expect(tryReadDrawing(page(body)).drawing).toBeDefined();
  });

  test('one run of implied commands is read in linear time', () => {
    // Counted, not timed: a quadratic reader would not come back within the limit of a test.
    const data = `M0 0L${'1.5 2.5 '.repeat(200_000)}`;
    const { drawing } = tryReadDrawing(page(`<path stroke="black" d="${data}"/>`));
    expect(drawing?.root.children).toHaveLength(1);
  });
});

const PIECES = [
  'NaN', '1e308', '-1e308', '1e999', '', '"', '<', '>', '&', '&a;', 'url(#a)', '<g>', '</g>', '<use href="#a"/>', '%',
  'Infinity', '-0', '\u0000', '\ud800', 'translate(', 'A9 9 0 1 1 1 1', '<!--', '-->', '<![CDATA[', ']]>', '<?x', 'calc(1px)',
  'var(--a)', 'inherit', '__proto__', '<style>*{', '}', '!important', 'display:none', 'viewBox="0 0 0 0"',
] as const; // biome-ignore format: a list to look over

const SEEDS = [
  page(
    '<g id="a" transform="rotate(30) scale(2)" style="fill:red"><path d="M0 0L10 0a5 5 0 0110 5z"/></g><use href="#a" x="5"/>',
  ),
  page(
    '<style>.k > rect:not(#z){fill:none;stroke:#123}</style><g class="k"><rect width="50%" height="10" rx="3"/></g>',
  ),
  page(
    '<svg x="5" width="50" height="20" viewBox="0 0 10 4"><circle r="2"/></svg><symbol id="s"><ellipse rx="3"/></symbol><use href="#s"/>',
  ),
  '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY n "http://www.w3.org/2000/svg">]><svg xmlns="&n;" width="4in"><polygon points="0,0 4,0 4,4"/></svg>',
] as const;

test('whatever is done to a file, it is read or refused with a typed error, and no number is broken', () => {
  const edit = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    cut: fc.nat(12),
    piece: fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 6 })),
  });
  fc.assert(
    fc.property(fc.constantFrom(...SEEDS), fc.array(edit, { minLength: 1, maxLength: 4 }), (seed, edits) => {
      let text: string = seed;
      for (const { at, cut, piece } of edits) {
        const from = Math.floor(at * text.length);
        text = text.slice(0, from) + piece + text.slice(from + cut);
      }
      const { drawing, issues } = tryReadDrawing(text);
      expect(drawing === undefined).toBe(issues.some(({ severity }) => severity === 'error'));
      // JSON turns numbers that are none into null; undefined fields vanish, so every null is a broken number.
      expect(JSON.stringify(drawing ?? {})).not.toContain('null');
    }),
    { seed: 20, numRuns: 3000 },
  );
});
