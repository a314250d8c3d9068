import { combineRegions } from '../../geometry/clipper.ts';
import { insidePoint } from '../../geometry/inside-point.ts';
import { type Box, boundsOf, type Region } from '../../geometry/shapes.ts';
import type { AssemblyPlan } from '../../model/assembly.ts';
import type { Pattern } from '../../model/pattern.ts';
import { formatThickness } from '../../units/distances.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { line, type Mark, type MarkedDrawing, rectangle, rings, text } from '../marks/marks.ts';
import { textWidth } from '../marks/text-width.ts';
import { pictureNumber } from './picture-number.ts';

/** Room between the two views as a share of the width. */
const BETWEEN = 0.08;
/** Depths are written in rows below the side view, each so many times its size below the one before. */
const ROW = 1.5;

/**
 * The finished piece from the front, parts from the back to the front with their numbers in the order of gluing and
 * the places for glue dashed; beside it from the side, each part as deep as it is, the depths written below.
 */
export function assemblyPicture(pattern: Pattern, plan: AssemblyPlan, unit: DisplayUnit): MarkedDrawing {
  const regions = plan.parts.map(({ layer, part }) => regionOf(pattern, layer, part));
  const box = boundsOf(regions.flatMap(({ outline }) => outline));
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY, 1) / 45;
  const side = box.maxX + BETWEEN * (box.maxX - box.minX);
  const border = size;
  const floor = plan.restPlane ?? box.maxY;
  const depths = depthMarks(plan, { side, below: Math.max(box.maxY, floor), size: 0.7 * size, unit });
  const left = Math.min(box.minX, depths.left);
  return {
    x: left - border,
    y: box.minY - border,
    width: depths.right - left + 2 * border,
    height: depths.bottom - box.minY + 2 * border,
    marks: [
      ...regions.map(({ outline, openings }) => rings('picture-part', outline, ...openings)),
      ...plan.joints.flatMap(({ glue }) =>
        glue.map(({ outline, openings }) => rings('map-page', outline, ...openings)),
      ),
      ...regions.flatMap((_, i) => numberOf(i, regions, size)),
      ...sideView(
        regions.map(({ outline }) => boundsOf(outline)),
        plan,
        side,
      ),
      line('rule', [box.minX, floor], [side + plan.depth, floor]),
      ...depths.marks,
    ],
  };
}

function sideView(boxes: readonly Box[], { parts }: AssemblyPlan, side: number): Mark[] {
  return parts.map(({ back, front }, i) =>
    rings('picture-part', rectangle(side + back, boxes[i].minY, front - back, boxes[i].maxY - boxes[i].minY)),
  );
}

/** Where the depths are written. */
interface DepthScale {
  readonly side: number;
  readonly below: number;
  readonly size: number;
  readonly unit: DisplayUnit;
}

/** A depth as it is written: from where to where, in which row from 0, and its tick at the right end. */
interface WrittenDepth {
  readonly words: string;
  readonly from: number;
  readonly tick: number;
  readonly row: number;
}

/** A tick at every depth where a part begins or ends, and the depth in the first row where it finds room. */
function depthMarks(
  { parts }: AssemblyPlan,
  { side, below, size, unit }: DepthScale,
): { marks: Mark[]; left: number; right: number; bottom: number } {
  const depths = new Map(
    parts.flatMap(({ back, front }) => [back, front]).map((depth) => [formatThickness(depth, unit), depth]),
  );
  const written: WrittenDepth[] = [];
  for (const [words, depth] of [...depths].sort(([, a], [, b]) => a - b)) {
    // Each ends at its tick: the ticks of greater depths, which go further down, then run past it.
    const tick = side + depth;
    const from = tick - textWidth(words, size);
    const barred = (row: number) => written.some((other) => other.row >= row && other.tick + size / 2 > from);
    let row = 0;
    while (barred(row)) row++;
    written.push({ words, from, tick, row });
  }
  const marks = written.flatMap(({ words, tick, row }): Mark[] => {
    const baseline = below + (row + 1) * ROW * size;
    return [
      line('rule', [tick, below], [tick, baseline - size]),
      text('text', words, [tick, baseline], size, 'end'),
    ];
  });
  const rows = Math.max(0, ...written.map(({ row }) => row + 1));
  return {
    marks,
    left: Math.min(side, ...written.map(({ from }) => from)),
    right: Math.max(side, ...written.map(({ tick }) => tick)),
    bottom: below + rows * ROW * size,
  };
}

/** The number of a part where most of it shows; none when the parts in front hide it. */
function numberOf(index: number, regions: readonly Region[], largest: number): Mark[] {
  const showing = combineRegions('difference', [regions[index]], regions.slice(index + 1));
  const [best] = showing.map((region) => insidePoint(region, 0.5)).sort((a, b) => b.radius - a.radius);
  return best === undefined ? [] : [pictureNumber(index + 1, best, largest)];
}

function regionOf(pattern: Pattern, layer: string, part: string): Region {
  const drawn = pattern.layers.find(({ name }) => name === layer)?.parts.find(({ name }) => name === part);
  return drawn?.region ?? { outline: [], openings: [] };
}
