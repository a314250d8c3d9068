import { applyToRegion, placementMap } from '../geometry/affine.ts';
import { regionBounds } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { Demand, Pin } from '../model/batch.ts';
import { isSamePart } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { numberNamed } from '../stock/units.ts';
import type { Job } from './job-schema.ts';

/** From what a job says of pinned copies, measured on the board with a rule, to pins of the batch. */

type JobPin = Job['pinned'][number];

/**
 * The pins of a job as placements: mm in the frame of the board or strip, degrees. One of a part or board that there is not
 * is handed on as it is written: what cannot be honoured, `pinIssues` tells.
 */
export function pinsOfJob(
  { pinned }: Pick<Job, 'pinned'>,
  demands: readonly Demand[],
  boards: readonly Board[],
): Pin[] {
  return pinned.map((written) => {
    const entry = byEntry(written, boards);
    return pinOf(
      entry,
      demands.find((each) => isSamePart(each, entry)),
      boards.find(({ id }) => id === entry.board),
    );
  });
}

/** The pin with the id of the board entry and the number, where it has the name of a single board, `Sheet-1b`, instead. */
function byEntry(pin: JobPin, boards: readonly Board[]): JobPin {
  // An id may look like the name of a board of another entry: ids come first.
  if (boards.some(({ id }) => id === pin.board)) return pin;
  for (const board of boards) {
    const number = numberNamed(board, pin.board);
    // A number beside the name says the same or means something else, and then it is not guessed at.
    if (number !== undefined && (pin.number === 1 || pin.number === number))
      return { ...pin, board: board.id, number };
  }
  return pin;
}

/**
 * Moves the part so that the left end and the top edge of its box, as it lies, are where the maker measured: from the ends
 * of the board itself, for a rule knows nothing of where the points of its outline are counted from.
 */
function pinOf(
  { at: [along, across], ...entry }: JobPin,
  demand: Demand | undefined,
  board: Board | undefined,
): Pin {
  if (demand === undefined || board === undefined) return { ...entry, x: along, y: across };
  const turned = applyToRegion(placementMap([0, 0], entry.rotation, entry.turnedOver), demand.region);
  const part = regionBounds(turned);
  const { minX, minY } = boundsOf(board.outline);
  return { ...entry, x: minX + along - part.minX, y: minY + across - part.minY };
}
