import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { MeetingPieces } from './meet-at-point.ts';
import type { LayerPlace } from './solids.ts';

/** What is told of the shapes of a layer as they become parts. */

/** What is to be said of shapes of a layer; where they are comes with {@link about}. */
type About = Omit<Issue, 'where'>;

/** An issue about one shape of a layer. */
export function about(shape: DrawingShape, place: LayerPlace, issue: About): Issue {
  return { ...issue, where: { ...place, element: shape.element, line: shape.line } };
}

/** Of inner lines of a fill, so many, that the fill rule makes no openings of. */
export function withoutOpening(count: number): About {
  return {
    kind: 'inner-line-without-opening',
    severity: 'note',
    message: `${count === 1 ? '1 inner line makes' : `${count} inner lines make`} no opening under the fill rule nonzero: drawn the same way round as the line around ${count === 1 ? 'it' : 'them'}`,
    remedy: 'If that is to be sawn out, give the shape fill-rule="evenodd", or reverse the inner line.',
  };
}

/** Of lines drawn so wide that their width may be meant as wood; `scale` from drawn to finished size. */
export function wideLines(wide: readonly DrawingShape[], scale: number): About {
  const widest = wide.reduce((most, { strokeWidth }) => Math.max(most, strokeWidth * scale), 0);
  return {
    kind: 'line-wide',
    severity: 'note',
    message:
      wide.length === 1
        ? `the line is drawn ${widest.toFixed(1)} mm wide; it is sawn along its middle`
        : `${wide.length} lines, this one first, are drawn up to ${widest.toFixed(1)} mm wide; they are sawn along their middle`,
    remedy: 'Turn the stroke into a filled shape in the drawing program if its width is wood.',
  };
}

/** Of open lines, so many, that lie on others. */
export function drawnTwice(count: number): About {
  return sawnAnyway(
    count,
    'lies exactly on another one of the layer; it is sawn once',
    'lie exactly on others of the layer; they are sawn once',
  );
}

/** Of open lines, so many, along which a part ends anyway. */
export function alongEdge(count: number): About {
  return sawnAnyway(
    count,
    'runs along the edge of a part, which is sawn anyway; it is no vein',
    'run along edges of parts, which are sawn anyway; they are no veins',
  );
}

/** What becomes of lines where another one is sawn already, in words for a single one and for several. */
function sawnAnyway(count: number, one: string, several: string): About {
  return {
    kind: 'shape-drawn-twice',
    severity: 'note',
    message: count === 1 ? `this line ${one}` : `${count} lines, this one first, ${several}`,
  };
}

/**
 * Of a part that is nowhere wider than `width` mm.
 *
 * @param isDrawn whether it lies between drawn lines, as where the two sides of a pen stroke are traced, and is no fill
 */
export function onlyLine(width: number, isDrawn: boolean): About {
  const what = isDrawn
    ? 'the room between two lines drawn side by side'
    : 'the stroke of a line saved as a filled shape';
  return {
    kind: 'part-only-line',
    severity: 'warning',
    message: `the part is nowhere wider than ${Math.max(width, 0.01).toFixed(2)} mm: ${what}, or a sliver`,
    remedy: isDrawn
      ? 'Delete one of the two lines, which would both be sawn; delete the shape if it is a sliver.'
      : 'Save the drawing with its strokes as lines, which are sawn along their middle; delete the shape if it is a sliver.',
  };
}

/** Of parts, so many, that are mere dots. */
export function onlySpecks(count: number): About {
  return {
    kind: 'part-only-speck',
    severity: 'warning',
    message:
      count === 1
        ? 'the part is smaller than 1.6 mm both ways: a speck of a scan, or a stray mark'
        : `${count} parts, this one first, are smaller than 1.6 mm both ways: specks of a scan, or stray marks`,
    remedy:
      'Delete what is no part, or have specks left out where the scan is traced: each would be laid out and sawn.',
  };
}

/** Of a part that its veins cut into so many pieces. */
export function fallsInto(pieces: number): About {
  return {
    kind: 'part-parted-by-veins',
    severity: 'warning',
    message: `veins run from edge to edge: sawn, the part falls into ${pieces} pieces; it is laid out and counted as one part`,
    remedy:
      'End the veins short of the edge, or draw each piece as a closed outline if they are parts of their own.',
  };
}

/** Of pieces that touch at a point alone. */
export function hangByPoint({ pieces }: MeetingPieces): About {
  return {
    kind: 'pieces-meet-at-point',
    severity: 'warning',
    message: `${pieces} pieces of the shape meet at a point only, where its line crosses or touches itself: sawn, they fall apart, and each is a part`,
    remedy: 'Draw a neck between them if they are one part.',
  };
}

/** Of a shape that crosses itself again and again. */
export const TANGLED: About = {
  kind: 'shape-too-tangled',
  severity: 'warning',
  message: 'crosses itself so often that it cannot be a pattern; it is left out',
  remedy: 'Draw it again, or trace it with fewer points.',
};

/**
 * Of a layer with too many points.
 *
 * @param points those read so far
 * @param most that a layer may have
 */
export function tooManyPoints(points: number, most: number): About {
  return {
    kind: 'layer-too-large',
    severity: 'error',
    message: 'the layer has more points than a pattern can need',
    expected: `at most ${most} points when flattened`,
    received: `${points} so far`,
    remedy: 'Check the scale of the drawing, or simplify it.',
  };
}

/** Of shapes, so many, with next to no area. */
export function specksLeftOut(count: number): About {
  const size = 'less than a ten-thousandth of a square millimetre';
  return {
    kind: 'speck-left-out',
    severity: 'warning',
    message:
      count === 1
        ? `encloses ${size}; it is left out`
        : `${count} shapes, this one first, enclose ${size} each; they are left out`,
    remedy: 'Check the scale of the drawing.',
  };
}

/** Of a shape that can be seen nowhere. */
export const PAINTS_NOTHING: About = {
  kind: 'paints-nothing',
  severity: 'note',
  message: 'draws no line and encloses nothing; it is left out',
};
