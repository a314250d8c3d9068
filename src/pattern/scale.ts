import { segmentHull } from '../geometry/segment-hull.ts';
import { type Box, boundsOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import { numberIssue, SOME_LENGTH } from '../issues/number-issue.ts';
import { foundWords } from '../issues/wrong-value.ts';
import type { Drawing } from '../model/drawing.ts';
import type { Layer } from '../model/pattern.ts';
import { type PartRules, partsOfLayer } from './layer-parts.ts';
import type { LayerShapes } from './layers.ts';

/** The finished size of one named thing, which sets the scale of the whole pattern. */
export interface FinishedSize {
  /** Layer to measure; the whole drawing when left out. */
  readonly layer?: string | undefined;
  /** Part of that layer (or of the drawing) to measure. */
  readonly part?: string | undefined;
  readonly side: 'width' | 'height';
  /** Finished length of that side, mm. */
  readonly length: number;
}

/** The factor from drawn to finished size, finished mm per drawn mm, or why there is none. */
export function scaleOf(
  drawing: Drawing,
  layers: readonly LayerShapes[],
  rules: PartRules,
  { scale, finishedSize }: { readonly scale?: number; readonly finishedSize?: FinishedSize },
): number | Issue {
  const { file } = drawing;
  if (finishedSize !== undefined) {
    const fault = scale === undefined ? sizeFault(finishedSize) : STATED_TWICE;
    return fault === undefined
      ? scaleByFinishedSize(drawing, layers, rules, finishedSize)
      : refusal(fault, file);
  }
  if (drawing.page === undefined) return refusal(NO_SIZE, file);
  if (scale === undefined) return 1;
  // A text is no finite number, though it compares like one.
  return Number.isFinite(scale) && scale > 0 ? scale : refusal(scaleFault(scale), file);
}

/** What is wrong with what is said of the size, and the field that says it. */
type Fault = Omit<Issue, 'severity' | 'where'> & { readonly field?: string };

function refusal({ field, kind, ...facts }: Fault, file: string): Issue {
  const where = { file, ...(field === undefined ? {} : { field }) };
  return { kind, severity: 'error', ...facts, where };
}

const STATED_TWICE: Fault = {
  field: 'scale',
  kind: 'scale-stated-twice',
  message: 'both a scale and a finished size are stated',
  expected: 'one of the two',
  remedy: 'Leave out "scale" or "finishedSize".',
};

const NO_SIZE: Fault = {
  kind: 'no-physical-size',
  message: 'the drawing states no physical size, so its scale is unknown',
  expected: 'a width or height with a unit on the svg element, or a finished size',
  remedy:
    'State how long one part or the whole is to be when finished: "finishedSize" in a job, --finished-width on the command line.',
};

function scaleFault(scale: unknown): Fault {
  return {
    field: 'scale',
    kind: 'scale-invalid',
    message: 'the scale is not a size',
    expected: 'a factor above 0',
    received: foundWords(scale),
    remedy: 'State the finished length divided by the drawn one, such as 1.5.',
  };
}

/** The first fault of a finished size, which may come from a caller without types; undefined when it has none. */
function sizeFault(finished: FinishedSize): Fault | undefined {
  if (finished?.side !== 'width' && finished?.side !== 'height') {
    return {
      field: 'finishedSize.side',
      kind: 'finished-size-invalid',
      message: 'the finished size is of no side',
      expected: '"width" or "height"',
      received: foundWords(finished?.side),
      remedy: 'Say which side of the drawing, layer or part is measured.',
    };
  }
  for (const field of ['layer', 'part'] as const) {
    const name: unknown = finished[field];
    if (name === undefined || typeof name === 'string') continue;
    return {
      field: `finishedSize.${field}`,
      kind: 'finished-size-invalid',
      message: 'the finished size is of nothing named',
      expected: `the name of a ${field}`,
      received: foundWords(name),
      remedy: `Name the ${field} as the drawing does, or leave it out.`,
    };
  }
  if (numberIssue('length', finished.length, SOME_LENGTH) === undefined) return undefined;
  return {
    field: 'finishedSize.length',
    kind: 'finished-size-invalid',
    message: 'the finished size is not a length',
    expected: `a length above 0 and up to ${SOME_LENGTH.most} mm`,
    received: foundWords(finished.length),
    remedy: 'State how long the side is to be when finished.',
  };
}

/** Rounds of measuring: the first scale is that of the whole drawing, and a named part may be far smaller. */
const MOST_ROUNDS = 4;

/**
 * How much closer to the curves the named thing is measured than parts are drawn: two corners that both miss the true
 * extent by their tolerance would make the whole pattern larger than asked for by as much.
 */
const CLOSER = 20;

/** Largest size in mm at which a named thing is looked for. */
const LARGEST = 20_000;

/**
 * Measures the named thing at a provisional scale and corrects it until both agree: how parts are made (gaps joined,
 * specks left out) is a matter of finished millimetres, so it must be measured at about the finished size.
 */
function scaleByFinishedSize(
  drawing: Drawing,
  layers: readonly LayerShapes[],
  rules: PartRules,
  finished: FinishedSize,
): number | Issue {
  const sideOf = (box: Box) => (finished.side === 'width' ? box.maxX - box.minX : box.maxY - box.minY);
  const hull = layers.flatMap(({ shapes }) =>
    shapes.flatMap(({ curves }) =>
      curves.flatMap(({ start, segments }) => [start, ...segments.flatMap(segmentHull)]),
    ),
  );
  const whole = boundsOf(hull);
  const drawnSize = Math.max(whole.maxX - whole.minX, whole.maxY - whole.minY);
  // A first guess: right when the whole drawing is measured, too small when the named part is far smaller than it.
  let scale = finished.length / sideOf(whole);
  const closely = { ...rules, tolerance: rules.tolerance / CLOSER };
  if (!(scale > 0 && Number.isFinite(scale))) return namedThingMissing([], finished, drawing.file);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const made = layers.map((layer) => partsOfLayer(layer, scale, closely, drawing.file).layer);
    const box = boxOfNamed(made, finished);
    if (box === undefined) {
      // Not there, or so small beside the rest that it is still a speck: look again closer by.
      if (round === MOST_ROUNDS - 1 || 100 * scale * drawnSize > LARGEST) {
        return namedThingMissing(made, finished, drawing.file);
      }
      scale *= 100;
      continue;
    }
    const side = sideOf(box);
    if (!(side > 0)) return namedThingMissing(made, finished, drawing.file);
    const factor = finished.length / side;
    scale *= factor;
    // So near already, gaps and specks were judged at about the finished size: measuring again would change nothing.
    if (factor > 0.5 && factor < 2) break;
  }
  return scale;
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
  const isLayerMissing =
    part === undefined || !layers.some(({ name }) => layer === undefined || name === layer);
  const names = isLayerMissing
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
    remedy: 'Name a layer and part as the drawing does, or leave both out to measure the whole.',
    where: {
      file,
      field:
        layer === undefined && part === undefined
          ? 'finishedSize'
          : `finishedSize.${isLayerMissing ? 'layer' : 'part'}`,
    },
  };
}
