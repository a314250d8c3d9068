import { regionArea, regionBounds } from '../../geometry/ring.ts';
import { boxArea, type Region } from '../../geometry/shapes.ts';
import { pilesOf, type StockUnit, unitName, unitsOf } from '../../stock/units.ts';
import { boardNameOf, type Group, type StockKind, type StockPiece, slicesOf } from './group.ts';
import { pinnedElsewhere, pinnedNumbers, pinnedOn, withPinned } from './pinned.ts';

/** The stock of a group as it lies on the bench: boards, piles of boards, sections of either. */

/**
 * Boxes around parts fill at least this share of the boards they lie on, or nearly: bounds how many of one entry are looked
 * at. The parts themselves may fill less, as a thin ring does that nothing else goes into.
 */
const LEAST_YIELD = 0.1;

/** The group with the pieces of stock that are still free. */
export function withPieces(group: Group, taken: ReadonlySet<string>): Group {
  return { ...group, pieces: group.stock.flatMap((kind) => piecesOf(group, kind, taken)) };
}

/** The same with every board whole: what is pinned lies on a board before it lies in a section of it. */
export function wholePieces(group: Group, taken: ReadonlySet<string>): readonly StockPiece[] {
  const stock = group.stock.map((kind) => ({ ...kind, sections: [] }));
  return withPieces({ ...group, stock, parted: undefined }, taken).pieces;
}

/** As many boards as the parts of a group may need, one copy on each at least. */
function mostNeeded({ demands, sets, stack }: Group, usable: Region): number {
  const copies = demands.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
  const area = demands.reduce(
    (sum, { region, copiesPerSet }) => sum + copiesPerSet * boxArea(regionBounds(region)),
    0,
  );
  return sets * stack * Math.min(copies, area / LEAST_YIELD / regionArea(usable)) + stack;
}

function piecesOf(group: Group, kind: StockKind, taken: ReadonlySet<string>): StockPiece[] {
  const { board, usable } = kind;
  if (usable.outline.length === 0) return [];
  return freePiles(group, kind, taken).flatMap((units): StockPiece[] => {
    const pinned = pinnedOn(group, board, units);
    const sections = group.parted?.get(boardNameOf({ board, units })) ?? kind.sections;
    if (sections.length === 0)
      return [{ kind, board, units, section: undefined, sections, ...withPinned(usable, pinned) }];
    return sections
      .filter((section) => section.usable.outline.length > 0)
      .map((section) => {
        const inside = pinned.filter(({ middle }) => middle >= section.from && middle <= section.to);
        return { kind, board, units, section, sections, ...withPinned(section.usable, inside) };
      });
  });
}

/**
 * Piles of the boards of an entry that are still free. A pile with a pinned copy is the one it would be if all were free,
 * as long as all its boards are: what is taken of the others does not part it.
 */
function freePiles(group: Group, kind: StockKind, taken: ReadonlySet<string>): StockUnit[][] {
  const { board, usable } = kind;
  const asked = pinnedNumbers(group, board);
  const elsewhere = pinnedElsewhere(group, board);
  const freeOf = (gone: Iterable<string>): StockUnit[] =>
    unitsOf(board, slicesOf(kind), new Set(gone), asked, mostNeeded(group, usable)).filter(
      ({ number }) => kind.onlyPinned !== true || asked.has(number),
    );
  const free = freeOf([...taken, ...elsewhere]);
  if (asked.size === 0 || taken.size === 0) return pilesOf(free, group.stack);
  const nameOf = (unit: StockUnit) => unitName(board, unit);
  const isFree = new Set(free.map(nameOf));
  const kept = pilesOf(freeOf(elsewhere), group.stack).filter(
    (pile) => pile.some(({ number }) => asked.has(number)) && pile.every((unit) => isFree.has(nameOf(unit))),
  );
  const isKept = new Set(kept.flat().map(nameOf));
  const others = free.filter((unit) => !isKept.has(nameOf(unit)));
  return [...kept, ...pilesOf(others, group.stack)].sort(
    ([a], [b]) => a.number - b.number || (a.slice ?? 0) - (b.slice ?? 0),
  );
}
