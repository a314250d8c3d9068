import { createRequire } from 'node:module';
import type { Path } from 'clipper-lib';
import { describe, expect, it } from 'vitest';
import { ClipperLib } from '../../src/geometry/clipper-minima.ts';
import { seeded } from '../seeded.ts';

/** The library as it comes, untouched by ours: a copy of its own, as its module is run once more. */
function untouched(): typeof ClipperLib {
  const require = createRequire(import.meta.url);
  delete require.cache[require.resolve('clipper-lib')];
  return require('clipper-lib');
}

describe('minima sorted once', () => {
  it('clip to the same points, in the same order, as the library does', () => {
    const plain = untouched();
    expect(plain.Clipper.prototype.Reset).not.toBe(ClipperLib.Clipper.prototype.Reset);
    const random = seeded(7);
    // A coarse grid, where minima often lie as high as one another, and sides lie on one another.
    const ring = (): Path =>
      Array.from({ length: 6 }, () => ({ X: Math.floor(random() * 12), Y: Math.floor(random() * 12) }));
    for (let i = 0; i < 60; i++) {
      const [subject, clip] = [Array.from({ length: 4 }, ring), Array.from({ length: 3 }, ring)];
      const run = (library: typeof ClipperLib): Path[] => {
        const clipper = new library.Clipper();
        clipper.AddPaths(subject, 0, true);
        clipper.AddPaths(clip, 1, true);
        const found: Path[] = [];
        clipper.Execute(1, found, i % 2, 1);
        return found;
      };
      expect(run(ClipperLib)).toEqual(run(plain));
    }
  });

  it('are forgotten where a clipping is cleared', () => {
    const clipper = new ClipperLib.Clipper();
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
