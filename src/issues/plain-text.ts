/**
 * What XML 1.0 cannot carry (section 2.2 "Characters": control characters but tab, line feed and carriage return, lone
 * surrogates, U+FFFE, U+FFFF), and the bidirectional overrides of Unicode (UAX #9, explicit directional formatting),
 * with which a name could reorder the text printed around it.
 */
const UNWANTED = /(?![\t\n\r])[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069\ufffe\uffff]/gu;

/** Text without what no document can carry and what would change the text around it. */
export function plainText(text: string): string {
  return text.replace(UNWANTED, '');
}

/** The same in one line: a name may hold line breaks, with which it could pass for a line of its own. */
export function plainLine(text: string): string {
  return plainText(text).replace(/[\t-\r\u2028\u2029]+/g, ' ');
}
