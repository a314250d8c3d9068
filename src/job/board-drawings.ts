import { combineRegions } from '../geometry/clipper.ts';
import { mapCurve } from '../geometry/curve.ts';
import { flattenCurve } from '../geometry/flatten.ts';
import { ringArea, withoutRepeats } from '../geometry/ring.ts';
import { boundsOf, type Ring } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingGroup } from '../model/drawing.ts';
import { readDrawing } from '../svg/read-drawing.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';

/** Boards that are traced in an SVG: the largest closed line is the outline, those inside it are knots. */

/** Greatest distance in mm between the flattened outline and the true curves. */
const TOLERANCE = 0.05;

/** Points nearer than this, mm, are one point. */
const SAME_POINT = 1e-4;

/**
 * Puts outlines and knots in place of drawings. The box of the outline comes to lie at the origin.
 *
 * @param texts text of every drawing by the name the entry gives
 * @param field name of the list in messages
 */
export function withOutlines(
  entries: readonly JobBoard[],
  texts: Readonly<Record<string, string>>,
  file: string,
  field: string,
): { readonly boards: JobBoard[]; readonly issues: Issue[] } {
  const issues: Issue[] = [];
  const boards = entries.map((entry, i): JobBoard => {
    if (entry.drawing === undefined) return entry;
    const name = entry.drawing.file;
    const place = `${entryField(field, entries, i)}.drawing`;
    if (!Object.hasOwn(texts, name)) {
      issues.push(unusable(`the drawing "${name}" is not at hand`, file, place));
      return entry;
    }
    const read = readDrawing(texts[name], { file: name });
    issues.push(...read.issues);
    if (read.drawing.page === undefined) {
      issues.push(unusable(`the drawing "${name}" states no physical size`, file, place));
      return entry;
    }
    const [outline, ...inside] = closedRings(read.drawing.root, entry.drawing.scale).sort(
      (a, b) => ringArea(b) - ringArea(a),
    );
    if (outline === undefined) {
      issues.push(unusable(`the drawing "${name}" has no closed line`, file, place));
      return entry;
    }
    const { minX, minY } = boundsOf(outline);
    const moved = (ring: Ring) => ring.map(([x, y]): [number, number] => [x - minX, y - minY]);
    // A crack may cross the board without a single corner on it, so the overlap decides.
    const wood = [{ outline, openings: [] }];
    const knots = inside.filter(
      (ring) => combineRegions('intersection', wood, [{ outline: ring, openings: [] }]).length > 0,
    );
    const { drawing: _, ...rest } = entry;
    return {
      ...rest,
      outline: moved(outline),
      defects: [...entry.defects, ...knots.map((ring) => ({ outline: moved(ring) }))],
    };
  });
  return { boards, issues };
}

function unusable(message: string, file: string, field: string): Issue {
  return {
    kind: 'board-drawing-unusable',
    severity: 'error',
    message,
    expected: 'an SVG with the outline of the board as a closed line',
    remedy: 'Draw the outline as one closed line and the knots as closed lines inside it.',
    where: { file, field },
  };
}

/** All closed lines of the shapes that are switched on, flattened. */
function closedRings(group: DrawingGroup, scale: number): Ring[] {
  if (!group.visible) return [];
  return group.children.flatMap((child) => {
    if (child.kind === 'group') return closedRings(child, scale);
    return child.curves.flatMap((curve) => {
      const points = flattenCurve(mapCurve([scale, 0, 0, scale, 0, 0], curve), TOLERANCE);
      const ring = withoutRepeats(points, SAME_POINT);
      const closes = curve.closed || child.fill !== 'none';
      return closes && ring.length >= 3 && ringArea(ring) > 1 ? [ring] : [];
    });
  });
}
