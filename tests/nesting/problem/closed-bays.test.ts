import { describe, expect, it } from 'vitest';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { distanceToSegment, locateInRing, regionArea } from '../../../src/geometry/ring.ts';
import type { Point, Region } from '../../../src/geometry/shapes.ts';
import { withoutNarrowBays } from '../../../src/nesting/problem/closed-bays.ts';
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

const distanceTo = ({ outline, openings }: Region, [x, y]: Point): number => {
  if (locateInRing([x, y], outline) >= 0 && openings.every((ring) => locateInRing([x, y], ring) <= 0))
    return 0;
  return Math.min(
    ...[outline, ...openings].flatMap((ring) =>
      ring.map(([ax, ay], i) => {
        const [bx, by] = ring[(i + 1) % ring.length];
        return distanceToSegment(x, y, ax, ay, bx, by);
      }),
    ),
  );
};

describe('withoutNarrowBays', () => {
  it('fills bays narrower than twice the distance, and leaves wider ones', () => {
    // By hand: 38 x 20 mm of comb and 1 x 10 mm beside its last tooth, less a dent in each of the twelve bays of 1 mm: a
    // segment of a circle of 1 mm over a chord of 1 mm, 0.0906 mm2. A disc of 1 mm rolls into bays of 3 mm.
    const filled = withoutNarrowBays(comb(2, 1), 1);
    expect(regionArea(filled)).toBeCloseTo(770 - 12 * 0.0906, 0);
    const wide = comb(2, 3);
    expect(regionArea(withoutNarrowBays(wide, 1)) - regionArea(wide)).toBeLessThan(8 * 2 * 0.22);
  });

  it('covers the region', () => {
    for (const [tooth, bay] of [
      [0.2, 0.3],
      [2, 1],
      [3, 2.5],
    ]) {
      const region = comb(tooth, bay);
      expect(combineRegions('difference', [region], [withoutNarrowBays(region, 1.2)])).toEqual([]);
    }
  });

  it('takes no place from anything that keeps its distance (Serra 1982)', () => {
    const random = new Random(5);
    for (const distance of [0.8, 1.6]) {
      const region: Region = { outline: comb(1, 2).outline, openings: [box(8, 13, 10, 18)] };
      const filled = withoutNarrowBays(region, distance);
      let apart = 0;
      for (let n = 0; n < 3000; n++) {
        const point: Point = [random.between(-3, 43), random.between(-3, 23)];
        if (distanceTo(region, point) < distance) continue;
        apart++;
        expect(distanceTo(filled, point)).toBeGreaterThan(distance - 1e-3);
      }
      expect(apart).toBeGreaterThan(300);
    }
  });

  it('leaves everything as it is where no distance is kept', () => {
    const region = comb(2, 1);
    expect(withoutNarrowBays(region, 0)).toBe(region);
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
      onEdge: false,
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
