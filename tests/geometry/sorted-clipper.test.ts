import ClipperLib, { type Path } from 'clipper-lib';
import { describe, expect, it } from 'vitest';
import { SortedClipper } from '../../src/geometry/sorted-clipper.ts';
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
