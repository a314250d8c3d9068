import { counted } from '../../issues/counted.ts';
import type { Issue } from '../../issues/issue.ts';
import { type PartIssue, toldOnce } from '../../issues/told-once.ts';
import type { Batch } from '../../model/batch.ts';
import type { Layout, Unplaced } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { isLaidAsPinned } from '../groups/pinned.ts';

/** What is to be said of a finished layout: copies that found no place or not theirs, and copies that nobody asked for. */

/** How the reason of a copy begins that whole boards could hold and their sections cannot. */
export const BEYOND_SECTIONS = 'larger than every section';

/** What is said of a copy that turns in no section, however narrow the strip that it lies on. */
export const TURNS_IN_NONE = 'and itself too long to be swung';

/** What is said of sections that would hold a copy if nothing had to be kept from their edges. */
export const LESS_MARGIN = 'less the edge margin on either side';

/** How the reason of a copy begins whose bottom has to lie on the straight edge: the board may be half empty behind it. */
export const NO_STRAIGHT_EDGE = 'no room left on the straight edge of';

/** The same of boards all of which are straight above too. */
export const NO_EITHER_EDGE = 'no room left on either straight edge of';

/** How the reason of a copy begins whose set has to lie on one board. */
export const NO_WHOLE_SET = 'no board has room left for a whole set';

/** What is said of such a set when flat bottoms in it have to lie on the straight edge of its board. */
export const STANDING = ', its rest edges on the straight edge of the board';

/** The same of boards all of which are straight above too. */
export const STANDING_ON_EITHER = ', its rest edges on either straight edge of the board';

/** How it goes on where the rest edges of a set are longer than the straight edges of any board. */
export const OVERLONG_SET = ': its parts with a rest edge take';

/** How the reason of a copy begins that has room by the numbers, but not by the outlines of the search. */
export const TOO_CLOSELY = 'within 0.25 mm as large as the room between the edge margins of';

/** How a reason begins against which a better layout helps. */
const LACKS_ROOM = /^no (?:room|board has room) left/;

/** What is said of boards that would hold a copy if they were not cross-cut. */
export const HELD_WHOLE = 'would hold it whole, but not in sections cut for the saw';

/** What is said of boards with a waney or slanting lower edge, on which a flat bottom finds no place to stand. */
export const NOT_RIPPED = 'no straight edge, for the lower one is not ripped';

/** The same of boards that are straight below, and not sound there. */
export const UNSOUND_BELOW = 'no sound straight edge, for defects run along most of the lower one';

/** The reason of a copy that the search might have come to. */
export const STOPPED_BEFORE = 'the search was stopped before it found a place';

/** How to rip what "strips" is refused for. */
const BY_HAND = '(enter those of one that is no plain rectangle as boards of their own)';

/** What helps where sections of a board are too short. */
const STRIPS = `"strips" of the board, so that longer sections turn in the throat ${BY_HAND}`;

/** What helps against a reason: more of the same boards are cut to the same sections. */
function remedyFor(why: string): string {
  const longer = why.includes(HELD_WHOLE) ? ` Say ${STRIPS}.` : '';
  const ripped = [
    ...(why.includes(NOT_RIPPED)
      ? [
          ' Rip the lower edge straight: "straightEdge": "clean" under "trim", or as wide as what is unsound there.',
        ]
      : []),
    // For defects "clean" takes nothing off.
    ...(why.includes(UNSOUND_BELOW)
      ? [' Rip the defects off: "straightEdge" under "trim", as far up as they reach.']
      : []),
  ].join('');
  if (why === STOPPED_BEFORE) return 'Plan it once more, and let it search longer.';
  const isOfSet = why.startsWith(NO_WHOLE_SET);
  const isBesideEither = [NO_EITHER_EDGE, `${NO_WHOLE_SET}${STANDING_ON_EITHER}`].some((lack) =>
    why.startsWith(lack),
  );
  const isBesideEdge =
    [NO_STRAIGHT_EDGE, `${NO_WHOLE_SET}${STANDING}`].some((lack) => why.startsWith(lack)) ||
    (isOfSet && why.includes(OVERLONG_SET));
  const apart = isOfSet ? ['let a set come from several boards ("setsTogether")'] : [];
  if (isBesideEdge || isBesideEither) {
    return `${addStock([
      ...(isBesideEither ? [] : ['say "straightTopEdge" of boards whose top edge is straight too']),
      // What has a waney edge or defects is no plain rectangle, and ripped by eye.
      ...(ripped === ''
        ? [`rip wide boards into "strips", each of which has a straight edge of its own ${BY_HAND}`]
        : []),
      'let the flat bottom be sawn ("restEdge") and the rest of the board be used',
      ...apart,
    ])}${ripped}${longer}`;
  }
  if (why.startsWith(TOO_CLOSELY))
    return 'The search takes curves up to 0.1 mm larger than drawn: lower "edgeMargin" by 0.3 mm, or make the part as much smaller.';
  if (why.endsWith(TURNS_IN_NONE))
    return 'Make it smaller, or draw it as two parts; or put it in its place under "pinned", where it has the section it needs, to be sawn from the edge; or see whether "saw" states your throat and "longest" as they are.';
  const lower = why.endsWith(LESS_MARGIN) ? 'Lower "edgeMargin": without it there is room. Else say' : 'Say';
  return why.startsWith(BEYOND_SECTIONS)
    ? `${lower} ${STRIPS}, let the part turn ("grain"), or see whether "saw" states your throat and "longest" as they are.`
    : `${addStock(['allow the part more freedom (grain, turning over)', ...apart])}${longer}`;
}

/** More wood, less to cut, and these ways besides: one or more. */
function addStock(ways: readonly string[]): string {
  return `Add stock, ${['make fewer sets', ...ways.slice(0, -1)].join(', ')}, or ${ways[ways.length - 1]}.`;
}

/**
 * One warning, with their number, for every kind of part of which copies found no place.
 *
 * @param isSearched whether more than the first layout was made: a search finds places for many that this leaves out
 */
export function unplacedIssues({ unplaced }: Layout, isSearched: boolean): Issue[] {
  // What is too large for every board a search finds no place for either.
  const search = (why: string) =>
    isSearched || !LACKS_ROOM.test(why)
      ? ''
      : 'This is the first layout alone, of effort 0: let it search. Else: ';
  const counts = new Map<string, { first: Unplaced; count: number }>();
  for (const copy of unplaced) {
    const key = JSON.stringify([copy.layer, copy.part, copy.why]);
    const known = counts.get(key);
    if (known === undefined) counts.set(key, { first: copy, count: 1 });
    else known.count++;
  }
  return [...counts.values()].map(({ first, count }) => ({
    kind: 'copies-unplaced',
    severity: 'warning',
    message: `${counted(count, 'copy', 'copies')} found no place: ${first.why}`,
    remedy: `${search(first.why)}${remedyFor(first.why)}`,
    where: { layer: first.layer, part: first.part },
  }));
}

/**
 * A note for every kind of part of which the stacks give more copies than the sets need: sawing the last copy through
 * fewer boards would take a pile of its own.
 */
export function spareIssues({ boards, setContents, sets }: Layout): Issue[] {
  const spares = setContents.flatMap((content): PartIssue[] => {
    const placed = boards.reduce(
      (sum, { copies, placements }) =>
        sum + copies * placements.filter((placement) => isSamePart(placement, content)).length,
      0,
    );
    const spare = placed - sets * content.copiesPerSet;
    if (spare <= 0) return [];
    return [
      {
        kind: 'copies-to-spare',
        severity: 'note',
        message: `the stacks give ${counted(spare, 'copy', 'copies')} more than the sets need`,
        remedy: 'Keep what is to spare for a part that breaks.',
        where: { layer: content.layer, part: content.part },
      },
    ];
  });
  return toldOnce(spares);
}

/**
 * A warning for every layer that is to be sawn in stacks and lies on single boards: its lines are then sawn as often as
 * there are boards.
 */
export function unstackedIssues({ boards }: Layout, { demands, sets }: Batch): Issue[] {
  if (sets < 2) return [];
  const stacked = new Set(demands.flatMap(({ layer, stack = 1 }) => (stack > 1 ? [layer] : [])));
  return [...stacked].flatMap((layer): Issue[] => {
    const carrying = boards.filter(({ placements }) => placements.some((copy) => copy.layer === layer));
    if (carrying.length === 0 || carrying.some(({ copies }) => copies > 1)) return [];
    return [
      {
        kind: 'stack-not-made',
        severity: 'warning',
        message: 'the layer is to be sawn in stacks, and lies on single boards: these boards make no stack',
        remedy:
          'Boards of a stack are of one entry ("quantity"), and enough of them that every copy finds a place: add boards alike, or cut each into "lengths" that make a stack.',
        where: { layer },
      },
    ];
  });
}

/**
 * A warning for every pinned copy that does not lie where it is pinned: sets that stay together go to other boards where
 * no whole set fits around it, and nothing else would tell when those have room for all.
 */
export function pinsLeftOutIssues({ boards }: Layout, { pins = [], setsTogether }: Batch): Issue[] {
  if (setsTogether !== true) return [];
  return pins.flatMap((pin, n): Issue[] => {
    if (isLaidAsPinned(pin, boards)) return [];
    const { layer, part, board } = pin;
    return [
      {
        kind: 'pin-left-out',
        severity: 'warning',
        message: `pin ${n + 1} is left out: no whole set was laid on its board around it`,
        remedy: 'Pin it to a larger board, or let sets come from several boards.',
        where: { layer, part, board },
      },
    ];
  });
}
