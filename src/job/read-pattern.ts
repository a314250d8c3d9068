import { FretlayError } from '../issues/fretlay-error.ts';
import type { Pattern } from '../model/pattern.ts';
import {
  type PatternOptions,
  type PatternResult,
  tryPatternFromDrawing,
} from '../pattern/pattern-from-drawing.ts';
import { secondOpinion } from '../pattern/second-opinion.ts';
import { type ReadDrawingOptions, tryReadDrawing } from '../svg/read-drawing.ts';

/** How to read an SVG into a pattern: how to read the drawing, and how it becomes parts. */
export interface ReadPatternOptions extends ReadDrawingOptions, PatternOptions {
  /** Measures everything again with other libraries and reports where they differ (default false). */
  readonly secondOpinion?: boolean | undefined;
}

/**
 * Reads the text of an SVG into a pattern at finished size; warnings come back with it.
 *
 * @throws FretlayError with every issue when it is not a drawing with parts
 */
export function readPattern(
  svgText: string,
  options: ReadPatternOptions = {},
): { readonly pattern: Pattern; readonly issues: PatternResult['issues'] } {
  const { pattern, issues } = tryReadPattern(svgText, options);
  // Warnings as well: that a size is no length says why there is none, and every open line why no outline is.
  if (pattern === undefined) throw new FretlayError(issues);
  return { pattern, issues };
}

/** Like {@link readPattern}, with every problem given back as an issue. */
export function tryReadPattern(svgText: string, options: ReadPatternOptions = {}): PatternResult {
  const read = tryReadDrawing(svgText, options);
  if (read.drawing === undefined) return { pattern: undefined, issues: read.issues };
  const made = tryPatternFromDrawing(read.drawing, options);
  const again =
    options.secondOpinion && made.pattern !== undefined ? secondOpinion(read.drawing, made.pattern) : [];
  // A finished size is what that warning asks for.
  const isSized = made.pattern !== undefined && options.finishedSize !== undefined;
  const ofDrawing = isSized ? read.issues.filter(({ kind }) => kind !== 'size-not-stated') : read.issues;
  return { pattern: made.pattern, issues: [...ofDrawing, ...made.issues, ...again] };
}
