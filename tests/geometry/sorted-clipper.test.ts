import ClipperLib, { type OutPoint, type Path, type PolyNode } from 'clipper-lib';
import { describe, expect, it } from 'vitest';
import { SortedClipper } from '../../src/geometry/sorted-clipper.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { seeded } from '../seeded.ts';

describe('minima sorted once', () => {
  it('clip to the same points, in the same order, as the library does', () => {
    const random = seeded(7);
    // A coarse grid, where minima often lie as high as one another, and sides lie on one another.
    const ring = (): Path =>
      Array.from({ length: 6 }, () => ({ X: Math.floor(random() * 12), Y: Math.floor(random() * 12) }));
    let points = 0;
    for (let i = 0; i < 60; i++) {
      const [subject, clip] = [Array.from({ length: 4 }, ring), Array.from({ length: 3 }, ring)];
      const clipped = (clipper: InstanceType<typeof ClipperLib.Clipper>): Path[] => {
        clipper.AddPaths(subject, 0, true);
        clipper.AddPaths(clip, 1, true);
        const found: Path[] = [];
        clipper.Execute(1, found, i % 2, 1);
        return found;
      };
      const found = clipped(new SortedClipper());
      expect(found).toEqual(clipped(new ClipperLib.Clipper()));
      points += found.flat().length;
    }
    expect(points).toBeGreaterThan(60);
  });

  it('are forgotten where a clipping is cleared', () => {
    const clipper = new SortedClipper();
    const found: Path[] = [];
    const triangle = [
      { X: 0, Y: 0 },
      { X: 9, Y: 0 },
      { X: 0, Y: 9 },
    ];
    clipper.AddPaths([triangle], 0, true);
    clipper.Execute(1, found, 1, 1);
    expect(found).toHaveLength(1);
    clipper.Clear();
    clipper.Execute(1, found, 1, 1);
    expect(found).toHaveLength(0);
  });
});

/** Rings on a coarse grid, which touch themselves and one another at many points. */
function tangles(seed: number, count: number): Path[] {
  const random = seeded(seed);
  return Array.from({ length: count }, () =>
    Array.from({ length: 14 }, () => ({ X: Math.floor(random() * 9), Y: Math.floor(random() * 9) })),
  );
}

describe('outlines parted where they touch themselves', () => {
  it('come out as the library parts them, each in the same one', () => {
    let nested = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const subject = tangles(seed, 1 + (seed % 5));
      const parted = (clipper: InstanceType<typeof ClipperLib.Clipper>): unknown => {
        clipper.AddPaths(subject, 0, true);
        const tree = new ClipperLib.PolyTree();
        clipper.Execute(1, tree, seed % 2, 1);
        const listed = (node: PolyNode): unknown => [node.Contour(), node.Childs().map(listed)];
        nested += tree.Childs().filter((node) => node.Childs().length > 0).length;
        return tree.Childs().map(listed);
      };
      const { ioStrictlySimple } = ClipperLib.Clipper;
      expect(parted(new SortedClipper(ioStrictlySimple))).toEqual(
        parted(new ClipperLib.Clipper(ioStrictlySimple)),
      );
    }
    expect(nested).toBeGreaterThan(100);
  });

  it('are given up where going along them takes too long', () => {
    const subject = tangles(3, 40);
    const parted = (most: number) => {
      const clipper = new SortedClipper(ClipperLib.Clipper.ioStrictlySimple, most);
      clipper.AddPaths(subject, 0, true);
      const found: Path[] = [];
      clipper.Execute(1, found, 0, 1);
      return found.length;
    };
    expect(parted(1e8)).toBeGreaterThan(0);
    expect(() => parted(100)).toThrow(FretlayError);
  });

  it('are given up also where one lies on the other, and each of its points is looked for along it', () => {
    const points = Array.from({ length: 1000 }, (_, i) => ({ Pt: { X: i, Y: i * i } }) as OutPoint);
    points.forEach((point, i) => {
      point.Next = points[(i + 1) % 1000];
      point.Prev = points[(i + 999) % 1000];
    });
    const holds = (most: number) => new SortedClipper(0, most).Poly2ContainsPoly1(points[0], points[0]);
    expect(holds(2e6)).toBe(true);
    expect(() => holds(1e5)).toThrow(FretlayError);
  });

  it('are given up where too many edges reach across the heights of too many points', () => {
    // 200 upright slats: 400 edges reach across each of 400 heights, 160,000 in all.
    const slats = Array.from({ length: 200 }, (_, i): Path => {
      const x = 20 * i;
      return [
        { X: x, Y: i },
        { X: x + 10, Y: i },
        { X: x + 10, Y: 10_000 + i },
        { X: x, Y: 10_000 + i },
      ];
    });
    const united = (most: number) => {
      const clipper = new SortedClipper(0, 1e9, most);
      clipper.AddPaths(slats, 0, true);
      const found: Path[] = [];
      clipper.Execute(1, found, 1, 1);
      return found.length;
    };
    expect(united(200_000)).toBe(200);
    expect(() => united(50_000)).toThrow(FretlayError);
  });
});
