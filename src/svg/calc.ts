/**
 * The sums of CSS: `calc()` with + - * / and brackets (CSS Values and Units Level 3, section 8.1). Its other
 * functions, such as min() and clamp(), are not carried out.
 */

/** A value on the way: a length in user units, or a plain number that scales one. */
interface Term {
  readonly value: number;
  readonly isLength: boolean;
}

/** Deepest nesting of brackets: bounds the stack on hostile text. */
const DEEPEST_BRACKETS = 32;

const TOKEN = /\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?(?:%|[a-z]+)?|[-+*/()])/iy;

/** True when the text is such a sum. */
export function isCalc(text: string): boolean {
  return /^\s*calc\(/i.test(text);
}

/**
 * The length that a sum comes to; undefined when it is mistaken or comes to a plain number.
 *
 * @param lengthOf a single length with a unit in user units, undefined when it is none
 */
export function evaluateCalc(
  text: string,
  lengthOf: (text: string) => number | undefined,
): number | undefined {
  // A calc() inside another is a bracket and nothing more (section 8.1).
  const tokens = tokensOf(text.replace(/calc\(/gi, '('));
  if (tokens === undefined) return undefined;
  const sum = new CalcReader(tokens, lengthOf);
  const term = sum.sum(0);
  // What is left over behind the sum, such as a second one, makes the whole mistaken.
  return term?.isLength && sum.ended ? term.value : undefined;
}

function tokensOf(text: string): string[] | undefined {
  const tokens: string[] = [];
  const trimmed = text.trim();
  TOKEN.lastIndex = 0;
  let end = 0;
  for (let match = TOKEN.exec(trimmed); match !== null; match = TOKEN.exec(trimmed)) {
    tokens.push(match[1]);
    end = TOKEN.lastIndex;
  }
  return end === trimmed.length ? tokens : undefined;
}

/** Reads tokens from left to right, one method for each rank of operators; undefined wherever it makes no sense. */
class CalcReader {
  private at = 0;
  private readonly tokens: readonly string[];
  private readonly lengthOf: (text: string) => number | undefined;

  constructor(tokens: readonly string[], lengthOf: (text: string) => number | undefined) {
    this.tokens = tokens;
    this.lengthOf = lengthOf;
  }

  get ended(): boolean {
    return this.at === this.tokens.length;
  }

  sum(depth: number): Term | undefined {
    let left = this.product(depth);
    while (left !== undefined && (this.tokens[this.at] === '+' || this.tokens[this.at] === '-')) {
      const sign = this.tokens[this.at++] === '+' ? 1 : -1;
      const right = this.product(depth);
      // A length and a plain number cannot be added.
      if (right === undefined || right.isLength !== left.isLength) return undefined;
      left = { value: left.value + sign * right.value, isLength: left.isLength };
    }
    return left;
  }

  private product(depth: number): Term | undefined {
    let left = this.single(depth);
    while (left !== undefined && (this.tokens[this.at] === '*' || this.tokens[this.at] === '/')) {
      const divides = this.tokens[this.at++] === '/';
      const right = this.single(depth);
      if (right === undefined || (right.isLength && (divides || left.isLength))) return undefined;
      left = {
        value: divides ? left.value / right.value : left.value * right.value,
        isLength: left.isLength || right.isLength,
      };
    }
    return left;
  }

  private single(depth: number): Term | undefined {
    const token = this.tokens[this.at++];
    if (token === undefined || depth > DEEPEST_BRACKETS) return undefined;
    if (token === '(') {
      const inner = this.sum(depth + 1);
      return this.tokens[this.at++] === ')' ? inner : undefined;
    }
    if (/[\d.]$/.test(token)) return { value: Number(token), isLength: false };
    const value = this.lengthOf(token);
    return value === undefined ? undefined : { value, isLength: true };
  }
}
