import type { Box, Line } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { letters } from '../marks/letters.ts';
import type { Mark } from '../marks/marks.ts';
import { blockMarks, type LabelBlock, letterBlocks } from './part-label.ts';
import { stretchIn } from './straight-way.ts';

/** A part that found no room for a number, or for any of its kind. */
interface CrowdedPart {
  readonly placement: Placement;
  /** The part's number in the report, where its label has to say it. */
  readonly reported?: number;
}

/** Copies of one part without numbers that have a letter in common: sawn, one is as good as another. */
export interface AlikeParts extends CrowdedPart {
  readonly letter: string;
  readonly count: number;
}

/** The same text for copies of one part that lie the same side up: sawn, one is as good as another. */
export function kindOf(placement: Placement): string {
  return `${placement.turnedOver} ${partKey(placement)}`;
}

/** Letters in parts, as far as these have room for them. */
export interface LetteredParts {
  readonly marks: ReadonlyMap<Placement, readonly Mark[]>;
  readonly alike: readonly AlikeParts[];
}

/**
 * Sets letters in parts that found no room for a number, one for each kind of part: unlike pebbles of nearly the same
 * size could not be told apart once they are sawn. Where all parts of the crowd are alike, nothing has to be told apart.
 *
 * @param crowd all parts that a list tells of
 * @param roomIn room in a part for the first of some small blocks that fits
 * @param leaders lines that run over parts: no letter stands on them
 */
export function letterAlike(
  crowd: readonly CrowdedPart[],
  numberless: readonly CrowdedPart[],
  roomIn: (
    placement: Placement,
    blocks: readonly LabelBlock[],
  ) => { block: LabelBlock; box: Box } | undefined,
  leaders: readonly { readonly way: Line }[],
): LetteredParts {
  const marks = new Map<Placement, readonly Mark[]>();
  if (new Set(crowd.map(({ placement }) => kindOf(placement))).size < 2) return { marks, alike: [] };
  const left = new Set(numberless);
  const kinds = new Map<string, CrowdedPart[]>();
  for (const part of crowd) {
    if (!left.has(part)) continue;
    const kind = kindOf(part.placement);
    kinds.set(kind, [...(kinds.get(kind) ?? []), part]);
  }
  const alike = [...kinds.values()].map((parts, i): AlikeParts => {
    const letter = letters(i);
    for (const { placement } of parts) {
      const found = roomIn(placement, letterBlocks(letter));
      if (found === undefined || leaders.some(({ way: [from, to] }) => stretchIn(from, to, found.box)))
        continue;
      marks.set(placement, blockMarks(found.block, found.box));
    }
    return { ...parts[0], letter, count: parts.filter(({ placement }) => marks.has(placement)).length };
  });
  return { marks, alike: alike.filter(({ count }) => count > 0) };
}
