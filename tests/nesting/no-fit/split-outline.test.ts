import { expect, test } from 'vitest';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { regionsArea, ringArea } from '../../../src/geometry/ring.ts';
import type { Point, Ring } from '../../../src/geometry/shapes.ts';
import { splitOutline } from '../../../src/nesting/no-fit/split-outline.ts';
import { lastOf } from '../../../src/nesting/running/steps.ts';

/** So many pointed teeth, 100 mm long and 2 mm wide, side by side on a back of 4 mm; `upright` with the teeth down. */
function comb(teeth: number, upright: boolean): Ring {
  const edge = Array.from({ length: teeth }, (_, i): Point[] => [
    [4, 2 * i],
    [104, 2 * i + 1],
  ]).flat();
  const ring: Point[] = [[0, 0], ...edge, [4, 2 * teeth], [0, 2 * teeth]];
  return upright ? ring.map(([x, y]): Point => [y, x]) : ring;
}

test('a comb that is longer along its teeth is cut between them: across all of them no piece would be shorter', () => {
  for (const upright of [false, true]) {
    const whole = comb(40, upright);
    const pieces = lastOf(splitOutline(whole, 60));
    expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(65);
    expect(pieces.length).toBeGreaterThan(1);
    const united = combineRegions(
      'union',
      pieces.map((outline) => ({ outline, openings: [] })),
      [],
    );
    expect(regionsArea(united)).toBeCloseTo(ringArea(whole), 3);
  }
});
