import { combineRegions } from '../geometry/clipper.ts';
import { regionBounds, regionsArea } from '../geometry/ring.ts';
import { boxRing, grownBox } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';
import { PAPER_AROUND } from '../model/paper-around.ts';
import { timesSawn } from '../model/stack-of.ts';

/**
 * Area of the patterns stuck on boards, mm2: the boxes of the parts with some paper around, where boxes meet counted
 * once. Bare wood carries no paper, so a sheet that is nearly empty costs no more than a board that is full. A stack has
 * its pattern on the topmost board alone; boards that are sawn alike one after the other have one each.
 */
export function patternArea(boards: readonly LaidBoard[]): number {
  return boards.reduce((sum, board) => sum + timesSawn(board) * areaOn(board), 0);
}

function areaOn({ placements }: LaidBoard): number {
  const boxes = placements.map(({ region }) => ({
    outline: boxRing(grownBox(regionBounds(region), PAPER_AROUND)),
    openings: [],
  }));
  return regionsArea(combineRegions('union', boxes, []));
}
