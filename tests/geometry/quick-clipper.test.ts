import ClipperLib, { type Path, type PolyNode } from 'clipper-lib';
import { expect, it } from 'vitest';
import { QuickClipper } from '../../src/geometry/quick-clipper.ts';

/** Corners on a coarse grid in an order by chance: rings that touch at corners, which strictly simple output parts. */
function scribble(count: number, seed: number): Path {
  let state = seed;
  const next = () => {
    state = (state * 48271) % 2147483647;
    return 100 * Math.floor((state / 2147483647) * 12);
  };
  return Array.from({ length: count }, () => ({ X: next(), Y: next() }));
}

function rings(Clipper: typeof ClipperLib.Clipper, path: Path, fill: number): Path[] {
  const clipper = new Clipper(ClipperLib.Clipper.ioStrictlySimple);
  clipper.AddPaths([path], ClipperLib.PolyType.ptSubject, true);
  const tree = new ClipperLib.PolyTree();
  clipper.Execute(ClipperLib.ClipType.ctUnion, tree, fill, fill);
  const from = (node: PolyNode): Path[] =>
    node.Childs().flatMap((child) => [child.Contour(), ...from(child)]);
  return from(tree);
}

it.each([0, 1])('nests rings as the library itself does (fill rule %i)', (fill) => {
  for (let seed = 1; seed <= 4; seed++) {
    const path = scribble(40, seed);
    const expected = rings(ClipperLib.Clipper, path, fill);
    expect(expected.length).toBeGreaterThan(8);
    expect(JSON.stringify(rings(QuickClipper, path, fill))).toBe(JSON.stringify(expected));
  }
});
