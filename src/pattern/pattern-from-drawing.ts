import { type Box, boundsOf } from '../geometry/shapes.ts';
import { FretlayError, throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { Drawing } from '../model/drawing.ts';
import type { Layer, Pattern } from '../model/pattern.ts';
import { type PartRules, partsOfLayer } from './layer-parts.ts';
import { type LayerShapes, layersOf } from './layers.ts';
import type { InnerShapes } from './solids.ts';

/** The finished size of one named thing, which sets the scale of the whole pattern. */
export interface FinishedSize {
  /** Layer to measure; the whole drawing when left out. */
  readonly layer?: string;
  /** Part of that layer (or of the drawing) to measure. */
  readonly part?: string;
  readonly side: 'width' | 'height';
  /** Finished length of that side, mm. */
  readonly length: number;
}

/** How a drawing becomes a pattern. */
export interface PatternOptions {
  /** Factor from the drawing's size to the finished size (default 1). Not together with `finishedSize`. */
  readonly scale?: number;
  readonly finishedSize?: FinishedSize;
  /** Greatest distance between flattened outlines and true curves, finished mm (default 0.01). */
  readonly tolerance?: number;
  /** Ends of lines up to this far apart are joined, finished mm (default 0.2). */
  readonly joinGap?: number;
  /** What happens to a filled shape wholly inside another (default `unite`). */
  readonly innerShapes?: InnerShapes;
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
  if (pattern === undefined) throw new FretlayError(issues);
  return { pattern, issues };
}

/** Like {@link patternFromDrawing}, with every problem given back as an issue. */
export function tryPatternFromDrawing(drawing: Drawing, options: PatternOptions = {}): PatternResult {
  try {
    return patternOrIssues(drawing, options);
  } catch (error) {
    // Deep in the geometry a coordinate out of range, or a layer without bounds, stops the step.
    if (error instanceof FretlayError) return { pattern: undefined, issues: error.issues };
    throw error;
  }
}

function patternOrIssues(drawing: Drawing, options: PatternOptions): PatternResult {
  const { file } = drawing;
  const { layers, issues } = layersOf(drawing);
  const rules: PartRules = {
    tolerance: options.tolerance ?? 0.01,
    joinGap: options.joinGap ?? 0.2,
    innerShapes: options.innerShapes ?? 'unite',
  };
  const scale = scaleOf(drawing, layers, rules, options);
  if (typeof scale !== 'number') return { pattern: undefined, issues: [...issues, scale] };
  const read = layers.map((layer) => partsOfLayer(layer, scale, rules, file));
  issues.push(...read.flatMap((result) => result.issues));
  const found: Layer[] = [];
  for (const { layer } of read) {
    if (layer.parts.length > 0) found.push(layer);
    else
      issues.push({
        kind: 'layer-empty',
        severity: 'warning',
        message: 'the layer holds no part',
        where: { file, layer: layer.name },
      });
  }
  if (found.length === 0) {
    issues.push({
      kind: 'no-parts',
      severity: 'error',
      message: 'no part can be cut from this drawing',
      expected: 'at least one closed outline',
      received: layers.length === 0 ? 'no shapes' : 'only open lines or shapes that paint nothing',
      remedy: 'Draw the outline of every part as a closed path with a fill or a line.',
      where: { file },
    });
    return { pattern: undefined, issues };
  }
  return { pattern: { file, scale, tolerance: rules.tolerance, layers: found }, issues };
}

function scaleOf(
  drawing: Drawing,
  layers: readonly LayerShapes[],
  rules: PartRules,
  { scale = 1, finishedSize }: PatternOptions,
): number | Issue {
  const where = { file: drawing.file };
  if (finishedSize === undefined) {
    if (drawing.page === undefined) {
      return {
        kind: 'no-physical-size',
        severity: 'error',
        message: 'the drawing states no physical size, so its scale is unknown',
        expected: 'a width or height with a unit on the svg element, or a finished size in the job',
        remedy: 'State how long one part is to be when finished ("finishedSize").',
        where,
      };
    }
    if (scale > 0 && Number.isFinite(scale)) return scale;
    return {
      kind: 'scale-invalid',
      severity: 'error',
      message: 'the scale is not a size',
      expected: 'a factor above 0',
      received: `${scale}`,
      where,
    };
  }
  if (!(finishedSize.length > 0 && Number.isFinite(finishedSize.length))) {
    return {
      kind: 'finished-size-invalid',
      severity: 'error',
      message: 'the finished size is not a length',
      expected: 'a length above 0',
      received: `${finishedSize.length} mm`,
      where,
    };
  }
  const drawn = drawnLayers(layers, rules, drawing.file);
  const box = boxOfNamed(drawn, finishedSize);
  if (box === undefined) return namedThingMissing(drawn, finishedSize, drawing.file);
  const side = finishedSize.side === 'width' ? box.maxX - box.minX : box.maxY - box.minY;
  return finishedSize.length / side;
}

/** Layers at drawn size, only to measure a named thing in them. */
function drawnLayers(layers: readonly LayerShapes[], rules: PartRules, file: string): Layer[] {
  return layers.map((layer) => partsOfLayer(layer, 1, rules, file).layer);
}

function boxOfNamed(layers: readonly Layer[], { layer, part }: FinishedSize): Box | undefined {
  const points = layers
    .filter(({ name }) => layer === undefined || name === layer)
    .flatMap(({ parts }) => parts)
    .filter(({ name }) => part === undefined || name === part)
    .flatMap(({ region }) => region.outline);
  return points.length > 0 ? boundsOf(points) : undefined;
}

function namedThingMissing(layers: readonly Layer[], { layer, part }: FinishedSize, file: string): Issue {
  const names =
    part === undefined || !layers.some(({ name }) => layer === undefined || name === layer)
      ? layers.map(({ name }) => `"${name}"`)
      : layers
          .flatMap((found) => (layer === undefined || found.name === layer ? found.parts : []))
          .map(({ name }) => `"${name}"`);
  return {
    kind: 'finished-size-names-nothing',
    severity: 'error',
    message: 'the finished size names a layer or part that the drawing does not have',
    expected: names.length > 0 ? `one of ${names.slice(0, 12).join(', ')}` : 'a drawing with parts',
    received:
      [layer, part]
        .filter((name) => name !== undefined)
        .map((name) => `"${name}"`)
        .join(', ') || 'nothing to measure',
    where: { file },
  };
}
