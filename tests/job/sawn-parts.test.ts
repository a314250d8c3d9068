import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/geometry/curve.ts';
import { sawnParts } from '../../src/job/sawn-parts.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { blocksJoinedBy, box, circle, drawing, group, polygon, shape } from '../pattern/drawn.ts';

const sawn = (layers: Record<string, Curve[]>) => {
  const groups = Object.entries(layers).map(([label, curves]) =>
    group([shape(curves, { id: 'p', fillRule: 'evenodd' })], { label, isLayer: true }),
  );
  const { pattern } = patternFromDrawing(drawing(groups));
  return sawnParts(pattern, checkPattern(pattern));
};

describe('what the plan is told of the parts', () => {
  it('is that of the part of its own layer, where parts of two layers have one name', () => {
    const parts = sawn({ Back: [box(0, 0, 60, 60)], Front: [polygon([0, 0], [60, 0], [30, 60])] });
    expect(parts.map(({ layer, part, sharpTurns }) => [layer, part, sharpTurns])).toEqual([
      ['Back', 'p', 4],
      ['Front', 'p', 3],
    ]);
    // A bar 1.4 mm wide in the one, none in the other.
    const necks = sawn({
      Back: [blocksJoinedBy(1.4)],
      Front: [box(0, 0, 60, 60)],
    });
    expect(necks.map(({ thinnestNeck }) => thinnestNeck)).toEqual([expect.closeTo(1.4, 3), undefined]);
  });

  it('is the thinnest of several necks, and where it is', () => {
    // An opening 10 mm from the edges but 1.5 mm from the upper and 1 mm from the lower one.
    const [{ thinnestNeck, neckAt }] = sawn({ Back: [box(0, 0, 60, 60), box(10, 1.5, 40, 57.5)] });
    expect(thinnestNeck).toBeCloseTo(1, 3);
    expect(neckAt?.[1]).toBeCloseTo(59.5, 2);
  });

  it('is the tightest bend of each ring, of the outline first; none where all bends are wide', () => {
    const [{ tightestBends }] = sawn({
      Back: [circle(100, 100, 60), circle(70, 100, 12), circle(100, 100, 4), circle(130, 100, 2)],
    });
    expect(tightestBends).toEqual([undefined, undefined, expect.closeTo(4, 1), expect.closeTo(2, 1)]);
  });
});
