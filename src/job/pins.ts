import { applyToRegion, placementMap } from '../geometry/affine.ts';
import { regionBounds } from '../geometry/ring.ts';
import type { Issue } from '../issues/issue.ts';
import type { Demand, Pin } from '../model/batch.ts';
import { isSamePart } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import type { Job } from './job-schema.ts';

/** From what a job says of pinned copies, measured on the board with a rule, to pins of the batch. */

type JobPin = Job['pinned'][number];

/**
 * The pins of a job as placements: mm in the frame of the board, degrees. One that names no part or board of it, or more
 * copies than there are, is an issue instead.
 */
export function pinsOfJob(
  { pinned, sets }: Pick<Job, 'pinned' | 'sets'>,
  demands: readonly Demand[],
  boards: readonly Board[],
  file: string,
): { readonly pins: readonly Pin[]; readonly issues: readonly Issue[] } {
  const pins: Pin[] = [];
  const issues: Issue[] = [];
  const refuse = (
    i: number,
    field: string,
    rest: Pick<Issue, 'message' | 'expected' | 'received' | 'remedy'>,
  ) => {
    const where = { file, field: `pinned[${i}].${field}` };
    issues.push({ kind: 'pin-invalid', severity: 'error', ...rest, where });
  };
  pinned.forEach((entry, i) => {
    const demand = demands.find((each) => isSamePart(each, entry));
    const board = boards.find(({ id }) => id === entry.board);
    const ofPart = pins.filter((pin) => isSamePart(pin, entry)).length;
    if (demand === undefined) refuse(i, 'part', unknown('part', `${entry.layer}, ${entry.part}`));
    else if (board === undefined) refuse(i, 'board', unknown('board at hand', entry.board));
    else if (entry.number > board.quantity)
      refuse(i, 'number', tooMany('the stock has not so many of this board', board.quantity, entry.number));
    else if (ofPart >= sets * demand.copiesPerSet)
      refuse(i, 'part', tooMany('more copies are pinned than the batch has', ofPart, ofPart + 1));
    else pins.push(pinOf(entry, demand));
  });
  return { pins, issues };
}

function unknown(what: string, name: string): Pick<Issue, 'message' | 'received' | 'remedy'> {
  const remedy = 'Write names as the drawing and the stock have them: capitals count.';
  return { message: `there is no such ${what}`, received: `"${name}"`, remedy };
}

function tooMany(
  message: string,
  most: number,
  found: number,
): Pick<Issue, 'message' | 'expected' | 'received'> {
  return { message, expected: `at most ${most}`, received: `${found}` };
}

/** Moves the part so that the left end and the top edge of its box, as it lies, are where the maker measured. */
function pinOf({ at: [along, across], ...entry }: JobPin, demand: Demand): Pin {
  const turned = applyToRegion(placementMap([0, 0], entry.rotation, entry.turnedOver), demand.region);
  const { minX, minY } = regionBounds(turned);
  return { ...entry, x: along - minX, y: across - minY };
}
