import { insidePoint } from '../geometry/inside-point.ts';
import { type Box, boundsOf, type Region } from '../geometry/shapes.ts';
import type { AssemblyPlan } from '../model/assembly.ts';
import type { Pattern } from '../model/pattern.ts';
import { line, type Mark, type MarkedDrawing, rectangle, rings, text } from './marks/marks.ts';

/** Room between the two views as a share of the width. */
const BETWEEN = 0.08;

/**
 * The finished piece from the front, parts from the back to the front with their numbers in the order of gluing and
 * the places for glue dashed; beside it from the side, each part as deep as it is.
 */
export function assemblyPicture(pattern: Pattern, plan: AssemblyPlan): MarkedDrawing {
  const regions = plan.parts.map(({ layer, part }) => regionOf(pattern, layer, part));
  const box = boundsOf(regions.flatMap(({ outline }) => outline));
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY, 1) / 45;
  const side = box.maxX + BETWEEN * (box.maxX - box.minX);
  const border = size;
  const floor = plan.restPlane ?? box.maxY;
  return {
    x: box.minX - border,
    y: box.minY - border,
    width: side + plan.depth - box.minX + 2 * border,
    height: box.maxY - box.minY + 2 * border,
    marks: [
      ...regions.map(({ outline, openings }) => rings('picture-part', outline, ...openings)),
      ...plan.joints.flatMap(({ glue }) =>
        glue.map(({ outline, openings }) => rings('map-page', outline, ...openings)),
      ),
      ...regions.map((region, i) => numberAt(region, i + 1, size)),
      ...sideView(
        regions.map(({ outline }) => boundsOf(outline)),
        plan,
        side,
      ),
      line('rule', [box.minX, floor], [side + plan.depth, floor]),
    ],
  };
}

function sideView(boxes: readonly Box[], { parts }: AssemblyPlan, side: number): Mark[] {
  return parts.map(({ back, front }, i) =>
    rings('picture-part', rectangle(side + back, boxes[i].minY, front - back, boxes[i].maxY - boxes[i].minY)),
  );
}

function numberAt(region: Region, number: number, largest: number): Mark {
  const { at, radius } = insidePoint(region, 0.5);
  const size = Math.max(largest / 2, Math.min(largest, 1.2 * radius));
  return text('picture-number', `${number}`, [at[0], at[1] + 0.36 * size], size, 'middle');
}

function regionOf(pattern: Pattern, layer: string, part: string): Region {
  const drawn = pattern.layers.find(({ name }) => name === layer)?.parts.find(({ name }) => name === part);
  return drawn?.region ?? { outline: [], openings: [] };
}
