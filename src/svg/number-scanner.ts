/** A whole number of so many digits is exact in a double. */
const MOST_EXACT_DIGITS = 15;
const POWERS_OF_TEN = Float64Array.from({ length: MOST_EXACT_DIGITS + 1 }, (_, power) => 10 ** power);

/**
 * Reads numbers, flags and separators from left to right, as the grammars of path data, point lists, transform
 * lists and viewBox share them: SVG 2 section 9.3.9 "The grammar for path data".
 */
export class NumberScanner {
  readonly text: string;
  /** Place of the next character. */
  at = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** True when nothing is left. */
  get ended(): boolean {
    return this.at >= this.text.length;
  }

  /** Passes white space. */
  skipSpace(): void {
    while (isSpace(this.text.charCodeAt(this.at))) this.at++;
  }

  /** Passes white space with at most one comma in it; true when there was a comma. */
  skipSeparator(): boolean {
    this.skipSpace();
    if (this.text.charCodeAt(this.at) !== 44) return false;
    this.at++;
    this.skipSpace();
    return true;
  }

  /** True when a number starts here. */
  atNumber(): boolean {
    const code = this.text.charCodeAt(this.at);
    return isDigit(code) || code === 46 || code === 43 || code === 45;
  }

  /**
   * The number that starts here, or NaN, with the place left where it was. A number too large to hold is NaN.
   *
   * Up to 15 digits without exponent are gathered as a whole number and divided once by a power of ten, both exact
   * in a double, so that the quotient is rounded right (Clinger 1990, "How to read floating point numbers
   * accurately"); the rest goes the slow way.
   */
  number(): number {
    const { text, at: start } = this;
    let at = start;
    let code = text.charCodeAt(at);
    const negative = code === 45;
    if (negative || code === 43) code = text.charCodeAt(++at);
    const first = at;
    let whole = 0;
    for (; isDigit(code); code = text.charCodeAt(++at)) whole = whole * 10 + (code - 48);
    let digits = at - first;
    let decimals = 0;
    if (code === 46) {
      code = text.charCodeAt(++at);
      const fraction = at;
      for (; isDigit(code); code = text.charCodeAt(++at)) whole = whole * 10 + (code - 48);
      decimals = at - fraction;
      digits += decimals;
    }
    if (digits === 0) return Number.NaN;
    const end = code === 101 || code === 69 ? afterExponent(text, at) : at;
    const fast = digits <= MOST_EXACT_DIGITS && end === at;
    const value = fast
      ? (negative ? -whole : whole) / POWERS_OF_TEN[decimals]
      : Number(text.slice(start, end));
    if (!Number.isFinite(value)) return Number.NaN;
    this.at = end;
    return value;
  }

  /** An arc flag: the one character 0 or 1; anything else gives undefined. */
  flag(): boolean | undefined {
    // One character alone: `a1 1 0 011 1` writes both flags and the x that follows without a space.
    const code = this.text.charCodeAt(this.at);
    if (code !== 48 && code !== 49) return undefined;
    this.at++;
    return code === 49;
  }
}

/** Where an exponent that starts at `at` ends; `at` itself when what follows the e is no whole number. */
function afterExponent(text: string, at: number): number {
  let end = at + 1;
  const sign = text.charCodeAt(end);
  if (sign === 43 || sign === 45) end++;
  const first = end;
  while (isDigit(text.charCodeAt(end))) end++;
  return end > first ? end : at;
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** White space of the grammar: space, tab, line feed, form feed, carriage return, but not the vertical tab. */
function isSpace(code: number): boolean {
  return code === 32 || (code >= 9 && code <= 13 && code !== 11);
}

/** All numbers of a list, unitless, parted by white space or single commas; undefined when it holds anything else. */
export function readNumberList(text: string): number[] | undefined {
  const scanner = new NumberScanner(text);
  const numbers: number[] = [];
  scanner.skipSpace();
  let comma = false;
  while (!scanner.ended) {
    // A comma before the first number, or two in a row, is no number and ends here; one at the end is told below.
    const value = scanner.number();
    if (Number.isNaN(value)) return undefined;
    numbers.push(value);
    comma = scanner.skipSeparator();
  }
  return comma ? undefined : numbers;
}
