import { expect, test } from 'vitest';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import { leaveTab } from '../../src/sawing/tab.ts';
import { PartDrawer } from '../../src/sheet/board/part-marks.ts';
import { placed } from './hand-layout.ts';

/** More than a call takes arguments. */
const POINTS = 200_000;

/** A circle about (60, 60), mm. */
function circle(radius: number): Ring {
  return Array.from({ length: POINTS }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / POINTS;
    return [60 + radius * Math.cos(angle), 60 + radius * Math.sin(angle)];
  });
}

test('an outline and a vein of very many points are drawn, and keep a tab', () => {
  const part = placed({ region: { outline: circle(50), openings: [] }, veins: [circle(30)] });
  const { marks } = new PartDrawer().draw(part, [part]);
  const vein = marks.find((mark) => mark.kind === 'line' && mark.role === 'vein');
  expect(vein).toMatchObject({ points: { length: POINTS } });
  const tabbed = leaveTab(part.region.outline, 0.1);
  expect(tabbed?.tab.length).toBeGreaterThan(2);
});
