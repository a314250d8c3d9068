import type { Placement } from '../../model/layout.ts';
import { partOfKey } from '../../model/same-part.ts';
import { encodable, isPrintable } from '../marks/base-font-text.ts';
import { closedName } from '../marks/closed-name.ts';
import { shortened } from '../marks/text-width.ts';

/** How the names of parts are printed: shortened, and with the part's number in the report where they need it. */

/** Characters of a name that are printed; the whole name stays in the title of the part's group. */
const LONGEST_NAME = 24;

/** Layer and part as they stand on labels. */
export interface PrintedNames {
  readonly layer: string;
  readonly part: string;
}

/** @param number of the part in the report, where its label is to have it; see {@link numbersNeeded} */
export function printedNames(
  { layer, part }: Pick<Placement, 'layer' | 'part'>,
  number: number | undefined,
): PrintedNames {
  const name = closedName(shortened(part, LONGEST_NAME));
  return {
    layer: closedName(shortened(layer, LONGEST_NAME)),
    part: number === undefined ? name : `no. ${number} ${name}`,
  };
}

/**
 * The numbers that labels have to say: of names with letters that a PDF cannot print, and of names that are alike in
 * print: because they were shortened, or because the fonts lack what tells them apart (`Łoś` and `Los`).
 *
 * @param numbers of the kinds of parts in the report, by `partKey`
 */
export function numbersNeeded(numbers: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const kinds = [...numbers].map(([key, number]) => {
    const { layer, part } = partOfKey(key);
    const names = Object.values(printedNames({ layer, part }, undefined));
    return {
      key,
      number,
      isWhole: isPrintable(layer) && isPrintable(part),
      words: encodable(names.join('\n')),
    };
  });
  const count = new Map<string, number>();
  for (const { words } of kinds) count.set(words, (count.get(words) ?? 0) + 1);
  const needed = kinds.filter(({ isWhole, words }) => !isWhole || (count.get(words) ?? 0) > 1);
  return new Map(needed.map(({ key, number }) => [key, number]));
}
