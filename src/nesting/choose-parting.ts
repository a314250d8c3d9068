import { regionArea } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';
import { unitName } from '../stock/units.ts';
import { contentKey } from './figures.ts';
import { arePriced, wholeCost } from './group-problem.ts';
import { type Group, type StockKind, withPieces } from './groups.ts';
import type { LaidGroup } from './laid-group.ts';
import { pinnedOn } from './pinned.ts';

/**
 * Where to cross-cut the boards of a group: every way to part them is laid out quickly, and the search starts from
 * the sections of the best. The search itself cannot move a parting line, since it takes sections for boards.
 */

/** How well a parting does; less is better, the first difference counts. */
type Loss = readonly [missingWood: number, cost: number, length: number];

/** The group parted in the way under which its parts leave least out, cost least, and take up least length. */
export async function wellParted(
  group: Group,
  taken: ReadonlySet<string>,
  lay: (group: Group) => Promise<LaidGroup>,
): Promise<Group> {
  const ways = Math.max(1, ...group.stock.map(({ partings }) => partings.length));
  let best = withPieces(partedBy(group, 0), taken);
  if (ways === 1 || best.pieces.length === 0) return best;
  let least = lossOf(best, await lay(best));
  for (let way = 1; way < ways; way++) {
    const parted = withPieces(partedBy(group, way), taken);
    const loss = lossOf(parted, await lay(parted));
    if (!isLess(loss, least)) continue;
    best = parted;
    least = loss;
  }
  return best;
}

/** The group with its boards parted in one of their ways; a board with fewer ways, or with pins, in its first. */
function partedBy(group: Group, way: number): Group {
  return {
    ...group,
    stock: group.stock.map((kind): StockKind => {
      const free = kind.partings.filter((sections) => !cutsPins(group, kind, sections));
      const ways = free.length > 0 ? free : kind.partings;
      return { ...kind, sections: ways[Math.min(way, ways.length - 1)] };
    }),
  };
}

/** True when a line between two sections would run through a copy that the maker has put there. */
function cutsPins(group: Group, { board }: StockKind, sections: StockKind['sections']): boolean {
  const units = Array.from({ length: board.quantity }, (_, i) => ({ number: i + 1, slice: undefined }));
  return pinnedOn(group, board, units).some(({ region }) => {
    const { minX, maxX } = boundsOf(region.outline);
    return sections.length > 0 && !sections.some(({ from, to }) => minX >= from && maxX <= to);
  });
}

function lossOf(group: Group, { boards, unplaced }: LaidGroup): Loss {
  const kinds = new Map(group.pieces.map((piece) => [unitName(piece.board, piece.units[0]), piece.kind]));
  const areas = new Map(group.demands.map((demand) => [contentKey(demand), regionArea(demand.region)]));
  const priced = arePriced(group.pieces);
  const cost = boards.reduce((sum, { id, copies }) => {
    const kind = kinds.get(id);
    return kind === undefined ? sum : sum + copies * wholeCost(kind, priced);
  }, 0);
  return [
    unplaced.reduce((sum, copy) => sum + (areas.get(contentKey(copy)) ?? 0), 0),
    cost,
    boards.reduce((sum, board) => sum + board.copies * lengthTaken(board), 0),
  ];
}

/** Length of the sections of a board that carry something, or of the whole board, mm. */
function lengthTaken({ sections, placements, usable }: LaidBoard): number {
  const { minX, maxX } = boundsOf(usable.outline);
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const carrying = (sections ?? []).filter(({ from, to }) =>
    boxes.some((box) => box.minX < to && box.maxX > from),
  );
  return carrying.length === 0 ? maxX - minX : carrying.reduce((sum, { from, to }) => sum + to - from, 0);
}

function isLess(a: Loss, b: Loss): boolean {
  const at = a.findIndex((value, i) => Math.abs(value - b[i]) > 1e-6 * Math.abs(b[i]));
  return at >= 0 && a[at] < b[at];
}
