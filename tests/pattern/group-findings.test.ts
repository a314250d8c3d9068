import { expect, test } from 'vitest';
import type { Finding } from '../../src/model/pattern-check.ts';
import { findingIssue } from '../../src/pattern/finding-issue.ts';
import { groupFindings } from '../../src/pattern/group-findings.ts';

const finding = (part: string, size: number, kind: Finding['kind'] = 'neck-thin'): Finding => ({
  kind,
  severity: 'warning',
  layer: 'L',
  part,
  at: [size, 0],
  span: undefined,
  size,
  limit: 1.6,
  message: `a neck is ${size.toFixed(2)} mm wide`,
  advice: 'Draw it wider.',
});

test('necks of one part are told once, with their number and the range of widths', () => {
  const [group, ...others] = groupFindings([finding('a', 1.2), finding('a', 0.8), finding('a', 1)]);
  expect(others).toEqual([]);
  expect(group.message).toBe('3 thin necks, 0.80 to 1.20 mm');
  expect(group.findings).toHaveLength(3);
  // Copies of a neck differ by rounding alone: that is one width.
  expect(groupFindings([finding('a', 1.2), finding('a', 1.2001)])[0].message).toBe('2 thin necks, 1.20 mm');
});

test('copies of a part are told once, parts of other sizes are not copies', () => {
  const groups = groupFindings([finding('a', 1.2), finding('a 2', 1.2003), finding('b', 0.8)]);
  expect(groups.map(({ parts }) => parts)).toEqual([['a', 'a 2'], ['b']]);
  expect(groups[0].message).toBe('2 parts alike, each: a neck is 1.20 mm wide');
  expect(groups[1].message).toBe('a neck is 0.80 mm wide');
});

test('other kinds and single findings stay as they are, and none is lost', () => {
  const findings = [finding('a', 1.2), finding('a', 1.2, 'opening-small'), finding('b', 3, 'part-small')];
  const groups = groupFindings(findings);
  expect(groups).toHaveLength(3);
  expect(groups.flatMap((group) => group.findings)).toEqual(findings);
});

test('parts with as many findings of the same sizes are copies, and no others', () => {
  const three = (part: string) => [finding(part, 1.2), finding(part, 0.8), finding(part, 1)];
  const bends = (part: string, count: number): Finding => ({
    ...finding(part, 2, 'turn-tight'),
    message: `${count} bends tighter than the blade follows`,
  });
  const groups = groupFindings([
    ...three('a'),
    ...three('b'),
    ...three('c').slice(1),
    bends('a', 4),
    bends('b', 4),
    bends('c', 5),
  ]);
  expect(groups.map(({ parts, findings }) => [parts, findings.length])).toEqual([
    [['a', 'b'], 6],
    [['c'], 2],
    [['a', 'b'], 2],
    [['c'], 1],
  ]);
});

test('a single finding is told with its place, one of several parts with their names', () => {
  const [one] = groupFindings([finding('a', 1.2)]);
  expect(findingIssue(one, 'boat.svg')).toEqual({
    ...{
      kind: 'neck-thin',
      severity: 'warning',
      message: 'a neck is 1.20 mm wide',
      remedy: 'Draw it wider.',
    },
    where: { file: 'boat.svg', layer: 'L', part: 'a', at: [1.2, 0] },
  });
  const [two] = groupFindings([finding('a', 1.2), finding('a 2', 1.2)]);
  expect(findingIssue(two, 'boat.svg').where).toEqual({ file: 'boat.svg', layer: 'L', part: 'a, a 2' });
});
