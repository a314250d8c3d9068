import { applyToRegion, placementMap } from '../geometry/affine.ts';
import { regionBounds } from '../geometry/ring.ts';
import type { Demand, Pin } from '../model/batch.ts';
import { isSamePart } from '../model/same-part.ts';
import type { Job } from './job-schema.ts';

/** From what a job says of pinned copies, measured on the board with a rule, to pins of the batch. */

type JobPin = Job['pinned'][number];

/**
 * The pins of a job as placements: mm in the frame of the board, degrees. One of a part that is not in the batch is handed
 * on as it is measured: what cannot be honoured, `pinIssues` tells.
 */
export function pinsOfJob({ pinned }: Pick<Job, 'pinned'>, demands: readonly Demand[]): Pin[] {
  return pinned.map((entry) =>
    pinOf(
      entry,
      demands.find((each) => isSamePart(each, entry)),
    ),
  );
}

/** Moves the part so that the left end and the top edge of its box, as it lies, are where the maker measured. */
function pinOf({ at: [along, across], ...entry }: JobPin, demand: Demand | undefined): Pin {
  if (demand === undefined) return { ...entry, x: along, y: across };
  const turned = applyToRegion(placementMap([0, 0], entry.rotation, entry.turnedOver), demand.region);
  const { minX, minY } = regionBounds(turned);
  return { ...entry, x: along - minX, y: across - minY };
}
