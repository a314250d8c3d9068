import fc from 'fast-check';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import { describe, expect, it } from 'vitest';
import {
  distanceToSegment,
  insideRegion,
  lineLength,
  locateInRing,
  oriented,
  regionArea,
  regionBounds,
  regionsArea,
  ringArea,
  ringPerimeter,
  signedArea,
  withoutClosingRepeats,
  withoutLineRepeats,
  withoutRepeats,
} from '../../src/geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesMeet,
  type Point,
  type Region,
  type Ring,
} from '../../src/geometry/shapes.ts';

/** A 3-4-5 triangle, clockwise as seen (y down). */
const triangle: Ring = [
  [10, 10],
  [14, 10],
  [14, 13],
];
const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];
const frame: Region = { outline: square(0, 0, 10), openings: [square(2, 2, 3), square(6, 6, 2)] };

describe('areas and lengths', () => {
  it('are those of a triangle of sides 3, 4 and 5', () => {
    expect(signedArea(triangle)).toBe(6);
    expect(signedArea([...triangle].reverse())).toBe(-6);
    expect(ringArea([...triangle].reverse())).toBe(6);
    expect(lineLength(triangle)).toBe(7);
    expect(ringPerimeter(triangle)).toBe(12);
  });

  it('are nothing where there is nothing', () => {
    expect(signedArea([])).toBe(0);
    expect(signedArea(triangle.slice(0, 2))).toBe(0);
    expect(lineLength([])).toBe(0);
    expect(ringPerimeter([])).toBe(0);
    expect(ringPerimeter([[3, 4]])).toBe(0);
    expect(
      ringPerimeter([
        [0, 0],
        [3, 4],
      ]),
    ).toBe(10);
  });

  it('keep their digits far from the origin', () => {
    const far = triangle.map(([x, y]): Point => [x + 2 ** 26, y + 2 ** 26]);
    expect(signedArea(far)).toBe(6);
  });

  it('take openings out of a region', () => {
    expect(regionArea(frame)).toBe(100 - 9 - 4);
    expect(regionsArea([frame, { outline: triangle, openings: [] }])).toBe(87 + 6);
    expect(regionBounds(frame)).toEqual({ minX: 0, minY: 0, maxX: 10, maxY: 10 });
  });
});

describe('oriented', () => {
  it('turns a ring round only when it runs the other way', () => {
    expect(oriented(triangle, true)).toBe(triangle);
    expect(signedArea(oriented(triangle, false))).toBe(-6);
    const back = [...triangle].reverse();
    expect(oriented(back, false)).toBe(back);
    expect(oriented(back, true)).toEqual(triangle);
  });
});

describe('locateInRing', () => {
  const ring = square(0, 0, 10);

  it('tells inside, outside and the ring itself', () => {
    expect(locateInRing([5, 5], ring)).toBe(1);
    for (const out of [
      [-1, 5],
      [11, 5],
      [5, -1],
      [5, 11],
      [-1, 0],
      [-1, 10],
    ] as Point[])
      expect(locateInRing(out, ring), `${out}`).toBe(-1);
    for (const on of [
      [0, 5],
      [10, 5],
      [5, 0],
      [5, 10],
      [0, 0],
      [10, 10],
    ] as Point[])
      expect(locateInRing(on, ring), `${on}`).toBe(0);
  });

  it('counts what is within the tolerance as on the ring, from either side', () => {
    for (const [x, y] of [
      [0.5, 5],
      [-0.5, 5],
      [9.5, 5],
      [10.5, 5],
      [5, 0.5],
      [5, -0.5],
      [5, 9.5],
      [5, 10.5],
    ]) {
      expect(locateInRing([x, y], ring, 0.5), `${x},${y}`).toBe(0);
      expect(locateInRing([x, y], ring, 0.49), `${x},${y}`).toBe(x > 0 && x < 10 && y > 0 && y < 10 ? 1 : -1);
    }
    // Off a corner by 0.3 and 0.4: 0.5 away.
    expect(locateInRing([10.3, 10.4], ring, 0.51)).toBe(0);
    expect(locateInRing([10.3, 10.4], ring, 0.49)).toBe(-1);
  });

  it('counts a corner on the line of sight once', () => {
    const diamond: Ring = [
      [0, -5],
      [5, 0],
      [0, 5],
      [-5, 0],
    ];
    expect(locateInRing([-6, 0], diamond)).toBe(-1);
    expect(locateInRing([-4, 0], diamond)).toBe(1);
    expect(locateInRing([-1, -5], diamond)).toBe(-1);
    expect(locateInRing([-1, 5], diamond)).toBe(-1);
  });
});

describe('insideRegion', () => {
  it('keeps openings and edges out', () => {
    expect(insideRegion([1, 1], frame)).toBe(true);
    expect(insideRegion([3, 3], frame)).toBe(false);
    expect(insideRegion([7, 7], frame)).toBe(false);
    expect(insideRegion([2, 3], frame)).toBe(false);
    expect(insideRegion([0, 3], frame)).toBe(false);
    expect(insideRegion([11, 3], frame)).toBe(false);
  });
});

describe('distanceToSegment', () => {
  it('agrees with a reference geometry library', () => {
    const factory = new GeometryFactory();
    const coordinate = fc.integer({ min: -20, max: 20 });
    fc.assert(
      fc.property(fc.tuple(coordinate, coordinate, coordinate, coordinate, coordinate, coordinate), (c) => {
        const [x, y, ax, ay, bx, by] = c;
        const line = factory.createLineString([new Coordinate(ax, ay), new Coordinate(bx, by)]);
        const point = factory.createPoint(new Coordinate(x, y));
        expect(distanceToSegment(x, y, ax, ay, bx, by)).toBeCloseTo(DistanceOp.distance(point, line), 9);
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});

describe('points left out', () => {
  const line: Ring = [
    [0, 0],
    [0, 1],
    [0, 1.5],
    [0, 3],
    [0, 0.9],
  ];

  it('are those near the one kept before them', () => {
    expect(withoutLineRepeats(line, 1)).toEqual([
      [0, 0],
      [0, 1.5],
      [0, 3],
      [0, 0.9],
    ]);
    expect(withoutLineRepeats(line, 0.49)).toEqual(line);
    expect(withoutLineRepeats([], 1)).toEqual([]);
  });

  it('are those at the end that come back to the first', () => {
    expect(withoutClosingRepeats(line, 0.9)).toEqual(line.slice(0, 4));
    expect(withoutClosingRepeats(line, 0.89)).toBe(line);
    expect(
      withoutClosingRepeats(
        [
          [1, 1],
          [1, 1],
          [1, 1],
        ],
        0,
      ),
    ).toEqual([[1, 1]]);
    expect(withoutClosingRepeats([], 1)).toEqual([]);
  });

  it('are both of a ring', () => {
    expect(withoutRepeats(line, 1)).toEqual([
      [0, 0],
      [0, 1.5],
      [0, 3],
    ]);
  });
});

describe('boxes', () => {
  const box: Box = { minX: 0, minY: 0, maxX: 10, maxY: 5 };
  const moved = (x: number, y: number): Box => ({ minX: x, minY: y, maxX: x + 10, maxY: y + 5 });

  it('go round all points', () => {
    expect(
      boundsOf([
        [3, -2],
        [-1, 7],
        [2, 2],
      ]),
    ).toEqual({ minX: -1, minY: -2, maxX: 3, maxY: 7 });
    expect(boundsOf([])).toEqual({ minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity });
  });

  it('meet when they share a point, or lie no farther apart than the margin', () => {
    for (const [x, y] of [
      [10, 0],
      [-10, 0],
      [0, 5],
      [0, -5],
    ]) {
      expect(boxesMeet(box, moved(x, y)), `${x},${y}`).toBe(true);
      const apart = moved(x * 1.1, y * 1.2);
      expect(boxesMeet(box, apart), `${x},${y}`).toBe(false);
      expect(boxesMeet(box, apart, 1), `${x},${y}`).toBe(true);
      expect(boxesMeet(box, apart, 0.9), `${x},${y}`).toBe(false);
    }
  });
});
