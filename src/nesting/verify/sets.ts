import { firstFew } from '../../issues/counted.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Layout, SetContent } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { breach, wrongFigure } from './places.ts';

/**
 * Whether every set has its copies, set by set: totals alone would let a copy be placed and missing at once, or one set
 * have what is another's.
 */

/** Counts the copies of every part: placed and unplaced together make the sets asked for, no set has too many. */
export function checkSets(layout: Layout, breaches: Issue[]): void {
  let completeSets = layout.sets;
  for (const content of layout.setContents) {
    const { placed, unplaced, copies } = copiesOf(layout, content);
    completeSets = Math.min(completeSets, Math.floor(copies / content.copiesPerSet));
    checkMissing(layout, content, { placed, unplaced }, breaches);
    checkMiscounted(layout, content, { placed, unplaced }, breaches);
  }
  for (const { part, layer } of layout.unplaced) {
    if (layout.setContents.some((content) => isSamePart(content, { part, layer }))) continue;
    breaches.push(breach('unknown-part', 'a copy without a place belongs to no set', { layer, part }));
  }
  const stated = layout.figures.completeSets;
  if (completeSets !== stated)
    breaches.push(wrongFigure({ field: 'figures.completeSets' }, completeSets, stated));
}

/** Copies of one part by the number of their set. Those of sets that do not exist are among them. */
interface CopiesBySet {
  readonly placed: ReadonlyMap<number, number>;
  readonly unplaced: ReadonlyMap<number, number>;
}

function copiesOf(layout: Layout, content: SetContent): CopiesBySet & { readonly copies: number } {
  const placed = new Map<number, number>();
  const unplaced = new Map<number, number>();
  // By where they begin and end, for boards may be alike by the thousand, and each copy be one for as many sets.
  const begun = new Float64Array(layout.sets + 2);
  let copies = 0;
  for (const board of layout.boards) {
    for (const placement of board.placements) {
      if (!isSamePart(placement, content)) continue;
      const { set } = placement;
      copies += board.copies;
      if (set < 1 || set > layout.sets) {
        count(placed, set);
        continue;
      }
      // The boards below the first one are for the sets that follow; what comes beyond the last set is to spare.
      begun[set]++;
      begun[Math.min(layout.sets + 1, set + board.copies)]--;
    }
  }
  for (let set = 1, open = 0; set <= layout.sets; set++) {
    open += begun[set];
    if (open > 0) placed.set(set, open);
  }
  for (const copy of layout.unplaced) if (isSamePart(copy, content)) count(unplaced, copy.set);
  return { placed, unplaced, copies };
}

function count(counts: Map<number, number>, set: number): void {
  counts.set(set, (counts.get(set) ?? 0) + 1);
}

/** One breach for all sets of a part, so that a board left out of a file does not fill the screen. */
function checkMissing(
  { sets }: Layout,
  { layer, part, copiesPerSet }: SetContent,
  { placed, unplaced }: CopiesBySet,
  breaches: Issue[],
): void {
  const short: number[] = [];
  for (let set = 1; set <= sets; set++)
    if ((placed.get(set) ?? 0) + (unplaced.get(set) ?? 0) < copiesPerSet) short.push(set);
  if (short.length === 0) return;
  breaches.push(
    breach(
      'copies-missing',
      'copies are neither placed nor listed as unplaced',
      { layer, part },
      { expected: `${copiesPerSet} in every set`, received: `fewer in ${setsInWords(short)}` },
    ),
  );
}

/** A set number is between 1 and the sets asked for, and no set has more copies than it needs, placed or not. */
function checkMiscounted(
  { sets }: Layout,
  { layer, part, copiesPerSet }: SetContent,
  { placed, unplaced }: CopiesBySet,
  breaches: Issue[],
): void {
  for (const set of new Set([...placed.keys(), ...unplaced.keys()])) {
    const lying = placed.get(set) ?? 0;
    const listed = unplaced.get(set) ?? 0;
    if (set >= 1 && set <= sets && lying + listed <= copiesPerSet) continue;
    breaches.push(
      breach(
        'set-miscounted',
        'a set does not exist, or has more copies of a part than it needs',
        { layer, part: `${part}, set ${set}` },
        {
          expected: `sets 1 to ${sets}, ${copiesPerSet} in each, placed or unplaced`,
          received: `${lying} placed and ${listed} unplaced in set ${set}`,
        },
      ),
    );
  }
}

/** `set 3`, or `sets 1, 2, 3 and 7 more`. */
function setsInWords(sets: readonly number[]): string {
  return `set${sets.length === 1 ? '' : 's'} ${firstFew(sets, 3)}`;
}
