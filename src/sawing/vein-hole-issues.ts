import { distanceToEdges } from '../geometry/ring.ts';
import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { type PartIssue, toldOnce } from '../issues/told-once.ts';
import type { BoardPlan } from '../model/cut-plan.ts';
import type { LaidBoard, Placement } from '../model/layout.ts';

/** Veins that are drilled for close to an edge of their part, for neither end has room for the hole. */

/**
 * From the middle of a hole to the edge of its part, in diameters, below which the drill breaks out or nearly so: a quarter
 * of one is left between them (common practice, no source).
 */
const LEAST_ROOM = 0.75;

/**
 * A warning for every kind of part with such veins.
 *
 * @param plans of these boards, in their order
 */
export function veinHoleIssues(boards: readonly LaidBoard[], plans: readonly BoardPlan[]): Issue[] {
  const parts = new Map<string, { placement: Placement; diameter: number; veins: readonly number[] }>();
  for (const [i, { cuts, holes }] of plans.entries()) {
    const holeOf = new Map(holes.map((hole) => [hole.cut, hole]));
    for (const cut of cuts) {
      const hole = holeOf.get(cut.number);
      if (cut.kind !== 'vein' || hole === undefined) continue;
      const placement = boards[i].placements[cut.placement];
      if (distanceToEdges(hole.at, placement.region) >= LEAST_ROOM * hole.diameter) continue;
      const key = JSON.stringify([cut.layer, cut.part]);
      const { diameter, veins } = parts.get(key) ?? { diameter: 0, veins: [] };
      parts.set(key, {
        placement,
        diameter: Math.max(diameter, hole.diameter),
        veins: [...new Set([...veins, cut.piece])],
      });
    }
  }
  return toldOnce(
    [...parts.values()].map(({ placement: { layer, part }, diameter, veins }): PartIssue => {
      const which = counted(veins.length, 'vein ends', 'veins end');
      return {
        kind: 'vein-hole-near-edge',
        severity: 'warning',
        message: `${which} so near to an edge of the part, at either end, that the hole for the blade, ${diameter.toFixed(2)} mm, has less than a quarter of its width of wood beside it: the drill may break out`,
        remedy:
          'Draw an end up to that edge, so that the blade turns in from there without a hole, or end the vein farther from it.',
        where: { layer, part },
      };
    }),
  );
}
