import { applyToRing } from '../../geometry/affine.ts';
import { regionArea } from '../../geometry/ring.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import { USUAL_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { partingsAround, partingsOf, type SectionPlan, sectionReach } from '../../stock/sections.ts';
import { allowedLies, turn } from '../problem/orientations.ts';
import { marginOf } from './board-margin.ts';
import { boardNameOf, type Group, gapOf, type StockKind } from './group.ts';
import { wholePieces } from './pieces.ts';
import { pinnedStretches } from './pinned.ts';

/** Ways to cross-cut the boards of a group that ask for no layout yet. */

/** Parts whose rows give lengths of section to try. */
const ROWS_TRIED = 2;

/** A section is so much longer than the row in it, mm: lengths are cut to the grid of layouts. */
const ROW_PLAY = 0.01;

/** The boards with the ways to part them, those that rows of the demanded parts fill among them. */
export function withPartings(
  batch: Batch,
  demands: readonly Demand[],
  stock: readonly StockKind[],
): StockKind[] {
  const { reach, crosscutKerf: kerf = USUAL_CROSSCUT_KERF } = batch;
  if (reach === undefined) return [...stock];
  return stock.map((kind): StockKind => {
    if (kind.usable.outline.length === 0) return kind;
    const filled = filledLengths(batch, demands, sectionReach(kind.usable, reach));
    const partings = partingsOf(kind.usable, { reach, kerf, filled });
    return { ...kind, sections: partings[0], partings };
  });
}

/**
 * Ways to part the boards on which copies are pinned, by the name of the board: no line runs through one or nearer to it
 * than the edge margin. For one that stays whole that is one way, without sections: it stays so too where other boards are cut for
 * a shallower throat.
 */
export function partingsAroundPins(
  batch: Batch,
  group: Group,
  taken: ReadonlySet<string>,
): Map<string, readonly (readonly SectionPlan[])[]> {
  const { reach, crosscutKerf: kerf = USUAL_CROSSCUT_KERF } = batch;
  const ways = new Map<string, readonly (readonly SectionPlan[])[]>();
  if (reach === undefined || group.pins.length === 0) return ways;
  const margin = marginOf(batch);
  for (const piece of wholePieces(group, taken)) {
    if (piece.pinned.length === 0) continue;
    const around = partingsAround(piece.usable, pinnedStretches(piece.pinned, margin), { reach, kerf });
    ways.set(boardNameOf(piece), around);
  }
  return ways;
}

/** Lengths of section up to `longest` that rows of the two parts with most wood in them fill, mm. */
export function filledLengths(batch: Batch, demands: readonly Demand[], longest: number): number[] {
  const gap = gapOf(batch);
  const margins = 2 * marginOf(batch);
  const wood = ({ region, copiesPerSet }: Demand) => copiesPerSet * regionArea(region);
  const main = [...demands].sort((a, b) => wood(b) - wood(a)).slice(0, ROWS_TRIED);
  return main.flatMap((demand): number[] => {
    const [{ degrees, turnedOver }] = allowedLies(demand.rules);
    const { minX, maxX } = boundsOf(applyToRing(turn(degrees, turnedOver), demand.region.outline));
    const pitch = maxX - minX + gap;
    const count = Math.floor((longest - margins + gap) / pitch);
    return count > 0 ? [count * pitch - gap + margins + ROW_PLAY] : [];
  });
}
