import { inLatin } from './latin-letters.ts';

/** What the base fonts of a PDF can print: the letters of Western Europe (Windows-1252, ISO 32000-1 annex D). */

/** Characters of Windows-1252 above Latin-1, which the base fonts hold as well. */
const WINDOWS_1252 =
  '\u20ac\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u017d\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u017e\u0178';

/** Accents by themselves and signs without a look of their own, such as joiners: nothing is printed for them. */
const UNSEEN = /^[\p{M}\p{Default_Ignorable_Code_Point}]$/u;

const FRACTION_SLASH = '\u2044';

/**
 * Text in letters that the base fonts hold: accents they lack are dropped, Greek and Cyrillic letters are written in
 * Latin ones; for every other character that they lack there is a question mark.
 */
export function encodable(text: string): string {
  return printed(text)
    .map((each) => each ?? '?')
    .join('');
}

/** False when the base fonts would print a question mark for a letter of the text. */
export function isPrintable(text: string): boolean {
  return !printed(text).includes(undefined);
}

/** What is printed for each character; undefined for one that nothing stands for. */
function printed(text: string): (string | undefined)[] {
  const characters = [...text];
  return characters.every(isEncodable) ? characters : [...inLatin(text)].flatMap(withoutAccent);
}

function withoutAccent(character: string): string | undefined {
  if (isEncodable(character)) return character;
  if (UNSEEN.test(character)) return '';
  const parts = character.normalize('NFKD');
  // Each by itself: put together, a letter and its accent would be what the fonts lack again.
  const base = [...parts].flatMap((each) => [...inLatin(each)]).filter(isEncodable);
  if (base.length === 0) return undefined;
  // A fraction in one sign, apart from a whole number before it: not 51/3 for 5 and a third.
  return parts.includes(FRACTION_SLASH) ? ` ${base.join('')}` : base.join('');
}

function isEncodable(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return (code >= 0x20 && code < 0x7f) || (code >= 0xa0 && code <= 0xff) || WINDOWS_1252.includes(character);
}
