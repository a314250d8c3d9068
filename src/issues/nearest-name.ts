import { closest, distance } from 'fastest-levenshtein';

/** The only door to fastest-levenshtein: which of some names a mistyped one was meant to be. */

/** Share of a name that may be mistyped, where nothing else is said. */
const MISTYPED = 0.4;

/** Letters of a name from which on another one letter away is hardly ever a word of its own. */
const LONG = 8;

/**
 * The name that looks most like a mistyped one, whatever its capitals; undefined when none is near enough.
 *
 * @param share of the letters that may be mistyped: beyond it, it is another word
 */
export function nearestName(name: string, names: readonly string[], share = MISTYPED): string | undefined {
  if (names.length === 0) return undefined;
  // Letters that changed places are two mistakes by the distance, and the commonest single slip of a hand.
  const swapped = names.find((known) => lettersOf(known) === lettersOf(name));
  if (swapped !== undefined) return swapped;
  const nearest = closest(name.toLowerCase(), names);
  const off = distance(name.toLowerCase(), nearest.toLowerCase());
  return off <= share * Math.max(name.length, nearest.length) ? nearest : undefined;
}

function lettersOf(name: string): string {
  return [...name.toLowerCase()].sort().join('');
}

/**
 * The name that a mistyped one can only have been meant for; undefined when it may be a word of its own.
 *
 * A quarter of the letters would be too much: of 11,400 names of fields in the type declarations of our dependencies and in
 * our own sources it took 119 for slips, among them `stock` for `stack`, `speed` for `seed`, `data` for `date`, `burning` for
 * `turning`. Short words have many neighbours, and a plural is another thing than its one. By what is asked here there were
 * ten, none of them another word.
 */
export function surelyMeant(name: string, names: readonly string[]): string | undefined {
  return names.find((known) => isSlip(inOneWord(name), inOneWord(known)));
}

function isSlip(name: string, known: string): boolean {
  if (name === known || isSwapped(name, known)) return true;
  if (undoubled(name) === undoubled(known)) return true;
  // An ending makes another word: `designer`, `plans`, `channel`.
  if (name.startsWith(known) || `${name}s` === known) return false;
  // The first letter is seldom mistyped, and another one most often makes another word: `threading`, `spreading`.
  return known.length >= LONG && name[0] === known[0] && distance(name, known) === 1;
}

/** Whether two neighbouring letters of one changed places in the other, and nothing else. */
function isSwapped(name: string, known: string): boolean {
  let at = 0;
  while (at < name.length && name[at] === known[at]) at++;
  return known === name.slice(0, at) + (name[at + 1] ?? '') + (name[at] ?? '') + name.slice(at + 2);
}

/** Each letter once where it was doubled: a letter too many or too few of those is a slip, seldom another word. */
function undoubled(name: string): string {
  return name.replace(/(.)\1+/g, '$1');
}

/** Without capitals and what joins words, save the underscore in front, which marks what is of no one's concern. */
function inOneWord(name: string): string {
  return name.toLowerCase().replace(/(?<=.)[_-]/g, '');
}
