import { expect, test } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import { letterAlike } from '../../src/sheet/board/alike-letters.ts';
import type { LabelBlock } from '../../src/sheet/board/part-label.ts';
import { circle, placed } from './hand-layout.ts';

/** Round parts in a row, 10 mm apart, each by its name. */
function row(...names: readonly string[]) {
  return names.map((part, i) => ({
    placement: placed({ part, set: i + 1, region: { outline: circle(10 * i, 0, 2, 12), openings: [] } }),
  }));
}

const roomIn = ({ region }: ReturnType<typeof row>[number]['placement'], [block]: readonly LabelBlock[]) => ({
  block,
  box: boundsOf(region.outline),
});

test('unlike parts without numbers have the letter of their kind; what a leader runs over is counted', () => {
  const crowd = row('bead', 'seed', 'bead', 'bead', 'seed', 'pearl');
  const over = { way: [[40, -9] as const, [40, 9] as const] };
  const { marks, alike, nameless } = letterAlike(crowd, crowd.slice(1, 5), roomIn, [over]);
  const written = crowd.map(({ placement }) =>
    (marks.get(placement) ?? []).map((mark) => (mark.kind === 'text' ? mark.text : '')).join(),
  );
  expect(written).toEqual(['', 'A', 'B', 'B', '', '']);
  expect(alike.map(({ letter, count, placement }) => [letter, count, placement.part])).toEqual([
    ['A', 1, 'seed'],
    ['B', 2, 'bead'],
  ]);
  expect(nameless).toBe(1);
});

test('copies of one part alone need no letters', () => {
  const crowd = row('bead', 'bead', 'bead');
  expect(letterAlike(crowd, crowd.slice(1), roomIn, [])).toEqual({
    marks: new Map(),
    alike: [],
    nameless: 2,
  });
});
