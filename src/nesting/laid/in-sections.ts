import { boundsOf, type Point } from '../../geometry/shapes.ts';
import type { Batch } from '../../model/batch.ts';
import type { Placement, Section } from '../../model/layout.ts';
import { USUAL_CROSSCUT_KERF, USUAL_KEEP } from '../../stock/keep-rule.ts';
import { withoutNeedlessCuts } from '../../stock/needless-cuts.ts';
import { type SectionPlan, sectionReach } from '../../stock/sections.ts';
import { type Cell, tightened } from '../../stock/tighten-sections.ts';
import { marginOf } from '../groups/board-margin.ts';
import { gapOf, type StockPiece } from '../groups/group.ts';
import { rounded } from './placement-of.ts';

/** Where a board is cross-cut in the end: its lines go by what came to lie between them. */

/** What lies on a board, and the sections it is cut to, numbered from the left. */
export interface InSections {
  readonly sections: readonly Section[];
  readonly placements: readonly Placement[];
}

/** The sections drawn together around what lies in them; neighbours that need no cut between them stay in one piece. */
export function inSections(
  batch: Batch,
  { sections: plans, kind }: StockPiece,
  placements: readonly Placement[],
  mayShift: boolean,
): InSections {
  const { crosscutKerf: kerf = USUAL_CROSSCUT_KERF, keep = USUAL_KEEP, reach } = batch;
  const cells = cellsOf(plans, placements);
  const tight = tightened(kind.usable, cells, { margin: marginOf(batch), kerf, mayShift });
  const carrying = tight.filter(({ carries }) => carries !== undefined);
  const before = cells.filter(({ carries }) => carries !== undefined);
  const moved = placements.map((placement): Placement => {
    const { minX, maxX } = boundsOf(placement.region.outline);
    const home = before.findIndex(({ from, to }) => minX < to && maxX > from);
    return movedAlong(placement, home < 0 ? 0 : carrying[home].shift);
  });
  const longest = reach === undefined ? Number.POSITIVE_INFINITY : sectionReach(kind.usable, reach);
  const sections = withoutNeedlessCuts(tight, { longest, keepLength: keep.length, gap: gapOf(batch) });
  return { sections: sections.map((section, i) => ({ number: i + 1, ...section })), placements: moved };
}

function cellsOf(plans: readonly SectionPlan[], placements: readonly Placement[]): Cell[] {
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const cells: Cell[] = [];
  for (const { from, to } of plans) {
    const own = boxes.filter(({ minX, maxX }) => minX < to && maxX > from);
    const carries =
      own.length === 0
        ? undefined
        : {
            minX: Math.min(...own.map(({ minX }) => minX)),
            maxX: Math.max(...own.map(({ maxX }) => maxX)),
          };
    const before = cells[cells.length - 1];
    if (before !== undefined && before.carries === undefined && carries === undefined)
      cells[cells.length - 1] = { ...before, to };
    else cells.push({ from, to, carries });
  }
  return cells;
}

function movedAlong(placement: Placement, shift: number): Placement {
  if (shift === 0) return placement;
  const along = ([x, y]: Point): Point => [rounded(x + shift), y];
  const { region, veins } = placement;
  return {
    ...placement,
    x: rounded(placement.x + shift),
    region: { outline: region.outline.map(along), openings: region.openings.map((ring) => ring.map(along)) },
    veins: veins.map((vein) => vein.map(along)),
  };
}
