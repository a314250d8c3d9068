/** What a parser stops at, by the slip that makers make, and what to do about it. */
export interface Slip {
  readonly words: string;
  readonly remedy: string;
}

/**
 * The slip that a maker has most likely made where a parser stops, for that only tells what it would have liked to see
 * there; undefined when it is none of those that are known.
 *
 * @param offset where the parser stops, in characters from the beginning of the text
 */
export function slipAt(text: string, offset: number): Slip | undefined {
  return commaFault(text, offset) ?? quoteFault(text, offset) ?? unquotedFault(text, offset);
}

/** The slips with a comma, which makers make most. */
function commaFault(text: string, offset: number): Slip | undefined {
  const before = text.slice(Math.max(0, offset - 400), offset);
  const after = text.slice(offset, offset + 400);
  // In a list 0,9 are two numbers, which are JSON: only after a field is such a comma a fault.
  const whole = /:\s*(-?\d+),\s*$/.exec(before)?.[1];
  const decimals = /^\d+/.exec(after)?.[0];
  if (whole !== undefined && decimals !== undefined)
    return {
      words: `: ${whole},${decimals} is written with a comma`,
      remedy: `Write a point for the decimals: ${whole}.${decimals}.`,
    };
  // Where a parser stops at a trailing comma is before it, or at the bracket after it.
  const closing = /^\s*([}\]])/.exec(after.replace(/^\s*,/, ''))?.[1];
  if (closing !== undefined && (/,\s*$/.test(before) || /^\s*,/.test(after)))
    return {
      words: `: there is a comma before ${closing}, and nothing after it`,
      remedy: 'Take the comma away, or write what is missing after it.',
    };
  const stray = /([,{[])\s*$/.exec(before)?.[1];
  if (stray === undefined || !/^\s*,/.test(after)) return undefined;
  const words =
    stray === ',' ? 'there is a comma behind another one' : `there is a comma right after ${stray}`;
  return { words: `: ${words}`, remedy: 'Take the comma away, or write what is missing before it.' };
}

/** Quotes of a word processor, and the mark of inches that ends the text it stands in. */
function quoteFault(text: string, offset: number): Slip | undefined {
  const from = text.lastIndexOf('\n', offset - 1) + 1;
  const before = text.slice(Math.max(from, offset - 400), offset);
  const [after] = text.slice(offset, offset + 400).split('\n', 1);
  const curly = /^[\u201c-\u201f\u2018-\u201b\u00ab\u00bb]/.exec(after)?.[0] ?? unendedWithCurly(after);
  if (curly !== undefined)
    return {
      words: `: ${curly} is no quote that JSON knows`,
      remedy: 'Save it as plain text with straight quotes, ": word processors make curly ones of them.',
    };
  // The parser stops behind the mark, where the text has ended for it: at the true end, or at what follows.
  const isMark = /"[^"]*\d"$/.test(before) && after.startsWith('"');
  if (!isMark && !(/"[^"]*\d" ?$/.test(before) && /^[a-z]/i.test(after))) return undefined;
  return {
    words: ': a mark of inches ends the text it stands in',
    remedy: 'Write an inch mark within a text as \\" or as in: "5-1/2 in".',
  };
}

/** Single quotes, one that is missing, a name or a length without any, and a remark: a parser calls most of them a symbol. */
function unquotedFault(text: string, offset: number): Slip | undefined {
  const before = text.slice(Math.max(0, offset - 400), offset);
  const [after] = /^[^\n]*/.exec(text.slice(offset))!;
  if (/^(\/\/|\/\*|#\s)/.test(after))
    return { words: ': remarks are not JSON', remedy: 'Take the remark away.' };
  const single = /^'([^'"\\\n]*)'/.exec(after)?.[1];
  if (single !== undefined)
    return { words: `: '${single}' has single quotes`, remedy: `Write double quotes: "${single}".` };
  if (/^"[^"]*$/.test(after))
    return { words: ': the text that begins here does not end on its line', remedy: 'Write " at its end.' };
  const name = /[{,]\s*$/.test(before) ? /^([\p{L}$_][\w$-]*)\s*:/u.exec(after)?.[1] : undefined;
  // The value as a whole: the parser stops within it, behind what may be a number.
  const [begun] = /[^:,[{\n"]*$/.exec(before)!;
  const isValue = /[:[,]\s*$/.test(before.slice(0, before.length - begun.length));
  const value = isValue ? `${begun}${/^[^,:{}[\]\n"']*/.exec(after)![0]}`.trim() : undefined;
  const bare = name ?? (value !== undefined && LETTERS_OR_LENGTH.test(value) ? value : undefined);
  if (bare === undefined || NO_TEXTS.includes(bare.toLowerCase())) return undefined;
  return { words: `: ${bare} has no quotes`, remedy: `Write it in quotes: "${bare}".` };
}

/** A word or several, or a number with its unit. */
const LETTERS_OR_LENGTH = /^(\p{L}[^"']*|[\d¼½¾][\d\s./\u00bc-\u00be-]*\p{L}+\.?)$/u;

/** What other languages write for a value that JSON has too, or has not. */
const NO_TEXTS: readonly string[] = ['true', 'false', 'none', 'null', 'nan', 'infinity', 'undefined'];

/** The curly quote that was to end a text which a straight one begins. */
function unendedWithCurly(after: string): string | undefined {
  return /^"[^"\u201c-\u201f]*([\u201c-\u201f])[^"]*$/.exec(after)?.[1];
}
