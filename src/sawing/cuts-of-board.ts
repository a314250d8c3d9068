import { snugSize } from '../geometry/snug-size.ts';
import type { SawnPart } from '../model/cut-plan.ts';
import type { LaidBoard, Placement, Section } from '../model/layout.ts';
import { isHardToHold } from '../model/small-parts.ts';
import type { BladeDemand } from './choose-blades.ts';
import { type InnerParts, innerParts } from './inner-parts.ts';
import { bayRings, boardEdges, type OutlinePieces, outlinePieces } from './outline-pieces.ts';
import { type PartCuts, partCuts } from './part-cuts.ts';
import { type StandingWoodSettings, type StandsAt, standingWood } from './standing-wood.ts';

/** What cuts are made of parts with. */
export interface PartSettings extends StandingWoodSettings {
  /** What was found out about the shape of a part. */
  readonly facts: (layer: string, part: string) => SawnPart | undefined;
  /** Length of the tabs that hold small parts, mm; undefined when they are sawn last, without. */
  readonly tab: number | undefined;
}

/**
 * The cuts of all parts of a board, in the order of its placements, and which of the parts lie in others.
 *
 * @param holeFor diameter of the hole for the blade that a cut is sawn with, mm
 */
export function cutsOfBoard(
  board: LaidBoard,
  sections: readonly Section[],
  holeFor: (demand: BladeDemand) => number,
  settings: PartSettings,
): { readonly parts: readonly PartCuts[]; readonly inner: InnerParts } {
  const { placements } = board;
  const edges = boardEdges(board);
  const sawn = placements.map(({ region }) => outlinePieces(region.outline, edges));
  const bays = sawn.map((pieces) => bayRings(pieces, edges));
  const inner = innerParts(placements, bays);
  const outlines = inner.outer.map((index) => placements[index].region.outline);
  const standsAt =
    settings.tab === undefined ? () => true : standingWood(board, sections, outlines, settings);
  return { parts: cutsOfParts(placements, { sawn, inner, standsAt, holeFor }, settings), inner };
}

/** What is known of a board before its cuts are planned. */
interface KnownOfBoard {
  readonly sawn: readonly OutlinePieces[];
  readonly inner: InnerParts;
  readonly standsAt: StandsAt;
  readonly holeFor: (demand: BladeDemand) => number;
}

/** The cuts of each part; a part that is hard to hold and lies on the board itself gets the tab that is asked for. */
function cutsOfParts(
  placements: readonly Placement[],
  { sawn, inner, standsAt, holeFor }: KnownOfBoard,
  settings: PartSettings,
): PartCuts[] {
  return placements.map((placed, index) => {
    const inside = placed.region.openings.map((_, opening) =>
      inner.inside(index, opening).map((each) => placements[each].region.outline),
    );
    const longest = snugSize(placed.region.outline).length;
    const small = isHardToHold({ longest }, settings);
    const tab = small && inner.outer.includes(index) ? settings.tab : undefined;
    const facts = settings.facts(placed.layer, placed.part);
    return partCuts(placed, index, inside, { facts, sawn: sawn[index], tab, standsAt, longest, holeFor });
  });
}
