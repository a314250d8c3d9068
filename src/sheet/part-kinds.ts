import { cutLength } from '../model/cut-length.ts';
import type { Layout, Placement } from '../model/layout.ts';
import { isSamePart, partKey, partOfKey } from '../model/same-part.ts';

/** One kind of part in the layout, with what was placed of it. */
export interface PartKind {
  /** From 1, in the order of the set. */
  readonly number: number;
  readonly layer: string;
  readonly part: string;
  readonly perSet: number;
  /** Copies on all boards, a board in copies counted as often. */
  readonly placed: number;
  readonly unplaced: number;
  readonly openings: number;
  /** What the blade travels for one, mm; 0 when none was placed. */
  readonly cutLength: number;
}

/** The kinds of parts of a layout: those of a set in its order, then any that only the boards know. */
export function partKinds(layout: Layout): PartKind[] {
  const placements = placementsByKind(layout);
  const perSet = new Map(layout.setContents.map((content) => [partKey(content), content.copiesPerSet]));
  // A layout typed by hand may hold parts that no set names: they are shown too, at the end.
  const keys = [...new Set([...perSet.keys(), ...placements.keys()])];
  return keys.map((key, i) => {
    const { layer, part } = partOfKey(key);
    const found = placements.get(key) ?? [];
    // Copies are congruent: what holds for one holds for all.
    const example = found[0]?.placement;
    return {
      number: i + 1,
      layer,
      part,
      perSet: perSet.get(key) ?? 0,
      placed: found.reduce((sum, { copies }) => sum + copies, 0),
      unplaced: layout.unplaced.filter((each) => isSamePart(each, { layer, part })).length,
      openings: example?.region.openings.length ?? 0,
      cutLength: example === undefined ? 0 : cutLength(example),
    };
  });
}

function placementsByKind(layout: Layout): Map<string, { placement: Placement; copies: number }[]> {
  const found = new Map<string, { placement: Placement; copies: number }[]>();
  for (const { placements, copies } of layout.boards) {
    for (const placement of placements) {
      const key = partKey(placement);
      const list = found.get(key) ?? [];
      list.push({ placement, copies });
      found.set(key, list);
    }
  }
  return found;
}
