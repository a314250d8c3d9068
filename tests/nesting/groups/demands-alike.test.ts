import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/shapes.ts';
import type { Batch, Demand, Pin } from '../../../src/model/batch.ts';
import { demandAt, demandsAlike, perSetOf } from '../../../src/nesting/groups/demands-alike.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from '../plain-batch.ts';

const BERRY: Point[] = [
  [0, 0],
  [30, 0],
  [22, 20],
  [6, 26],
];

/** A berry drawn at (x, y) under a name of its own. */
function berry(part: string, x: number, y: number, more: Partial<Demand> = {}): Demand {
  return plainDemand(
    part,
    BERRY.map(([u, v]): Point => [u + x, v + y]),
    { layer: 'Berries', ...more },
  );
}

const pin = (part: string): Pin => ({
  part,
  layer: 'Berries',
  board: 'A',
  number: 1,
  x: 10,
  y: 10,
  rotation: 0,
  turnedOver: false,
});

describe('demandsAlike', () => {
  const names = (demands: Demand[], pins: Pin[] = []) =>
    demandsAlike({ demands, pins }).map((alike) => alike.map(({ part }) => part));

  it('puts together what has one outline, wherever it is drawn, and the same rules', () => {
    const free = { grain: 'free', grainTolerance: 0, turnOver: false, restEdge: false } as const;
    const holed = { outline: BERRY, openings: [rectangle(3, 3)] };
    expect(
      names([
        berry('a', 0, 0),
        berry('free', 0, 0, { rules: free }),
        berry('b', 81.3, -7.1),
        berry('holed', 0, 0, { region: holed }),
        berry('c', 3, 400),
      ]),
    ).toEqual([['a', 'b', 'c'], ['free'], ['holed']]);
  });

  it('leaves a pinned one alone: its copies are not those of another', () => {
    expect(names([berry('a', 0, 0), berry('b', 50, 0), berry('c', 90, 0)], [pin('b')])).toEqual([
      ['a', 'c'],
      ['b'],
    ]);
  });

  it('counts the copies of a set one demand after the other', () => {
    const [alike] = demandsAlike({
      demands: [berry('a', 0, 0), berry('b', 50, 0, { copiesPerSet: 3 }), berry('c', 90, 0)],
      pins: [],
    });
    expect(perSetOf(alike)).toBe(5);
    expect([0, 1, 2, 3, 4].map((place) => demandAt(alike, place).part)).toEqual(['a', 'b', 'b', 'b', 'c']);
  });
});

describe('a layout of parts that look alike', () => {
  const batch = (sets: number, length: number): Batch => ({
    sets,
    demands: [berry('a', 0, 0), berry('b', 70, 30, { copiesPerSet: 2 }), berry('c', -40, 12)],
    boards: [plainBoard('A', length, 80)],
    ...PLAIN_GAPS,
  });

  it('has every part of every set under its own name', async () => {
    const layout = await soundLayout(batch(5, 600), 0.1);
    expect(layout.figures.completeSets).toBe(5);
    const found = layout.boards.flatMap(({ placements }) =>
      placements.map(({ part, set }) => `${set}${part}`),
    );
    const wanted = [1, 2, 3, 4, 5].flatMap((set) => [`${set}a`, `${set}b`, `${set}b`, `${set}c`]);
    expect(found.sort()).toEqual(wanted.sort());
  });

  it('completes as many sets as there are copies for, and names what is missing', async () => {
    const layout = await soundLayout(batch(12, 330), 0.1);
    const { parts, completeSets } = layout.figures;
    expect(completeSets).toBe(Math.floor(parts / 4));
    expect(parts + layout.unplaced.length).toBe(48);
    expect(layout.unplaced.every(({ set }) => set > completeSets)).toBe(true);
  });
});
