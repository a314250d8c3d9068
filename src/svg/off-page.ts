import { curveHullBounds } from '../geometry/segment-hull.ts';
import { boxesMeet } from '../geometry/shapes.ts';
import { counted } from '../issues/counted.ts';
import type { Drawing, DrawingGroup } from '../model/drawing.ts';
import { paintedShapes } from '../model/painted-shapes.ts';
import type { SvgElement } from './element.ts';
import type { IssueLog } from './issue-log.ts';

/** Adds one warning when shapes lie wholly beside the page: nobody sees them there, yet they would be cut. */
export function reportOffPage(
  root: SvgElement,
  page: Drawing['page'],
  drawing: DrawingGroup,
  log: IssueLog,
): void {
  if (page === undefined) return;
  const box = { minX: 0, minY: 0, maxX: page.width, maxY: page.height };
  let count = 0;
  let first = '';
  for (const shape of paintedShapes(drawing)) {
    if (shape.curves.some((curve) => boxesMeet(box, curveHullBounds(curve)))) continue;
    if (count === 0) first = shape.element;
    count++;
  }
  if (count === 0) return;
  log.warn(
    'shapes-off-page',
    `${counted(count, 'shape')} ${count === 1 ? 'lies' : 'lie'} wholly off the page`,
    root,
    {
      received: count === 1 ? first : `${first} and others`,
      remedy: 'Delete what is not to be cut.',
    },
  );
}
