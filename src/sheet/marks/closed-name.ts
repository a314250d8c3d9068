/** Scripts that are written from right to left. */
const RIGHT_TO_LEFT = /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u;

/** The left-to-right mark: nothing is printed for it. */
const MARK = '\u200e';

/**
 * A name to be followed by a number. One that is written from right to left draws a number behind it to its other side
 * (Unicode Standard Annex 9, rules N1 and I1): the set of a part would be read as a digit of the number before its name.
 */
export function closedName(name: string): string {
  return RIGHT_TO_LEFT.test(name) ? `${name}${MARK}` : name;
}
