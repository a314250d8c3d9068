import { number, oneOf, optional, record, words } from '../issues/checks.ts';
import { FretlayError, throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { FINITE, numberIssue } from '../issues/number-issue.ts';
import { misspelt } from '../issues/record-by-hand.ts';
import type { Drawing } from '../model/drawing.ts';
import type { LeftOutLayer, Pattern } from '../model/pattern.ts';
import { USUAL_JOIN_GAP } from '../model/usual-settings.ts';
import { coloursIssue } from './colours.ts';
import { drawingCheck } from './drawing-check.ts';
import { type PartRules, partsOfLayer } from './layer-parts.ts';
import { type LayerShapes, layersOf } from './layers.ts';
import { withPartsOfOthers } from './lines-left-out.ts';
import type { InnerShapes } from './overlaps.ts';
import { type FinishedSize, scaleOf } from './scale.ts';
import { toldWhere } from './told-where.ts';

/** How a drawing becomes a pattern. */
export interface PatternOptions {
  /** Factor from the drawing's size to the finished size (default 1). Not together with `finishedSize`. */
  readonly scale?: number | undefined;
  readonly finishedSize?: FinishedSize | undefined;
  /** Greatest distance between flattened outlines and true curves, finished mm (default 0.01). */
  readonly tolerance?: number | undefined;
  /** Ends of lines up to this far apart are joined, finished mm (default 0.2). */
  readonly joinGap?: number | undefined;
  /** What happens to a filled shape wholly inside another (default `unite`). */
  readonly innerShapes?: InnerShapes | undefined;
}

/** A pattern, or none when the issues hold an error. */
export interface PatternResult {
  readonly pattern: Pattern | undefined;
  readonly issues: readonly Issue[];
}

/** Finds layers and parts in a drawing and scales them to the finished size. Throws when it cannot. */
export function patternFromDrawing(
  drawing: Drawing,
  options: PatternOptions = {},
): { pattern: Pattern; issues: readonly Issue[] } {
  const { pattern, issues } = tryPatternFromDrawing(drawing, options);
  throwOnErrors(issues);
  // No error and no pattern does not happen; should it, the notes at hand say more than a failure elsewhere.
  if (pattern === undefined) throw new FretlayError(issues);
  return { pattern, issues };
}

/** Like {@link patternFromDrawing}, with every problem given back as an issue. */
export function tryPatternFromDrawing(drawing: Drawing, options: PatternOptions = {}): PatternResult {
  try {
    return patternOrIssues(drawing, options);
  } catch (error) {
    // Deep in the geometry a coordinate out of range, or a layer without bounds, stops the step.
    if (error instanceof FretlayError)
      return { pattern: undefined, issues: error.issues.map((issue) => withSize(issue, drawing, options)) };
    throw error;
  }
}

/** What is told from deep in the geometry, with the drawing and the size that was asked of it. */
function withSize(issue: Issue, { file }: Drawing, { scale, finishedSize }: PatternOptions): Issue {
  const scaled = scale === undefined ? {} : { field: 'scale' };
  const sized = finishedSize === undefined ? scaled : { field: 'finishedSize.length' };
  return { ...issue, where: { file, ...sized, ...issue.where } };
}

function patternOrIssues(drawing: Drawing, options: PatternOptions): PatternResult {
  const wrong = [
    ...drawingCheck('drawing', drawing),
    ...record({})('options', options),
    ...slips('options', options),
    ...misspelt(ofFinishedSize)('options.finishedSize', options?.finishedSize),
  ];
  if (wrong.length > 0) return { pattern: undefined, issues: wrong };
  const { file } = drawing;
  const rules: PartRules = {
    tolerance: options.tolerance ?? 0.01,
    joinGap: options.joinGap ?? USUAL_JOIN_GAP,
    innerShapes: options.innerShapes ?? 'unite',
  };
  const { layers, leftOut, issues: hidden } = layersOf(drawing, rules.innerShapes);
  const invalid = invalidOptions(rules, file);
  if (invalid !== undefined) return { pattern: undefined, issues: [...hidden, invalid] };
  const scale = scaleOf(drawing, layers, rules, options);
  if (typeof scale !== 'number') return { pattern: undefined, issues: [...hidden, scale] };
  const read = layers.map((layer) =>
    toldWhere({ layer: layer.name }, () => partsOfLayer(layer, scale, rules, file)),
  );
  const partsRead = read.map(({ layer }) => layer);
  const empty = partsRead.filter(({ parts }) => parts.length === 0).map(({ name }) => name);
  // A layer of notes or guides beside the only one with parts makes no layers of woods.
  const withParts = read.filter(({ layer }) => layer.parts.length > 0);
  const issues = [
    ...hidden,
    ...(withParts.length === 1 ? coloursIssue(withParts[0], file) : []),
    ...withPartsOfOthers(
      read.flatMap((result) => result.issues),
      partsRead,
    ),
    ...empty.map((layer) => emptyLayer(layer, file)),
  ];
  const found = withParts.map(({ layer }) => layer);
  if (found.length === 0)
    return { pattern: undefined, issues: [...issues, noParts(layers.length === 0, file)] };
  const tolerance = layers.some(isCurved) ? rules.tolerance : 0;
  const pattern: Pattern = { file, scale, tolerance, layers: found };
  const missing = [...leftOut, ...empty.map((name): LeftOutLayer => ({ name, why: 'no parts' }))];
  return { pattern: missing.length === 0 ? pattern : { ...pattern, leftOut: missing }, issues };
}

function emptyLayer(layer: string, file: string): Issue {
  return {
    kind: 'layer-empty',
    severity: 'warning',
    message: 'the layer holds no part',
    remedy: 'Draw the outline of every part as a closed path, or take the layer out of the drawing.',
    where: { file, layer },
  };
}

function noParts(areNoShapes: boolean, file: string): Issue {
  return {
    kind: 'no-parts',
    severity: 'error',
    message: 'no part can be cut from this drawing',
    expected: 'at least one closed outline',
    received: areNoShapes ? 'no shapes' : 'only open lines or shapes that paint nothing',
    remedy: 'Draw the outline of every part as a closed path with a fill or a line.',
    where: { file },
  };
}

/** Whether a layer has a line that is flattened: straight ones are exact, and keep no more than the gap that is asked for. */
function isCurved({ shapes }: LayerShapes): boolean {
  return shapes.some(
    ({ curves, isClipped }) =>
      isClipped === true || curves.some(({ segments }) => segments.some(({ kind }) => kind !== 'line')),
  );
}

/** What each may be is asked where it is used; here only that none is misspelt. */
const ofFinishedSize = { layer: words(), part: words(), side: words(), length: number(FINITE) };
const slips = misspelt({
  scale: optional(number(FINITE)),
  finishedSize: optional(record({})),
  tolerance: optional(number(FINITE)),
  joinGap: optional(number(FINITE)),
  innerShapes: optional(words()),
});

/** Tolerance and gap between which they make sense. */
const LIMITS = {
  tolerance: { least: 1e-4, most: 10, unit: 'mm' },
  joinGap: { least: 0, most: 50, unit: 'mm' },
} as const;

function invalidOptions(rules: PartRules, file: string): Issue | undefined {
  for (const field of ['tolerance', 'joinGap'] as const) {
    const remedy = `Leave "${field}" out to have the usual one.`;
    const issue = numberIssue(field, rules[field], LIMITS[field], remedy);
    if (issue !== undefined) return { ...issue, where: { file, field } };
  }
  const [issue] = oneOf(['unite', 'openings'])('innerShapes', rules.innerShapes);
  return issue === undefined ? undefined : { ...issue, where: { file, ...issue.where } };
}
