import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { DrawnRing } from './drawn-rings.ts';
import { linesWithoutOpening } from './inner-lines.ts';
import type { SourcedLine } from './join-lines.ts';
import { about, PAINTS_NOTHING, TANGLED, tooManyPoints, withoutOpening } from './layer-issues.ts';
import { linesOfShape } from './shape-lines.ts';
import { type LayerPlace, type Solid, solidsOfFill } from './solids.ts';
import { tooTangled } from './tangle.ts';
import { toldWhere } from './told-where.ts';

/** Most points of one layer: far beyond any pattern, and what memory holds without strain. */
const MOST_POINTS = 12_000_000;

/** What the shapes of a layer fill and draw, each by itself. Lengths in finished mm. */
interface LinesOfLayer {
  readonly fills: readonly Solid[];
  readonly drawnRings: readonly DrawnRing[];
  readonly openLines: readonly SourcedLine<DrawingShape>[];
  /** Shapes that are filled, but with nothing large enough to be anything. */
  readonly specks: readonly DrawingShape[];
  readonly issues: readonly Issue[];
}

/**
 * Flattens the shapes of a layer, and tells what each of them fills and draws.
 *
 * @param scale from drawn to finished size
 * @param tolerance greatest distance between flattened lines and the true curves, finished mm
 * @param joinGap ends of lines of one shape up to this far apart are joined, finished mm
 * @throws FretlayError where there are more points than a layer may have
 */
export function linesOfLayer(
  shapes: readonly DrawingShape[],
  scale: number,
  { tolerance, joinGap }: { readonly tolerance: number; readonly joinGap: number },
  place: LayerPlace,
): LinesOfLayer {
  const fills: Solid[] = [];
  const drawnRings: DrawnRing[] = [];
  const openLines: SourcedLine<DrawingShape>[] = [];
  const specks: DrawingShape[] = [];
  const issues: Issue[] = [];
  let points = 0;
  for (const shape of shapes) {
    const { filled, closed, open } = linesOfShape(shape, scale, tolerance, joinGap);
    const rings = [...filled, ...closed.map(({ ring }) => ring)];
    if (tooTangled(rings)) {
      issues.push(about(shape, place, TANGLED));
      continue;
    }
    points += [...rings, ...open].reduce((sum, line) => sum + line.length, 0);
    if (points > MOST_POINTS) {
      throw new FretlayError([about(shape, place, tooManyPoints(points, MOST_POINTS))]);
    }
    const at = { ...place, element: shape.element, line: shape.line };
    const solids = toldWhere(at, () => solidsOfFill(shape, filled));
    const lost = shape.fillRule === 'nonzero' ? linesWithoutOpening(filled, solids) : 0;
    if (lost > 0) issues.push(about(shape, place, withoutOpening(lost)));
    // One by one: a path may have more subpaths than a call takes arguments.
    for (const solid of solids) fills.push(solid);
    for (const { ring, joins } of closed) drawnRings.push({ ring, shape, joins });
    for (const line of open) openLines.push({ line, source: shape });
    if (solids.length + closed.length + open.length === 0) {
      if (filled.length > 0) specks.push(shape);
      else issues.push(about(shape, place, PAINTS_NOTHING));
    }
  }
  return { fills, drawnRings, openLines, specks, issues };
}
