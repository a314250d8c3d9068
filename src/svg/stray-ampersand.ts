/** What may hold a plain `&`, each to its end or that of the text; or a `&` that begins no reference with its `;`. */
const PLAIN_OR_STRAY =
  /<!--(?:[\s\S]*?-->|[\s\S]*)|<!\[CDATA\[(?:[\s\S]*?\]\]>|[\s\S]*)|<\?(?:[\s\S]*?\?>|[\s\S]*)|<!DOCTYPE[^[>]*(?:\[(?:[\s\S]*?\]\s*>|[\s\S]*)|>|$)|&(?!#?[^\s&;<>'"#]+;)/g;

/**
 * The place of the first `&` before `end` that stands for itself, as in a layer named "reeds & rushes", where XML
 * wants `&amp;`: line and column from 1, or undefined when there is none. A parser reads on to the next `;`, or to
 * the end of the file, and tells that place.
 */
export function strayAmpersand(
  text: string,
  end: number,
): { readonly line: number; readonly column: number } | undefined {
  for (const match of text.matchAll(PLAIN_OR_STRAY)) {
    if (match.index >= end) return undefined;
    if (match[0] !== '&') continue;
    const lines = text.slice(0, match.index).split(/\r\n|\r|\n/);
    return { line: lines.length, column: lines[lines.length - 1].length + 1 };
  }
  return undefined;
}
