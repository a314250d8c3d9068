import type { Box } from '../../geometry/shapes.ts';
import type { TextMark } from './marks.ts';

/**
 * How wide a text prints, without a font at hand. Widths are those of Helvetica (Adobe Font Metrics, "Core 14"),
 * in thousandths of the font size, for the characters from space to tilde; Arial and Liberation Sans were drawn to
 * the same widths.
 */
const HELVETICA = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556,
  556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278,
  500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469,
  556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500,
  278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/** Accented Latin letters are about as wide as their plain ones: the widest small letters are a safe guess. */
const LATIN = 780;

/**
 * Greek and Cyrillic letters, small and capital: with the reserve the widest of Liberation Sans (0.906 and 1.057, read
 * from the font). In the PDF a Latin letter stands for each, which is narrower, but for the few that two stand for.
 */
const SMALL = 810;
const CAPITAL = 945;
const OTHER_ALPHABET = /[\p{Script=Greek}\p{Script=Cyrillic}]/u;
const LATIN_ADDITIONAL = /[\u1e00-\u1eff]/;
const AS_TWO_LETTERS = /[\u03b8\u03c7\u03c8]/iu;

/** What takes no room of its own: accents written apart from their letters, joiners. */
const NO_WIDTH = /[\p{Mn}\p{Default_Ignorable_Code_Point}]/u;

/** A sign that is not in the table is taken to be as wide as the widest kind, an emoji. */
const UNKNOWN = 1300;

/** Room for bold type and for fonts that stand in for Helvetica and run a little wider. */
const RESERVE = 1.12;

/** Part of the font size that letters take above the baseline: Helvetica's capitals reach 0.718, its accents more. */
export const ASCENT = 0.78;
/** The same with the accents of capitals: in Helvetica Bold the highest is the ring of an Å, 0.962 (Adobe Font Metrics). */
export const ACCENTED_ASCENT = 0.97;
/** Part of the font size that letters take below the baseline. */
const DESCENT = 0.22;

/** Distance of one baseline from the next, in font sizes. */
export const LINE_STEP = 1.18;

/** Upper bound of the width in mm that a text takes at a font size in mm. */
export function textWidth(text: string, size: number): number {
  let thousandths = 0;
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    thousandths += HELVETICA[code - 32] ?? (code < 0x250 ? LATIN : foreignWidth(character));
  }
  return (thousandths / 1000) * size * RESERVE;
}

/** Of a character beyond Latin letters, in thousandths of the font size. */
function foreignWidth(character: string): number {
  if (NO_WIDTH.test(character)) return 0;
  if (LATIN_ADDITIONAL.test(character)) return LATIN;
  if (!OTHER_ALPHABET.test(character) || AS_TWO_LETTERS.test(character)) return UNKNOWN;
  return character === character.toLowerCase() ? SMALL : CAPITAL;
}

/** The box in mm that a text mark takes. */
export function textBox(mark: TextMark): Box {
  const width = textWidth(mark.text, mark.size);
  const left = mark.at[0] - { start: 0, middle: width / 2, end: width }[mark.anchor];
  return {
    minX: left,
    minY: mark.at[1] - ASCENT * mark.size,
    maxX: left + width,
    maxY: mark.at[1] + DESCENT * mark.size,
  };
}

/** The text cut to a number of characters, an ellipsis in place of what is left out. Never splits a character. */
export function shortened(text: string, longest: number): string {
  // A name may be endless: only as much of it is taken apart as can count.
  const characters = [...text.slice(0, 4 * longest)];
  return characters.length <= longest && text.length <= 4 * longest
    ? text
    : `${characters.slice(0, longest - 1).join('')}\u2026`;
}

/** Characters that are kept of the end of a name. */
const END = 4;

/**
 * The same with the ellipsis before the last characters: boards of one entry differ in nothing else, and one must not be
 * taken for another.
 */
export function shortenedBeforeEnd(text: string, longest: number): string {
  const head = [...text.slice(0, 4 * longest)];
  const isWhole = head.length <= longest && text.length <= 4 * longest;
  if (isWhole || longest <= 2 * END) return shortened(text, longest);
  const end = [...text.slice(-2 * END)].slice(-END);
  return `${head.slice(0, longest - 1 - END).join('')}\u2026${end.join('')}`;
}

/**
 * The text cut so that it is at most `width` mm wide.
 *
 * @param cut to a number of characters
 */
export function fitted(text: string, width: number, size: number, cut = shortened): string {
  let longest = [...text.slice(0, 400)].length;
  if (textWidth(text.slice(0, 400), size) <= width && text.length <= 400) return text;
  while (longest > 1 && textWidth(cut(text, longest), size) > width) longest--;
  return cut(text, longest);
}

/**
 * A text broken into lines of at most `width` mm at its spaces; a word that is too wide is cut.
 *
 * @param at where it may be broken, left out at the end of a line
 */
export function wrapped(text: string, width: number, size: number, at = ' '): string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(at)) {
    const longer = current === '' ? word : `${current}${at}${word}`;
    if (current !== '' && textWidth(longer, size) > width) {
      lines.push(current);
      current = fitted(word, width, size);
    } else {
      current = textWidth(longer, size) > width ? fitted(longer, width, size) : longer;
    }
  }
  return current === '' ? lines : [...lines, current];
}
