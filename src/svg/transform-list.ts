import { type Affine, compose, IDENTITY, rotation } from '../geometry/affine.ts';
import { readNumberList } from './number-scanner.ts';
import { type LengthFrame, readLength } from './units.ts';

/**
 * Transform lists in both grammars of CSS Transforms Level 1: the attribute's bare numbers (section 8, "The SVG
 * transform attribute") and CSS functions with units (section 12). A list with one mistake is no transform at all.
 */
export type TransformReading =
  | { readonly ok: true; readonly map: Affine }
  | { readonly ok: false; readonly problem: string };

/** A function and its arguments, which may hold brackets two deep, as a calc() among them does. */
const FUNCTION = /\s*([a-zA-Z][a-zA-Z0-9]*)\s*\(((?:[^()]|\((?:[^()]|\([^()]*\))*\))*)\)\s*(,?)/y;

/** Reads a `transform` attribute. */
export function readTransformAttribute(text: string): TransformReading {
  return readFunctions(text, (name, argument) => {
    const numbers = readNumberList(argument);
    return numbers === undefined ? undefined : attributeFunction(name, numbers);
  });
}

/** Reads the CSS property `transform`. */
export function readCssTransform(text: string, frame: LengthFrame): TransformReading {
  return readFunctions(text, (name, argument) => {
    const parts = argument.split(',').map((part) => part.trim());
    return cssFunction(name.toLowerCase(), parts, frame);
  });
}

/** The CSS properties that each do one step of a transform, in the order they are done in from the outside. */
export const TRANSFORM_STEPS = ['translate', 'rotate', 'scale'] as const;

/** Reads the CSS property `translate`, `rotate` or `scale` (CSS Transforms Level 2, section 5): one flat step. */
export function readTransformStep(
  property: (typeof TRANSFORM_STEPS)[number],
  text: string,
  frame: LengthFrame,
): TransformReading {
  const parts = partsOf(text);
  // A third value, or an axis other than z, leaves the plane.
  const isFlat = property === 'rotate' ? parts.length === 1 || /^(z|0 0 1) /i.test(text) : parts.length < 3;
  if (!isFlat)
    return { ok: false, problem: `"${property}: ${text.slice(0, 40)}" is not a step in the plane` };
  const used = property === 'rotate' ? parts.slice(-1) : parts;
  return readCssTransform(`${property}(${used.join(', ')})`, frame);
}

/** What spaces part; those inside a calc() part nothing. */
function partsOf(text: string): string[] {
  return text.match(/(?:[^\s()]|\((?:[^()]|\([^()]*\))*\))+/g) ?? [];
}

/** The map done about a point instead of the origin. */
export function about(map: Affine, x: number, y: number): Affine {
  return compose([1, 0, 0, 1, x, y], compose(map, [1, 0, 0, 1, -x, -y]));
}

/**
 * Reads `transform-origin`: x and y as lengths, shares of the viewport, or words. Undefined when mistaken.
 */
export function readTransformOrigin(text: string, frame: LengthFrame): readonly [number, number] | undefined {
  const words = partsOf(text.toLowerCase());
  if (words.length === 0 || words.length > 3) return undefined;
  let [first, second = 'center'] = words;
  // Two words may come in either order, `top left` is `left top`; beside a length the order is fixed.
  const both = isWord(first) && isWord(second);
  if (both && (VERTICAL_ONLY.has(first) || second === 'left' || second === 'right')) {
    [first, second] = [second, first];
  }
  const x = readLength(HORIZONTAL.get(first) ?? first, 'x', frame);
  const y = readLength(VERTICAL.get(second) ?? second, 'y', frame);
  return x.ok && y.ok ? [x.value, y.value] : undefined;
}

const HORIZONTAL = new Map([
  ['left', '0'],
  ['center', '50%'],
  ['right', '100%'],
]);
const VERTICAL = new Map([
  ['top', '0'],
  ['center', '50%'],
  ['bottom', '100%'],
]);
const VERTICAL_ONLY = new Set(['top', 'bottom']);

function isWord(text: string): boolean {
  return HORIZONTAL.has(text) || VERTICAL.has(text);
}

function readFunctions(
  text: string,
  meaning: (name: string, argument: string) => Affine | undefined,
): TransformReading {
  const trimmed = text.trim();
  // The very object, so that callers see that nothing is done.
  if (trimmed === '' || trimmed === 'none') return { ok: true, map: IDENTITY };
  let map = IDENTITY;
  let end = 0;
  let comma = false;
  FUNCTION.lastIndex = 0;
  for (let match = FUNCTION.exec(trimmed); match !== null; match = FUNCTION.exec(trimmed)) {
    const step = meaning(match[1], match[2]);
    if (step === undefined) return { ok: false, problem: `"${match[0].trim()}" is not a transform` };
    map = compose(map, step);
    end = FUNCTION.lastIndex;
    comma = match[3] === ',';
  }
  if (end < trimmed.length || comma) {
    return { ok: false, problem: `"${trimmed.slice(end, end + 40)}" is not a transform` };
  }
  return map.every(Number.isFinite)
    ? { ok: true, map }
    : { ok: false, problem: 'its numbers are beyond any drawing' };
}

function attributeFunction(name: string, n: readonly number[]): Affine | undefined {
  const count = n.length;
  switch (name) {
    case 'matrix':
      return count === 6 ? [n[0], n[1], n[2], n[3], n[4], n[5]] : undefined;
    case 'translate':
      return count === 1 || count === 2 ? [1, 0, 0, 1, n[0], n[1] ?? 0] : undefined;
    case 'scale':
      return count === 1 || count === 2 ? [n[0], 0, 0, n[1] ?? n[0], 0, 0] : undefined;
    case 'rotate':
      if (count === 3) return about(rotation(n[0]), n[1], n[2]);
      return count === 1 ? rotation(n[0]) : undefined;
    case 'skewX':
      return count === 1 ? skew(n[0], 0) : undefined;
    case 'skewY':
      return count === 1 ? skew(0, n[0]) : undefined;
    default:
      return undefined;
  }
}

function cssFunction(name: string, parts: readonly string[], frame: LengthFrame): Affine | undefined {
  const values = parts.map((part, i) => cssArgument(name, part, i, frame));
  if (values.some(Number.isNaN)) return undefined;
  const [a, b] = values;
  const most = name === 'matrix' ? 6 : name === 'translate' || name === 'scale' || name === 'skew' ? 2 : 1;
  if (values.length > most || (name === 'matrix' && values.length < 6)) return undefined;
  switch (name) {
    case 'matrix':
      return [a, b, values[2], values[3], values[4], values[5]];
    case 'translate':
    case 'translatex':
      return [1, 0, 0, 1, a, b ?? 0];
    case 'translatey':
      return [1, 0, 0, 1, 0, a];
    case 'scale':
      return [a, 0, 0, b ?? a, 0, 0];
    case 'scalex':
      return [a, 0, 0, 1, 0, 0];
    case 'scaley':
      return [1, 0, 0, a, 0, 0];
    case 'rotate':
    case 'rotatez':
      return rotation(a);
    case 'skew':
      return skew(a, b ?? 0);
    case 'skewx':
      return skew(a, 0);
    case 'skewy':
      return skew(0, a);
    default:
      return undefined;
  }
}

/** One argument of a CSS function as px, degrees or a plain number; NaN when it is none. */
function cssArgument(name: string, text: string, index: number, frame: LengthFrame): number {
  if (name === 'matrix' || name.startsWith('scale')) {
    const share = /^([+-]?[\d.]+)%$/.exec(text);
    return share ? Number(share[1]) / 100 : text === '' ? Number.NaN : Number(text);
  }
  if (name.startsWith('translate')) {
    // A bare number other than 0 is no length in CSS.
    if (/[\d.]$/.test(text) && Number(text) !== 0) return Number.NaN;
    const reading = readLength(text, name === 'translatey' || index === 1 ? 'y' : 'x', frame);
    return reading.ok ? reading.value : Number.NaN;
  }
  return readAngle(text);
}

/** Degrees in one of each CSS angle unit (CSS Values and Units Level 3, section 6.1). */
const DEGREES: Readonly<Record<string, number>> = { deg: 1, grad: 0.9, rad: 180 / Math.PI, turn: 360 };

function readAngle(text: string): number {
  const match = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)(deg|grad|rad|turn)?$/i.exec(text);
  if (!match) return Number.NaN;
  if (match[2] === undefined) return Number(match[1]) === 0 ? 0 : Number.NaN;
  return Number(match[1]) * DEGREES[match[2].toLowerCase()];
}

/** x grows by tan(degreesX) y, and y by tan(degreesY) x. */
function skew(degreesX: number, degreesY: number): Affine {
  const tan = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
  return [1, tan(degreesY), tan(degreesX), 1, 0, 0];
}
