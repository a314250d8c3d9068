/** What the base fonts of a PDF can print: the letters of Western Europe (Windows-1252, ISO 32000-1 annex D). */

/** Characters of Windows-1252 above Latin-1, which the base fonts hold as well. */
const WINDOWS_1252 =
  '\u20ac\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u017d\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u017e\u0178';

/** Text with a question mark for every character that the base fonts lack; accents they lack are dropped first. */
export function encodable(text: string): string {
  let kept = '';
  for (const character of text) {
    kept += isEncodable(character) ? character : withoutAccent(character);
  }
  return kept;
}

function withoutAccent(character: string): string {
  const base = [...character.normalize('NFKD')].filter(isEncodable).join('');
  return base === '' ? '?' : base;
}

function isEncodable(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return (code >= 0x20 && code < 0x7f) || (code >= 0xa0 && code <= 0xff) || WINDOWS_1252.includes(character);
}

/** False when the base fonts would print a question mark for a letter of the text. */
export function isPrintable(text: string): boolean {
  for (const character of text) {
    if (character !== '?' && encodable(character) === '?') return false;
  }
  return true;
}
