import { boundsOf, type Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { swingOf } from '../stock/sections.ts';
import { clippedToBox, largestOf } from '../stock/trim.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/** Coordinates of a layout are rounded, mm. */
const ROUNDING = 1e-3;

/** A warning for every board with parts that cannot be sawn in every direction within the throat. */
export function throatIssues({ boards }: Layout, throat: number | undefined, unit: DisplayUnit): Issue[] {
  if (throat === undefined) return [];
  return boards.flatMap((board): Issue[] => {
    const swings = board.placements.map((placement) =>
      swingOf(placement.region, pieceUnder(board, placement)),
    );
    const beyond = swings.filter((swing) => swing > throat + 1e-6);
    if (beyond.length === 0) return [];
    return [
      {
        kind: 'part-beyond-throat',
        severity: 'warning',
        message: `${beyond.length} of its ${swings.length} parts cannot be swung all the way round in the throat`,
        expected: `at most ${formatLength(throat, unit)} from the blade to the farthest corner`,
        received: formatLength(Math.max(...beyond), unit),
        remedy: 'Rip or cross-cut the board smaller first, or saw these parts from the edge.',
        where: { board: board.id },
      },
    ];
  });
}

/** The piece of wood that is swung when a part is sawn: its section, or the whole board. */
function pieceUnder({ usable, sections = [] }: LaidBoard, { region }: Placement): Region {
  const part = boundsOf(region.outline);
  const section = sections.find(({ from, to }) => part.minX >= from - ROUNDING && part.maxX <= to + ROUNDING);
  if (section === undefined) return usable;
  const { minY, maxY } = boundsOf(usable.outline);
  return largestOf(clippedToBox(usable, section.from, minY, section.to, maxY));
}
