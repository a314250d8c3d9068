import type { Batch } from '../../model/batch.ts';
import type { LaidBoard, Layout, SetContent, Unplaced } from '../../model/layout.ts';
import { figuresOf } from './figures.ts';
import type { LaidGroup } from './laid-group.ts';

/** The layout file of what has been laid out. */
export function assembled(batch: Batch, laid: readonly LaidGroup[]): Layout {
  const boards: LaidBoard[] = laid.flatMap((group) => group.boards);
  const unplaced: Unplaced[] = laid.flatMap((group) => group.unplaced);
  const setContents = batch.demands.map(
    ({ part, layer, copiesPerSet, rules, region }): SetContent => ({
      part,
      layer,
      copiesPerSet,
      grain: rules.grain,
      grainTolerance: rules.grainTolerance,
      turnOver: rules.turnOver,
      ...(rules.restEdge ? { restEdge: true } : {}),
      // Its rings alone: the caller's object may be wider, and a layout file has no fields but its own.
      region: { outline: region.outline, openings: region.openings },
    }),
  );
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: batch.kerf,
    clearance: batch.clearance,
    edgeMargin: batch.edgeMargin,
    sets: batch.sets,
    ...(batch.setsTogether === true ? { setsTogether: true } : {}),
    setContents,
    boards,
    unplaced,
    figures: figuresOf(boards, batch.boards, setContents, batch.sets),
  };
}
