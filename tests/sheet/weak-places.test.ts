import { expect, test } from 'vitest';
import { applyToRegion, placementMap } from '../../src/geometry/affine.ts';
import { insideRegion } from '../../src/geometry/ring.ts';
import type { Finding } from '../../src/model/pattern-check.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { boardMarks } from '../../src/sheet/board/board-marks.ts';
import { PartDrawer } from '../../src/sheet/board/part-marks.ts';
import { flatMarks, type LineMark } from '../../src/sheet/marks/marks.ts';
import { box, handBoard, placed } from './hand-layout.ts';

/** A dumbbell: two squares joined by a bridge 3 mm wide, from (20, 18.5) to (20, 21.5) in its middle. */
const region = {
  outline: [
    [0, 10],
    [15, 10],
    [15, 18.5],
    [25, 18.5],
    [25, 10],
    [40, 10],
    [40, 30],
    [25, 30],
    [25, 21.5],
    [15, 21.5],
    [15, 30],
    [0, 30],
  ] as const,
  openings: [],
};
const finding: Finding = {
  kind: 'neck-short-grain',
  severity: 'warning',
  layer: 'Front',
  part: 'dumbbell',
  at: [20, 20],
  span: [
    [20, 18.5],
    [20, 21.5],
  ],
  size: 3,
  limit: 3.2,
  message: '',
  advice: '',
};

test('a weak neck is drawn as a crack across it, on every copy as it lies, off the lines to saw', () => {
  const copies = [
    [[30, 40], 0, false],
    [[150, 90], 137, false],
    [[220, 60], 90, true],
  ] as const;
  const placements = copies.map(([at, rotation, turnedOver]) =>
    placed({
      part: 'dumbbell',
      x: at[0],
      y: at[1],
      rotation,
      turnedOver,
      region: applyToRegion(placementMap(at, rotation, turnedOver), region),
    }),
  );
  const other = placed({ part: 'plate', region: { outline: box(250, 100, 20, 15), openings: [] } });
  const board = handBoard({ placements: [...placements, other] });
  const { marks } = boardMarks(board, {}, new PartDrawer({ findings: [finding] }));
  const cracks = flatMarks(marks).filter(
    (mark): mark is LineMark => mark.kind === 'line' && mark.role === 'weak',
  );
  expect(cracks.length).toBe(copies.length);
  placements.forEach((placement, i) => {
    const outside = referenceRegion({
      outline: box(-500, -500, 1000, 1000),
      openings: [placement.region.outline],
    });
    for (const point of cracks[i].points) {
      expect(insideRegion(point, placement.region)).toBe(true);
      expect(outside.distanceTo(...point)).toBeGreaterThan(0.25);
    }
    const [first, last] = [cracks[i].points[0], cracks[i].points[cracks[i].points.length - 1]];
    // From edge to edge of a neck of 3 mm, less 0.4 mm at both ends.
    expect(Math.hypot(last[0] - first[0], last[1] - first[1])).toBeCloseTo(2.2, 6);
  });
});
