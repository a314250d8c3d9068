import { combineRegions } from '../../geometry/clipper.ts';
import { regionArea, ringArea } from '../../geometry/ring.ts';
import { boundsOf, boxRing, type Region, type Ring } from '../../geometry/shapes.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { hatchLines } from '../marks/hatch.ts';
import { line, type Mark, rings } from '../marks/marks.ts';

/** Smaller differences between outlines are rounding, mm2. */
const SOME_WOOD = 1;

/** Distance of the lines over a defect, mm: wider than in waste, and on grey, for a knot must not be taken for an opening to saw. */
const HATCH = 3;

/**
 * The board itself: its edge, the lines it is trimmed to, and its defects. A crack that is open to an edge is a defect like a knot
 * and no trim: nobody can trim a board along a crack.
 */
export function stockMarks(board: LaidBoard): Mark[] {
  const { usable, outline: whole = usable.outline, trimmed } = board;
  const isWhole = ringArea(whole) - ringArea(usable.outline) <= SOME_WOOD;
  const left = isWhole ? [solid(usable.outline)] : afterTrim(board, whole);
  const defects = [...usable.openings.map(solid), ...(isWhole ? [] : spoilt(board, left))];
  return [
    rings('board-edge', whole),
    ...(trimmed === undefined ? [] : left.map(({ outline }) => rings('usable-edge', outline))),
    ...defects.map(({ outline, openings }) => rings('defect', outline, ...openings)),
    ...hatchLines(defects, HATCH).map((points) => line('defect-hatch', ...points)),
  ];
}

/** What is left of a board when its edges are ripped and its ends are cross-cut. */
function afterTrim({ trimmed }: LaidBoard, whole: Ring): readonly Region[] {
  if (trimmed === undefined) return [solid(whole)];
  const { minX, minY, maxX, maxY } = boundsOf(whole);
  const box = {
    minX: minX + trimmed.leftEnd,
    minY: minY + trimmed.topEdge,
    maxX: maxX - trimmed.rightEnd,
    maxY: maxY - trimmed.straightEdge,
  };
  return sizeable(combineRegions('intersection', [solid(whole)], [solid(boxRing(box))]));
}

/** What nothing may lie on though the trim leaves it: cracks from the edge, and what such a crack parts from the board, but keepers. */
function spoilt({ usable, offcuts = [] }: LaidBoard, left: readonly Region[]): readonly Region[] {
  const sound = [solid(usable.outline), ...offcuts.map(({ region }) => region)];
  return sizeable(combineRegions('difference', left, sound));
}

function sizeable(regions: readonly Region[]): readonly Region[] {
  return regions.filter((region) => regionArea(region) > SOME_WOOD);
}

function solid(outline: Ring): Region {
  return { outline, openings: [] };
}
