import { describe, expect, it } from 'vitest';
import { locateInRing, ringArea } from '../../../src/geometry/ring.ts';
import { boundsOf, boxArea, boxRing, type Point } from '../../../src/geometry/shapes.ts';
import type { Batch, Demand, Pin } from '../../../src/model/batch.ts';
import {
  demandAt,
  demandsAlike,
  ofOneOutline,
  outlineOf,
  perSetOf,
} from '../../../src/nesting/groups/demands-alike.ts';
import { sharedOutlineIssues } from '../../../src/nesting/groups/shared-outlines.ts';
import { stackWays } from '../../../src/nesting/groups/stack-ways.ts';
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

describe('hundreds of unlike outlines', () => {
  /** Berries of as many sizes, drawn with the middle of their box at the origin. */
  const berries = (count: number, more: Partial<Demand> = {}) =>
    Array.from({ length: count }, (_, i) => {
      const scale = (k: number) => 0.5 + ((i * k) % 401) / 401;
      const outline = BERRY.map(([u, v]): Point => [(u - 15) * scale(7), (v - 13) * scale(31)]);
      return plainDemand(`b${i}`, outline, { layer: 'Berries', ...more });
    });
  // By hand: 360 outlines in two lies each ask for 129,600 fields, 361 for 130,321.
  const few = berries(360);
  const many = berries(361);

  it('share outlines of about their size, and a few hundred do not', () => {
    expect(demandsAlike({ demands: few, pins: [] })).toHaveLength(360);
    const shared = demandsAlike({ demands: many, pins: [] });
    expect(shared.length).toBeGreaterThan(150);
    expect(shared.length).toBeLessThan(300);
    expect(shared.flat().toSorted((a, b) => many.indexOf(a) - many.indexOf(b))).toEqual(many);
    expect(ofOneOutline({ demands: many, pins: [] })).toHaveLength(361);
    for (const alike of shared.filter(({ length }) => length > 1)) {
      const { outline } = outlineOf(alike);
      const points = alike.flatMap(({ region }) => region.outline);
      expect(points.every(([x, y]) => locateInRing([x, y], outline) >= 0)).toBe(true);
      // A berry leaves corners of its box free, and so do several of about one size.
      expect(ringArea(outline)).toBeLessThan(0.9 * boxArea(boundsOf(points)));
    }
  });

  it('are told, with the wood that it takes', () => {
    const groupsOf = (demands: readonly Demand[]) =>
      stackWays({ ...PLAIN_GAPS, sets: 1, demands, boards: [plainBoard('A', 2000, 300)] }).flatMap(
        ({ ways }) => ways[0],
      );
    expect(sharedOutlineIssues(groupsOf(few))).toEqual([]);
    // Boxes that differ by thousandths of a millimetre cost no wood worth a word.
    const boxes = Array.from({ length: 361 }, (_, i) =>
      plainDemand(`c${i}`, boxRing({ minX: 0, minY: 0, maxX: 20 + i / 1000, maxY: 10 })),
    );
    expect(sharedOutlineIssues(groupsOf(boxes))).toEqual([]);
    const [{ kind, severity, message }, ...others] = sharedOutlineIssues(groupsOf(many));
    expect({ kind, severity, others }).toEqual({ kind: 'outlines-shared', severity: 'warning', others: [] });
    // What stands in the words, measured anew.
    const shared = demandsAlike({ demands: many, pins: [] });
    const around = shared.reduce((sum, alike) => sum + alike.length * ringArea(outlineOf(alike).outline), 0);
    const own = many.reduce((sum, { region }) => sum + ringArea(region.outline), 0);
    expect(around).toBeGreaterThan(own);
    expect(message).toContain('361 unlike outlines of maple 6 mm');
    expect(message).toContain(
      `${shared.length} outlines in all, which takes up ${Math.round(100 * (around / own - 1))} % more`,
    );
  });

  it('that are pinned, stand on the edge or have rules of their own share none', () => {
    const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: true } as const;
    const edged = berries(380).map((demand, i) => (i % 90 === 1 ? { ...demand, rules } : demand));
    const shared = demandsAlike({ demands: edged, pins: [pin('b0')] });
    const alone = shared.filter(([{ part, rules }]) => part === 'b0' || rules.restEdge);
    expect(alone.map(({ length }) => length)).toEqual([1, 1, 1, 1, 1, 1]);
    expect(shared.length).toBeLessThan(300);
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
