import { both, type Check } from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { ring, rings } from './point-checks.ts';
import type { Region, Ring } from './shapes.ts';
import { type Fault, faultOf, type Unsound, unsoundness } from './sound-region.ts';

/** Checks of the shapes that rings make when handed to the library: that they are wood, and no tangle. */

/**
 * A ring that covers something, whatever its edges do: what a defect that crosses itself covers is covered. One without
 * any area would be passed over, and a part laid across the crack.
 */
export const cover: Check = both(ring, (field, value) => {
  const why = unsoundness({ outline: value as Ring, openings: [] });
  return why === 'encloses nothing' ? told(field, { why }) : [];
});

/** A ring that is to be the outline of a board: it does not cross itself. */
export const outline: Check = both(ring, (field, value) => {
  const why = unsoundness({ outline: value as Ring, openings: [] });
  return told(field, why && { why });
});

/** A part: an outline that does not cross itself, openings inside it, all of it in one piece. */
export const region: Check = both(rings, (field, value) => told(field, faultOf(value as Region)));

const TANGLES: Readonly<Record<Unsound, Pick<Issue, 'message' | 'expected' | 'remedy'>>> = {
  'encloses nothing': {
    message: 'this outline encloses nothing',
    expected: 'an outline around some wood',
    remedy: 'Give its corners one after the other, in millimetres; a crack has some width too.',
  },
  'crosses itself': {
    message: 'these outlines cross or run back on themselves or one another',
    expected: 'an outline that does not cross itself, with its openings apart inside it',
    remedy: 'Give the corners in their order around; parts that overlap are parts of their own.',
  },
  'hangs by a point': {
    message: 'pieces of this outline meet at a point only: sawn, they fall apart',
    expected: 'an outline around one piece of wood',
    remedy: 'Give each piece as a part of its own, or a neck between them.',
  },
};

function told(field: string, fault: Fault | undefined): Issue[] {
  if (fault === undefined) return [];
  const { why, at } = fault;
  return [
    { kind: 'outline-invalid', severity: 'error', ...TANGLES[why], where: { field, ...(at && { at }) } },
  ];
}
