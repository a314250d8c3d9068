import { describe, expect, it } from 'vitest';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { regionArea, ringArea } from '../../../src/geometry/ring.ts';
import type { Point, Region } from '../../../src/geometry/shapes.ts';
import { withoutBays } from '../../../src/nesting/problem/covered-bays.ts';
import { crossesItself } from '../../../src/nesting/problem/crosses-itself.ts';
import { edgeWithFewVertices, withFewVertices } from '../../../src/nesting/problem/fewer-vertices.ts';
import { ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { box } from '../../rectangle.ts';

/** A comb 40 mm wide: its teeth and the bays between them as wide as told, 10 mm deep. */
function comb(tooth: number, bay: number): Region {
  const outline: Point[] = [[0, 20]];
  for (let x = 0; x + tooth <= 40; x += tooth + bay) {
    outline.push([x, 0], [x + tooth, 0], [x + tooth, 10], [x + tooth + bay, 10]);
  }
  outline.push([outline[outline.length - 1][0], 20]);
  return { outline, openings: [] };
}

/** A ring of teeth 5 mm deep around an oval of 200 x 120 mm, two vertices for each. */
function toothed(teeth: number): Region {
  const outline = Array.from({ length: 2 * teeth }, (_, i): Point => {
    const angle = (Math.PI * i) / teeth;
    const radius = i % 2 === 0 ? 100 : 95;
    return [radius * Math.cos(angle), 0.6 * radius * Math.sin(angle)];
  });
  return { outline, openings: [] };
}

const uncovered = (region: Region, by: Region) =>
  combineRegions('difference', [region], [by]).reduce((sum, piece) => sum + regionArea(piece), 0);

describe('withoutBays', () => {
  it('covers bays no wider than the mouth, flat or pointed at the bottom, and leaves wider ones', () => {
    // By hand: 38 x 20 mm of comb without a bay, and 1 x 10 mm beside its last tooth.
    const { outline, openings } = withoutBays(comb(2, 1), 1);
    expect(regionArea({ outline, openings })).toBeCloseTo(38 * 20 + 10, 6);
    expect(outline.length).toBeLessThan(34);
    expect(withoutBays(comb(2, 3), 2.9)).toEqual(comb(2, 3));
    // Of pointed teeth the tips are left.
    expect(withoutBays(toothed(500), 1.4).outline).toHaveLength(500);
    expect(withoutBays(toothed(500), 0.5).outline).toHaveLength(1000);
  });

  it('covers the region, and crosses nothing', () => {
    const random = new Random(5);
    for (let n = 0; n < 4; n++) {
      const bent: Region = {
        outline: toothed(60 + 50 * n).outline.map(
          ([x, y]): Point => [x + random.between(-1, 1), y + random.between(-1, 1)],
        ),
        openings: [box(-20, -10, -19, 10), box(10, -10, 30, 10)],
      };
      if (crossesItself(bent.outline)) continue;
      for (const mouth of [0.8, 3]) {
        const covered = withoutBays(bent, mouth);
        expect(uncovered(bent, covered)).toBeLessThan(1e-3);
        expect(crossesItself(covered.outline)).toBe(false);
        // The slot of 1 mm goes, the window of 20 mm stays.
        expect(covered.openings).toHaveLength(mouth < 1 ? 2 : 1);
      }
    }
  });

  it('leaves a bay that a stem passes through', () => {
    // A hook whose tip stands in the notch of 2 mm: no chord across the notch is free.
    const hook: Region = {
      outline: [
        [0, 0],
        [4, 0],
        [5, 6],
        [6, 0],
        [10, 0],
        [10, -5],
        [5.2, -5],
        [5, 3],
        [4.8, -6],
        [12, -6],
        [12, 10],
        [0, 10],
      ],
      openings: [],
    };
    expect(crossesItself(hook.outline)).toBe(false);
    expect(withoutBays(hook, 2.5).outline).toEqual(hook.outline);
  });
});

describe('crossesItself', () => {
  it('says what comparing every two edges says', () => {
    const random = new Random(8);
    const side = (a: Point, b: Point, p: Point) =>
      Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
    const cross = (a: Point, b: Point, c: Point, d: Point) =>
      side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
    const said = new Set<boolean>();
    for (let n = 0; n < 60; n++) {
      const stretch = n % 2 === 0 ? 1 : 30;
      const ring = Array.from({ length: 20 }, (_, i): Point => {
        const angle = (Math.PI * i) / 10;
        const radius = random.between(4, 10);
        const off = n % 4 < 2 ? 0 : random.between(-2, 2);
        return [(radius * Math.cos(angle) + off) * stretch, radius * Math.sin(angle)];
      });
      const slowly = ring.some((a, i) =>
        ring.some((c, j) => cross(a, ring[(i + 1) % 20], c, ring[(j + 1) % 20])),
      );
      expect(crossesItself(ring)).toBe(slowly);
      said.add(slowly);
    }
    expect(said.size).toBe(2);
  });
});

describe('withFewVertices', () => {
  it('covers the teeth of a leaf where they are many, and keeps a few', () => {
    for (const [teeth, gap] of [
      [500, 0.8],
      [900, 0.3],
    ] as const) {
      const leaf = toothed(teeth);
      const few = withFewVertices(leaf, gap);
      expect(uncovered(leaf, few)).toBeLessThan(1e-3);
      expect(few.outline.length).toBeLessThan(150);
      // All that the teeth leave free is half of a rim of 5 mm.
      expect(regionArea(few)).toBeLessThan(1.06 * regionArea(leaf));
    }
    expect(withFewVertices(toothed(100), 0.8).outline).toHaveLength(200);
  });
});

describe('edgeWithFewVertices', () => {
  it('stays inside a board traced along its bark, in a fraction of the points', () => {
    const random = new Random(3);
    const across = (x: number, y: number): Point => [
      x,
      y + 4 * Math.sin(x / 90) + random.between(-0.25, 0.25),
    ];
    const xs = Array.from({ length: 900 }, (_, i) => i / 2);
    const traced = [...xs.map((x) => across(x, 5)), ...xs.toReversed().map((x) => across(x, 150))];
    const edge = edgeWithFewVertices(traced, 3);
    expect(edge.length).toBeLessThan(120);
    expect(uncovered({ outline: edge, openings: [] }, { outline: traced, openings: [] })).toBeLessThan(1e-3);
    expect(ringArea(edge)).toBeGreaterThan(0.99 * ringArea(traced));
    const sawn = box(0, 0, 450, 150);
    expect(edgeWithFewVertices(sawn, 3)).toBe(sawn);
  });
});

describe('an outline traced in steps', () => {
  const steps: Point[] = [];
  for (let i = 0; i < 1200; i++) {
    const angle = (2 * Math.PI * i) / 1200;
    const radius = 30 + 8 * Math.sin(3 * angle);
    const at: Point = [
      Math.round(4 * radius * Math.cos(angle)) / 4,
      Math.round(4 * radius * Math.sin(angle)) / 4,
    ];
    const last = steps[steps.length - 1];
    if (last !== undefined && last[0] === at[0] && last[1] === at[1]) continue;
    if (last !== undefined && last[0] !== at[0] && last[1] !== at[1]) steps.push([at[0], last[1]]);
    steps.push(at);
  }

  it('has a fraction of its vertices in the engine, and covers the true one', () => {
    const lie = { degrees: 0, turnedOver: false };
    const shape = {
      region: { outline: steps, openings: [] },
      lies: [lie],
      stands: false,
      copies: 1,
      perSet: 1,
    };
    const { shapes } = new ProblemBuilder().build({ shapes: [shape], containers: [], gap: 1.5, margin: 3 });
    expect(steps.length).toBeGreaterThan(900);
    const { region } = shapes[0];
    expect(region.outline.length).toBeLessThan(250);
    const xs = steps.map(([x]) => x);
    const ys = steps.map(([, y]) => y);
    const middle = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
    const centred = steps.map(([x, y]): Point => [x - middle[0], y - middle[1]]);
    const left = combineRegions('difference', [{ outline: centred, openings: [] }], [region]);
    expect(left.reduce((sum, piece) => sum + regionArea(piece), 0)).toBeLessThan(1e-3);
  });
});
