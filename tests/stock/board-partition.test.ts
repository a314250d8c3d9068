import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { regionsArea } from '../../src/geometry/ring.ts';
import type { Region, Ring } from '../../src/geometry/shapes.ts';
import { type BoardPartition, partitionBoard, type SawnBoard } from '../../src/stock/board-partition.ts';
import { box, rectangle } from '../rectangle.ts';

const solid = (outline: Ring, openings: Ring[] = []): Region => ({ outline, openings });

/** A board of 400 x 100 mm: 40,000 mm2. */
const BOARD = rectangle(400, 100);
const KERF = 1;

function sawn(change: Partial<SawnBoard>): BoardPartition {
  const outline = change.outline ?? BOARD;
  return partitionBoard({
    outline,
    trimmed: solid(outline),
    defects: [],
    parts: [],
    kerf: KERF,
    ...change,
  });
}

/**
 * Areas of the five lists in mm2. Together they are the board, and a second geometry library finds nothing that is
 * counted twice.
 */
function areas(partition: BoardPartition, whole = 40_000): Record<keyof BoardPartition, number> {
  const { trims, sawn: path, defects, openings, rest } = partition;
  const all = [...trims, ...path, ...defects, ...openings, ...rest];
  expect(regionsArea(all)).toBeCloseTo(whole, 2);
  expect(coveredArea(all).overlap).toBeLessThan(1e-2);
  return {
    trims: regionsArea(trims),
    sawn: regionsArea(path),
    defects: regionsArea(defects),
    openings: regionsArea(openings),
    rest: regionsArea(rest),
  };
}

/** Steiner: a rectangle a x b with a path of the blade k wide around it; the path may be up to 0.01 mm wider. */
function expectSteiner(found: number, a: number, b: number, k = KERF): void {
  const grown = (by: number) => a * b + 2 * (a + b) * by + Math.PI * by * by;
  expect(found).toBeGreaterThan(grown(k) - 1e-3);
  expect(found).toBeLessThan(grown(k + 0.01));
}

describe('a board parted by what the saw does to it', () => {
  it('counts the wood between a frame and a part that nearly fills it once, as path of the blade', () => {
    const frame = solid(box(10, 10, 90, 90), [box(20, 20, 80, 80)]);
    const inner = solid(box(21.4, 21.4, 78.6, 78.6));
    const found = areas(sawn({ parts: [frame, inner] }));
    expect(found.openings).toBe(0);
    // At most 0.01 mm too wide around the frame, whose path has round corners.
    const path = found.sawn - (82 * 82 - (4 - Math.PI));
    expect(path).toBeGreaterThanOrEqual(0);
    expect(path).toBeLessThan(0.01 * (4 * 80 + 2 * Math.PI) + 0.01);
  });

  it('is all sound wood where nothing is sawn', () => {
    expect(areas(sawn({}))).toEqual({ trims: 0, sawn: 0, defects: 0, openings: 0, rest: 40_000 });
  });

  it('loses its trims first', () => {
    const found = areas(sawn({ trimmed: solid(box(10, 5, 390, 100)) }));
    expect(found.trims).toBeCloseTo(40_000 - 380 * 95, 6);
    expect(found.rest).toBeCloseTo(380 * 95, 6);
  });

  it('loses with every part the path of the blade around it', () => {
    const found = areas(sawn({ parts: [solid(box(50, 20, 130, 80))] }));
    expectSteiner(found.sawn, 80, 60);
    expect([found.defects, found.openings, found.trims]).toEqual([0, 0, 0]);
    // A blade of no width leaves the parts alone; paths that touch are one.
    const none = areas(sawn({ parts: [solid(box(50, 20, 130, 80))], kerf: 0 }));
    expect(none.sawn).toBeCloseTo(4800, 6);
    const two = areas(sawn({ parts: [solid(box(50, 20, 100, 80)), solid(box(101, 20, 150, 80))] }));
    expectSteiner(two.sawn, 100, 60);
  });

  it('counts what falls out of an opening apart, less its kerf and the parts that lie in it', () => {
    // The path runs inside the opening: 40 x 40 is left of 42 x 42.
    const frame = solid(box(20, 10, 100, 90), [box(40, 29, 82, 71)]);
    const open = areas(sawn({ parts: [frame] }));
    expect(open.openings).toBeGreaterThan(39.98 ** 2 - 1e-3);
    expect(open.openings).toBeLessThan(1600 + 1e-3);
    const filled = areas(sawn({ parts: [frame, solid(box(50, 40, 60, 50))] }));
    expectSteiner(open.openings - filled.openings, 10, 10);
    // A blade of no width leaves all of the opening, and what is left of it touches the frame everywhere.
    expect(areas(sawn({ parts: [frame], kerf: 0 })).openings).toBeCloseTo(42 ** 2, 6);
  });

  it('counts a knot once: beside parts, under a part, half under a part, in another knot, off the board', () => {
    const part = solid(box(50, 20, 130, 80));
    const knots = (...defects: Ring[]) => areas(sawn({ parts: [part], defects })).defects;
    expect(knots(box(200, 30, 220, 60))).toBeCloseTo(600, 6);
    expect(knots(box(200, 30, 220, 60), box(300, 30, 310, 40))).toBeCloseTo(700, 6);
    expect(knots(box(60, 30, 80, 60))).toBe(0);
    // The path reaches 1 mm and a hair beyond the part's right side at 130.
    const half = knots(box(120, 30, 151, 60));
    expect(half).toBeLessThan(20 * 30 + 1e-3);
    expect(half).toBeGreaterThan(19.99 * 30 - 1e-3);
    expect(knots(box(200, 30, 240, 70), box(210, 40, 220, 50))).toBeCloseTo(1600, 6);
    expect(knots(box(210, 40, 220, 50), box(200, 30, 240, 70))).toBeCloseTo(1600, 6);
    expect(knots(box(200, 30, 220, 60), box(210, 30, 230, 60))).toBeCloseTo(900, 6);
    expect(knots(box(390, 30, 420, 60))).toBeCloseTo(300, 6);
    expect(knots(box(410, 30, 420, 60))).toBe(0);
  });

  it('counts a knot in the waste of an opening as a knot', () => {
    const frame = solid(box(20, 10, 100, 90), [box(40, 29, 82, 71)]);
    const found = areas(sawn({ parts: [frame], defects: [box(50, 40, 60, 50)] }));
    expect(found.defects).toBeCloseTo(100, 6);
    expect(found.openings).toBeGreaterThan(39.98 ** 2 - 100 - 1e-3);
    expect(found.openings).toBeLessThan(1500 + 1e-3);
  });

  it('counts a knot in what is trimmed off with the trims, and a hole in the board nowhere', () => {
    const trimmed = solid(box(100, 0, 400, 100), [box(300, 40, 320, 60)]);
    const { trims, defects, rest } = areas(sawn({ trimmed, defects: [box(20, 20, 40, 40)] }));
    expect([trims, defects].map(Math.round)).toEqual([10_400, 0]);
    expect(rest).toBeCloseTo(30_000 - 400, 6);
  });

  it('has no more than trims where nothing is left of the board', () => {
    const found = areas(sawn({ trimmed: solid([]), defects: [box(20, 20, 40, 40)] }));
    expect(found).toMatchObject({ sawn: 0, defects: 0, openings: 0, rest: 0 });
    expect(found.trims).toBeCloseTo(40_000, 6);
  });

  it('clips the path of a part that reaches to the edge', () => {
    const { sawn: path, rest } = areas(sawn({ parts: [solid(box(0, 0, 100, 100))] }));
    expect(path).toBeGreaterThan(101 * 100 - 1e-3);
    expect(path).toBeLessThan(101.01 * 100 + 1e-3);
    expect(rest).toBeCloseTo(40_000 - path, 3);
  });

  it('tells waste of openings from other wood also where a part reaches to the edge', () => {
    // The frame lies on the upper edge, so the rings of the board and of the path cross.
    const frame = solid(box(20, 0, 100, 90), [box(40, 29, 82, 71)]);
    const found = areas(sawn({ parts: [frame], defects: [box(50, 40, 60, 50), box(390, 30, 420, 60)] }));
    expect(found.openings).toBeGreaterThan(39.98 ** 2 - 100 - 1e-3);
    expect(found.openings).toBeLessThan(1500 + 1e-3);
    expect(found.defects).toBeCloseTo(100 + 300, 6);
  });

  it('is the same when nothing touches and when a knot over the edge makes it be clipped', () => {
    const frame = solid(box(20, 10, 100, 90), [box(40, 29, 82, 71)]);
    const parts = [frame, solid(box(50, 40, 60, 50)), solid(box(150, 20, 200, 80))];
    const knot = box(300, 30, 320, 60);
    const apart = areas(sawn({ parts, defects: [knot] }));
    const clipped = areas(sawn({ parts, defects: [knot, box(390, -10, 410, 10)] }));
    expect(clipped.defects - apart.defects).toBeCloseTo(100, 6);
    for (const key of ['trims', 'sawn', 'openings'] as const) expect(clipped[key]).toBeCloseTo(apart[key], 3);
  });

  it('takes the path of very many points for a little wider, never for narrower', () => {
    // Discs of radius 45 to 45.04 mm, jagged as a scan is: 21,000 points that no finer path does without.
    const middles = Array.from({ length: 30 }, (_, i) => 50 + 100 * i);
    const jagged = (x: number): Ring =>
      Array.from({ length: 700 }, (_, i) => {
        const angle = (2 * Math.PI * i) / 700;
        const r = 45 + 0.04 * ((i * i * 0.618) % 1);
        return [x + r * Math.cos(angle), 50 + r * Math.sin(angle)] as const;
      });
    const parts = middles.map((x) => solid(jagged(x)));
    const found = sawn({ outline: rectangle(3000, 100), parts, kerf: 0.1 });
    expect(found.sawn).toHaveLength(30);
    for (const [n, { outline }] of found.sawn.entries()) {
      const radii = outline.map(([x, y]) => Math.hypot(x - middles[n], y - 50));
      expect(Math.min(...radii)).toBeGreaterThan(45.1);
      expect(Math.max(...radii)).toBeLessThan(45.14 + 0.04);
    }
    expect(regionsArea([...found.sawn, ...found.rest])).toBeCloseTo(300_000, 1);
  });
});
