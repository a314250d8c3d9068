import { expect, test } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import { letterAlike } from '../../src/sheet/board/alike-letters.ts';
import { placeOutside } from '../../src/sheet/board/outside-labels.ts';
import type { LabelBlock } from '../../src/sheet/board/part-label.ts';
import { box, circle, handBoard, placed } from './hand-layout.ts';

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

test('unlike parts without numbers have the letter of their kind; what a leader runs over has none', () => {
  const crowd = row('bead', 'seed', 'bead', 'bead', 'seed', 'pearl');
  const over = { way: [[40, -9] as const, [40, 9] as const] };
  const { marks, alike } = letterAlike(crowd, crowd.slice(1, 5), roomIn, [over]);
  const written = crowd.map(({ placement }) =>
    (marks.get(placement) ?? []).map((mark) => (mark.kind === 'text' ? mark.text : '')).join(),
  );
  expect(written).toEqual(['', 'A', 'B', 'B', '', '']);
  expect(alike.map(({ letter, count, placement }) => [letter, count, placement.part])).toEqual([
    ['A', 1, 'seed'],
    ['B', 2, 'bead'],
  ]);
});

test('copies of one part alone need no letters', () => {
  const crowd = row('bead', 'bead', 'bead');
  expect(letterAlike(crowd, crowd.slice(1), roomIn, [])).toEqual({
    marks: new Map(),
    alike: [],
  });
});

test('letters come before leaders over parts where these leave others with neither', () => {
  const crowd = Array.from({ length: 35 }, (_, i) => {
    const at = [2.5 + 3 * (i % 7), 2.5 + 3 * Math.floor(i / 7)] as const;
    const region = { outline: circle(at[0], at[1], 1, 12), openings: [] };
    return { placement: placed({ part: i % 2 === 0 ? 'bead' : 'seed', region }), anchor: at, number: i + 1 };
  });
  const placements = crowd.map(({ placement }) => placement);
  const usable = { outline: box(0, 0, 23, 17), openings: [] };
  const set = (hasRoom: boolean) =>
    placeOutside(crowd, handBoard({ usable, placements }), {
      roomIn: (placement, [block]) =>
        hasRoom && block.lines[0].length === 1 ? roomIn(placement, [block]) : undefined,
    });
  expect(set(false).nameless).toBeGreaterThan(0);
  const { nameless, alike, listed } = set(true);
  expect(nameless).toBe(0);
  expect(alike.map(({ letter, placement }) => `${letter} ${placement.part}`)).toEqual(['A bead', 'B seed']);
  expect(alike.reduce((sum, { count }) => sum + count, listed.length)).toBe(crowd.length);
});
