import { describe, expect, it } from 'vitest';
import { formatIssue, type Issue } from '../../src/issues/issue.ts';
import { toldTogether } from '../../src/issues/told-together.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import { attention } from '../../src/sheet/report/attention-section.ts';
import { handLayout } from '../sheet/hand-layout.ts';

/** A pattern with a label beside each of its parts, a line each. */
function labelled(labels: number): string {
  const texts = Array.from({ length: labels }, (_, i) => `<text id="t${i}" x="5" y="${i}">reed</text>`);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60">\n<g id="Reeds"><rect width="9" height="50"/>\n${texts.join('\n')}\n</g></svg>`;
}

const told = (issues: readonly Issue[]) => toldTogether(issues).map((issue) => formatIssue(issue));

describe('issues alike', () => {
  it('of many elements are told on one line, with the lines of all', () => {
    const { issues } = readPattern(labelled(5), { file: 'reeds.svg' });
    expect(issues).toHaveLength(5);
    expect(told(issues)).toEqual([
      expect.stringMatching(
        /^reeds\.svg:3, <text id="t0"> and 4 more, in lines 4, 5, 6, 7: text has no outline/,
      ),
    ]);
    const oneLine = readPattern(labelled(5).replaceAll('\n', ''), { file: 'reeds.svg' });
    expect(told(oneLine.issues)).toEqual([
      expect.stringMatching(/^reeds\.svg:1, <text id="t0"> and 4 more: text has no outline/),
    ]);
  });

  it('of thousands of elements name the first forty lines', () => {
    const [line, ...others] = told(readPattern(labelled(3000)).issues);
    expect(others).toEqual([]);
    expect(line).toMatch(/<text id="t0"> and 2999 more, in lines 4, 5, .*, 42, 43 and 2959 more: text has/);
  });

  it('of few elements, and of places on the page, are told one by one', () => {
    expect(told(readPattern(labelled(3)).issues)).toHaveLength(3);
    const lost = (i: number): Issue => ({
      kind: 'open-line-left-out',
      severity: 'warning',
      message: 'an open line lies in no part',
      where: { file: 'reeds.svg', line: i, element: '<path>', at: [i, 0] },
    });
    expect(toldTogether([1, 2, 3, 4, 5].map(lost))).toHaveLength(5);
  });

  it('are drawn together in the report too', () => {
    const { issues } = readPattern(labelled(40));
    expect(JSON.stringify(attention(handLayout(), issues, 'mm')).match(/text has no outline/g)).toHaveLength(
      1,
    );
  });
});
