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

/** Copies of one part that lie the same side up, together: sawn, one is as good as another. */
export function kindsOf<Part extends CrowdedPart>(parts: readonly Part[]): Part[][] {
  const kinds = new Map<string, Part[]>();
  for (const part of parts) {
    const kind = `${part.placement.turnedOver} ${partKey(part.placement)}`;
    const alike = kinds.get(kind);
    if (alike === undefined) kinds.set(kind, [part]);
    else alike.push(part);
  }
  return [...kinds.values()];
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
  if (kindsOf(crowd).length < 2) return { marks, alike: [] };
  const left = new Set(numberless);
  const kinds = kindsOf(crowd.filter((part) => left.has(part)));
  const alike = kinds.map((parts, i): AlikeParts => {
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
