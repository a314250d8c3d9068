import { clipLines } from '../../geometry/clip-lines.ts';
import { boundsOf, type Line, type Region } from '../../geometry/shapes.ts';

/**
 * Hatching as real lines, so that it prints the same from every program: parallel lines at 45 degrees rising to
 * the right, cut off at the edges of the regions.
 *
 * @param spacing distance between the lines, mm
 */
export function hatchLines(regions: readonly Region[], spacing: number): Line[] {
  const { minX, minY, maxX, maxY } = boundsOf(regions.flatMap((region) => region.outline));
  if (!(maxX > minX && maxY > minY)) return [];
  // The lines x + y = k step, the same for every region of the sheet.
  const step = spacing * Math.SQRT2;
  const lines: Line[] = [];
  for (let k = Math.ceil((minX + minY) / step); k * step <= maxX + maxY; k++) {
    const sum = k * step;
    lines.push([
      [sum - maxY, maxY],
      [sum - minY, minY],
    ]);
  }
  return clipLines(lines, regions);
}
