import { combineRegions, regionsFromRings } from '../../src/geometry/clipper.ts';
import { flattenCurve } from '../../src/geometry/flatten.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import { type Box, boundsOf, type Region } from '../../src/geometry/shapes.ts';
import type { Drawing, DrawingGroup, DrawingShape } from '../../src/model/drawing.ts';
import { readDrawing } from '../../src/svg/read-drawing.ts';

/** What tests ask of a drawing: plain measures of what is painted, by the project's own geometry. */

/** Wraps elements into a page of 100 x 100 mm on which a user unit is a millimetre. */
export function page(body: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${body}</svg>`;
}

/** Reads elements on that page and demands that nothing was reported but the announced kinds. */
export function readClean(body: string, announced: readonly string[] = []): Drawing {
  const { drawing, issues } = readDrawing(page(body));
  const surprises = issues.filter(({ kind }) => !announced.includes(kind));
  if (surprises.length > 0)
    throw new Error(surprises.map(({ kind, message }) => `${kind}: ${message}`).join('; '));
  return drawing;
}

/** The shapes that show: those in groups that are switched off are passed over. */
export function paintedShapes(group: DrawingGroup): DrawingShape[] {
  if (!group.visible) return [];
  return group.children.flatMap((child) => (child.kind === 'shape' ? [child] : paintedShapes(child)));
}

/** Every group of a drawing, the root first. */
export function groupsOf(group: DrawingGroup): DrawingGroup[] {
  return [group, ...group.children.flatMap((child) => (child.kind === 'group' ? groupsOf(child) : []))];
}

/** The filled regions of all shapes together. */
export function filledRegions(drawing: Drawing, tolerance = 1e-4): Region[] {
  const regions = paintedShapes(drawing.root)
    .filter(({ fill }) => fill !== 'none')
    .flatMap(({ curves, fillRule }) =>
      regionsFromRings(
        curves.map((curve) => flattenCurve(curve, tolerance)).filter((ring) => ring.length > 2),
        fillRule,
      ),
    );
  return regions.length === 0 ? [] : combineRegions('union', regions, []);
}

/** Filled area in mm2, overlaps counted once. */
export function filledArea(drawing: Drawing, tolerance = 1e-4): number {
  return filledRegions(drawing, tolerance).reduce((sum, region) => sum + regionArea(region), 0);
}

/** The box around all shapes that show, by their flattened curves. */
export function paintedBounds(drawing: Drawing): Box {
  return boundsOf(
    paintedShapes(drawing.root).flatMap(({ curves }) => curves.flatMap((curve) => flattenCurve(curve, 1e-5))),
  );
}
