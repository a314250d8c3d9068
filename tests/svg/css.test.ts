import { describe, expect, test } from 'vitest';
import { isValidValue, readDeclarations, readStyleSheet } from '../../src/svg/css.ts';
import { readDocument } from '../../src/svg/document.ts';
import { elementsInOrder } from '../../src/svg/element.ts';
import { IssueLog } from '../../src/svg/issue-log.ts';
import { selectorMatches } from '../../src/svg/selector-match.ts';

/** Ids of the elements a selector picks in a small scene. */
function picked(selector: string): string[] {
  const scene = `<svg id="root"><g id="hills" class="back far"><path id="a" data-cut="yes"/><rect id="b" class="far"/></g>
    <g id="shore"><g id="inner"><path id="c" lang="en-GB"/></g><circle id="d"/><path id="e" class="x 1st"/></g></svg>`;
  const { root } = readDocument(scene, new IssueLog('scene'));
  const { value: rules, problems } = readStyleSheet(`${selector} { fill: red }`, { left: 10 });
  expect(problems).toEqual([]);
  const tree = { root: undefined, budget: { left: 1e6 } };
  return elementsInOrder(root)
    .filter((element) => rules[0].selectors.some((one) => selectorMatches(one, element, tree)))
    .map((element) => element.attributes.get('id') ?? '');
}

describe('Selectors Level 4: what a selector picks', () => {
  test.each([
    ['path', ['a', 'c', 'e']],
    ['*', ['root', 'hills', 'a', 'b', 'shore', 'inner', 'c', 'd', 'e']],
    ['#b', ['b']],
    ['.far', ['hills', 'b']],
    ['g.far.back', ['hills']],
    ['.far .far', ['b']],
    ['svg path', ['a', 'c', 'e']],
    ['g > path', ['a', 'c', 'e']],
    ['#shore > path', ['e']],
    ['#shore path', ['c', 'e']],
    ['svg > g > g > path', ['c']],
    ['svg g path', ['a', 'c', 'e']],
    ['svg > path', []],
    ['path + rect', ['b']],
    ['g ~ path', ['e']],
    ['circle + path, #a', ['a', 'e']],
    ['[data-cut]', ['a']],
    ['[data-cut=yes]', ['a']],
    ['[data-cut="YES" i]', ['a']],
    ['[class~=far]', ['hills', 'b']],
    ['[lang|=en]', ['c']],
    ['[id^=s]', ['shore']],
    ['[id$=r]', ['inner']],
    ['[id*=o]', ['root', 'shore']],
    ['.\\31 st', ['e']],
    ['.\\78', ['e']],
    ['#\\62', ['b']],
    ['[class=x\\ 1st]', ['e']],
    [':root', ['root']],
    ['path:first-child', ['a', 'c']],
    ['path:last-child', ['c', 'e']],
    ['path:only-child', ['c']],
    ['path:not(.x):not(#a)', ['c']],
    [':is(circle, rect)', ['b', 'd']],
    ['path:hover', []],
  ])('%s', (selector, ids) => {
    expect(picked(selector)).toEqual(ids);
  });

  test('a selector that is not carried out picks nothing and is reported', () => {
    const { value, problems } = readStyleSheet('path:nth-child(2n) { fill: red } rect { fill: blue }', {
      left: 10,
    });
    expect(value).toHaveLength(2);
    expect(problems).toEqual(['the selector ":nth-child" is not carried out: it matches nothing']);
  });
});

/** Selectors Level 4, section 17: the examples given there, as (a, b, c) in one number. */
test.each([
  ['*', 0],
  ['li', 1],
  ['ul li', 2],
  ['ul ol+li', 3],
  ['ul ol li.red', 1003],
  ['li.red.level', 2001],
  ['#x34y', 1_000_000],
  ['#s12:not(foo)', 1_000_001],
  ['.foo :is(.bar, #baz)', 1_001_000],
  ['*[rel=up]', 1000],
])('specificity of %s', (selector, specificity) => {
  expect(readStyleSheet(`${selector} {}`, { left: 10 }).value[0].selectors[0].specificity).toBe(specificity);
});

test('declarations of a style attribute', () => {
  const { value, problems } = readDeclarations(
    'FILL: Red;; stroke:blue !IMPORTANT; /* c */ d: path("M0;0"); --Own: 1',
    { left: 10 },
  );
  expect(value).toEqual([
    { property: 'fill', value: 'Red', important: false },
    { property: 'stroke', value: 'blue', important: true },
    { property: 'd', value: 'path("M0;0")', important: false },
    { property: '--Own', value: '1', important: false },
  ]);
  expect(problems).toEqual([]);
  expect(readDeclarations('fill red; stroke: blue', { left: 10 }).problems).toEqual([
    '"fill red;" is not a declaration',
  ]);
});

test('which values a property may have', () => {
  expect(
    ['red', '#abc', 'url(#a) none', 'currentColor', 'rgb(1 2 3 / 4%)'].every((v) => isValidValue('fill', v)),
  ).toBe(true);
  expect(['blakc', '#ab', 'red blue', ''].some((v) => isValidValue('fill', v))).toBe(false);
});
