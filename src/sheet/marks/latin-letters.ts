/**
 * Letters that have no likeness among those of Western Europe when their accent is taken off, and what is written for
 * them. Small letters only, besides those without one; the marks that a font lacks are dropped afterwards.
 */

/**
 * Latin letters with a stroke or without a dot, and signs for which ASCII has one. Source: Unicode CLDR, transform
 * Latin-ASCII (common/transforms/Latin-ASCII.xml), the letters of Latin Extended-A among it and those of African
 * alphabets; tried against its implementation in ICU.
 */
const LATIN = {
  đ: 'd',
  ħ: 'h',
  ı: 'i',
  ĸ: 'q',
  ł: 'l',
  ŋ: 'n',
  ŧ: 't',
  ẞ: 'SS',
  ɓ: 'b',
  ɗ: 'd',
  ƙ: 'k',
  ƴ: 'y',
  ɛ: 'e',
  '\u02b9': "'",
  '\u02ba': '"',
  '\u2010': '-',
  '\u2011': '-',
  '\u2212': '-',
  '\u2032': "'",
  '\u2033': '"',
  '\u2044': '/',
};

/**
 * Cyrillic letters of today's Slavic languages. Source: ISO 9:1995, table 1, which has one letter for each, whatever the
 * language, so that none has to be guessed.
 */
const CYRILLIC = {
  а: 'a',
  б: 'b',
  в: 'v',
  г: 'g',
  ґ: 'g\u0300',
  ѓ: 'ǵ',
  д: 'd',
  ђ: 'đ',
  е: 'e',
  ё: 'ë',
  є: 'ê',
  ж: 'ž',
  з: 'z',
  ѕ: 'ẑ',
  и: 'i',
  і: 'ì',
  ї: 'ï',
  й: 'j',
  ј: 'ǰ',
  к: 'k',
  ќ: 'ḱ',
  л: 'l',
  љ: 'l\u0302',
  м: 'm',
  н: 'n',
  њ: 'n\u0302',
  о: 'o',
  п: 'p',
  р: 'r',
  с: 's',
  т: 't',
  ћ: 'ć',
  у: 'u',
  ў: 'ŭ',
  ф: 'f',
  х: 'h',
  ц: 'c',
  ч: 'č',
  џ: 'd\u0302',
  ш: 'š',
  щ: 'ŝ',
  ъ: '\u02ba',
  ы: 'y',
  ь: '\u02b9',
  э: 'è',
  ю: 'û',
  я: 'â',
};

/** Greek letters. Source: ISO 843:1997, transliteration (type 1). Their accents are kept as far as a font has them. */
const GREEK = {
  α: 'a',
  β: 'v',
  γ: 'g',
  δ: 'd',
  ε: 'e',
  ζ: 'z',
  η: 'ī',
  θ: 'th',
  ι: 'i',
  κ: 'k',
  λ: 'l',
  μ: 'm',
  ν: 'n',
  ξ: 'x',
  ο: 'o',
  π: 'p',
  ρ: 'r',
  σ: 's',
  ς: 's',
  τ: 't',
  υ: 'y',
  φ: 'f',
  χ: 'ch',
  ψ: 'ps',
  ω: 'ō',
};

const LETTERS: ReadonlyMap<string, string> = new Map(Object.entries({ ...LATIN, ...CYRILLIC, ...GREEK }));

/** Upsilon after another vowel is u, not y (ISO 843); one with a diaeresis is a letter of its own. */
const AFTER_VOWEL = /(?<=[αεοΑΕΟ])[υύΥΎ]/g;
const AS_U: Readonly<Record<string, string>> = { υ: 'u', ύ: 'ú', Υ: 'U', Ύ: 'Ú' };

/** A text with such letters written in Latin ones, accents composed with their letters as far as Unicode has them so. */
export function inLatin(text: string): string {
  // Composed first: a file may hold a letter and its accent apart, which are looked up as one.
  const characters = [...text.normalize('NFC').replace(AFTER_VOWEL, (letter) => AS_U[letter])];
  return characters.map((character, i) => latinFor(character, characters, i)).join('');
}

function latinFor(character: string, all: readonly string[], index: number): string {
  const found = lookUp(character, isCapital(all[index - 1]) || isCapital(all[index + 1]));
  if (found !== undefined) return found;
  // Greek letters with accents: what stands for the letter has them too.
  const [base, ...accents] = [...character.normalize('NFD')];
  const latin = accents.length === 0 ? undefined : lookUp(base, false);
  return latin === undefined ? character : [latin, ...accents].join('').normalize('NFC');
}

/** @param among true beside another capital: two letters for one are then both large */
function lookUp(letter: string, among: boolean): string | undefined {
  const small = letter.toLowerCase();
  const latin = LETTERS.get(letter) ?? LETTERS.get(small);
  if (latin === undefined || LETTERS.has(letter) || letter === small) return latin;
  return among ? latin.toUpperCase() : `${latin[0].toUpperCase()}${latin.slice(1)}`;
}

function isCapital(character: string | undefined): boolean {
  return character !== undefined && character !== character.toLowerCase();
}
