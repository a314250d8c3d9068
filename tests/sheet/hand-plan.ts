import type { BoardPlan, Cut } from '../../src/model/cut-plan.ts';
import type { LaidBoard } from '../../src/model/layout.ts';

/** The order of work on a board typed by hand: openings, veins, outlines, one part after the other. */
export function handPlan(board: LaidBoard): BoardPlan {
  const cuts = board.placements.flatMap(({ layer, part, set, region, veins }, placement) => {
    const cut = (kind: Cut['kind'], piece: number, line: Cut['line']): Cut => ({
      number: 0,
      kind,
      placement,
      layer,
      part,
      set,
      piece,
      line,
      closed: kind !== 'vein',
      length: 1,
      leadIn: [],
      leadInClear: true,
      blade: 'No. 5',
      entry: kind === 'opening' ? 'hole' : 'waste',
      partFree: false,
      frees: kind === 'outline',
      reason: '',
    });
    return [
      ...region.openings.map((opening, i) => cut('opening', i, opening)),
      ...veins.map((vein, i) => cut('vein', i, vein)),
      cut('outline', 0, region.outline),
    ];
  });
  return {
    board: board.id,
    species: board.species,
    thickness: board.thickness,
    copies: 1,
    sections: [
      { from: 0, to: 170 },
      { from: 170, to: 300 },
    ],
    holes: [{ at: [35, 65], diameter: 2, least: 1, cut: 1 }],
    cuts: cuts.map((cut, i) => ({ ...cut, number: i + 1 })),
    cutLength: 1,
    sharedEdges: 0,
    travel: 1,
    travelLeftToRight: 1,
    leadInLength: 0,
    sharpTurns: 0,
  };
}
