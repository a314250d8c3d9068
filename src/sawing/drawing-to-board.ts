import type { Point } from '../geometry/shapes.ts';
import type { Placement } from '../model/layout.ts';

/** Where a point of the drawing lies on the board: turned over, rotated, then moved. */
export function drawingToBoard(
  [x, y]: Point,
  placement: Pick<Placement, 'x' | 'y' | 'rotation' | 'turnedOver'>,
): Point {
  const angle = (placement.rotation * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const mirrored = placement.turnedOver ? -x : x;
  return [placement.x + cos * mirrored - sin * y, placement.y + sin * mirrored + cos * y];
}
