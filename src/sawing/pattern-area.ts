import { combineRegions } from '../geometry/clipper.ts';
import { regionArea } from '../geometry/ring.ts';
import { boundsOf, boxRing } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';

/** Paper left around a part where its pattern is cut out, mm: as the pages of single parts show it. */
const AROUND = 3;

/**
 * Area of the patterns stuck on boards, mm2: the boxes of the parts with some paper around, where boxes meet counted
 * once. Bare wood carries no paper, so a sheet that is nearly empty costs no more than a board that is full. A stack has
 * its pattern on the topmost board alone; boards that are sawn alike one after the other have one each.
 */
export function patternArea(boards: readonly LaidBoard[]): number {
  return boards.reduce((sum, board) => sum + timesStuck(board) * areaOn(board), 0);
}

function timesStuck({ copies, pieces }: LaidBoard): number {
  return copies / (pieces?.length ?? 1);
}

function areaOn({ placements }: LaidBoard): number {
  const boxes = placements.map(({ region }) => {
    const { minX, minY, maxX, maxY } = boundsOf(region.outline);
    const box = { minX: minX - AROUND, minY: minY - AROUND, maxX: maxX + AROUND, maxY: maxY + AROUND };
    return { outline: boxRing(box), openings: [] };
  });
  return combineRegions('union', boxes, []).reduce((area, covered) => area + regionArea(covered), 0);
}
