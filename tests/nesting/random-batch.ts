import type { Point, Region, Ring } from '../../src/geometry/shapes.ts';
import type { Batch, Demand, GrainRule } from '../../src/model/batch.ts';
import type { Board } from '../../src/model/stock.ts';
import { Random } from '../../src/nesting/running/random.ts';

/** Random jobs for the tests: star-shaped and wavy outlines, openings, odd boards, all rules. */

/** A ring around (cx, cy) whose radius waves or jumps between `least` and `most` mm. */
export function blob(random: Random, points: number, least: number, most: number, wavy: boolean): Ring {
  const phase = random.between(0, 6);
  return Array.from({ length: points }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / points;
    const wave = wavy ? 0.5 + 0.5 * Math.sin(3 * angle + phase) * Math.sin(2 * angle - phase) : random.unit();
    const radius = least + (most - least) * wave;
    return [200 + radius * Math.cos(angle), 100 + radius * Math.sin(angle)];
  });
}

function randomRegion(random: Random): Region {
  const size = random.between(8, 45);
  const wavy = random.unit() < 0.5;
  const outline = blob(random, wavy ? 60 + random.below(200) : 3 + random.below(12), size * 0.45, size, wavy);
  const openings = random.unit() < 0.3 && wavy ? [blob(random, 12, size * 0.2, size * 0.4, true)] : [];
  return { outline, openings };
}

function randomBoard(random: Random, number: number): Board {
  const length = random.between(150, 500);
  const width = random.between(100, 220);
  const outline: Ring =
    random.unit() < 0.7
      ? [
          [0, 0],
          [length, 0],
          [length, width],
          [0, width],
        ]
      : [
          [0, width * 0.2],
          [length * 0.3, 0],
          [length, width * 0.1],
          [length * 0.95, width],
          [0, width],
        ];
  const defects =
    random.unit() < 0.4
      ? [blob(random, 8, 5, 15, true).map(([x, y]): Point => [x - 200 + length / 2, y - 100 + width / 2])]
      : [];
  return {
    id: `board ${number}`,
    species: random.unit() < 0.5 ? 'cherry' : 'Black Walnut',
    thickness: 6,
    outline,
    defects,
    quantity: 1 + random.below(3),
    price: random.unit() < 0.5 ? random.between(5, 30) : undefined,
  };
}

function randomDemand(random: Random, number: number): Demand {
  const grain: GrainRule = (['along', 'across', 'free'] as const)[random.below(3)];
  const region = randomRegion(random);
  const vein: Point[] = [
    [200, 100],
    [201, 100.5],
  ];
  return {
    part: `part ${number}`,
    layer: `layer ${number % 2}`,
    region,
    // In the middle of the part, where an opening would be.
    veins: region.openings.length === 0 ? [vein] : [],
    copiesPerSet: 1 + random.below(2),
    species: random.unit() < 0.5 ? 'Cherry' : 'black walnut',
    thickness: 6,
    rules: {
      grain,
      grainTolerance: random.unit() < 0.3 ? 10 : 0,
      turnOver: random.unit() < 0.3,
      restEdge: false,
    },
  };
}

/** A random job; the same seed gives the same job. */
export function randomBatch(seed: number): Batch {
  const random = new Random(seed);
  return {
    sets: 1 + random.below(14),
    demands: Array.from({ length: 1 + random.below(4) }, (_, i) => randomDemand(random, i)),
    boards: Array.from({ length: 1 + random.below(3) }, (_, i) => randomBoard(random, i)),
    kerf: random.between(0, 2),
    clearance: random.unit() < 0.5 ? 0 : random.between(0, 2),
    edgeMargin: random.unit() < 0.3 ? 0 : random.between(0, 5),
    thicknessTolerance: 0.5,
    outlineTolerance: random.unit() < 0.5 ? 0 : 0.05,
  };
}
