import { both, type Check } from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { ring, rings } from './point-checks.ts';
import type { Region, Ring } from './shapes.ts';
import { type Unsound, unsoundness } from './sound-region.ts';

/** Checks of the shapes that rings make when handed to the library: that they are wood, and no tangle. */

/**
 * A ring that covers something, whatever its edges do: what a defect that crosses itself covers is covered. One without
 * any area would be passed over, and a part laid across the crack.
 */
export const cover: Check = both(ring, (field, value) => {
  const found = unsoundness({ outline: value as Ring, openings: [] });
  return found === 'encloses nothing' ? [unsound(field, found)] : [];
});

/** A ring that is to be the outline of a board: it does not cross itself. */
export const outline: Check = both(ring, (field, value) =>
  tangle(field, { outline: value as Ring, openings: [] }),
);

/** A part: an outline that does not cross itself, openings inside it. */
export const region: Check = both(rings, (field, value) => tangle(field, value as Region));

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
};

function tangle(field: string, shape: Region): Issue[] {
  const found = unsoundness(shape);
  return found === undefined ? [] : [unsound(field, found)];
}

function unsound(field: string, found: Unsound): Issue {
  return { kind: 'outline-invalid', severity: 'error', ...TANGLES[found], where: { field } };
}
