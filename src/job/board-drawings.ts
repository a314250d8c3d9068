import { clipLines } from '../geometry/clip-lines.ts';
import { combineRegions } from '../geometry/clipper.ts';
import { mapCurve } from '../geometry/curve.ts';
import { flattenCurve } from '../geometry/flatten.ts';
import {
  endsApart,
  holdsRing,
  locateInRing,
  regionsArea,
  ringArea,
  withoutRepeats,
} from '../geometry/ring.ts';
import { boundsOf, type Line, type Ring, sidesOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingGroup, DrawingShape } from '../model/drawing.ts';
import { USUAL_JOIN_GAP } from '../model/usual-settings.ts';
import { readDrawing } from '../svg/read-drawing.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';

/** Boards that are traced in an SVG: the largest closed line is the outline, those inside it are knots. */

/** Greatest distance in mm between the flattened outline and the true curves. */
const TOLERANCE = 0.05;

/** No knot takes more than this share of a board, */
const MOST_OF_BOARD = 0.5;
/** nor more than this clear of its edge, with others in it: a board with its knots does, in a frame or on a page with an edge. */
const MOST_AROUND_OTHERS = 0.2;

/** What takes more than this share of a knot is its line drawn twice, and no other knot in it. */
const DRAWN_TWICE = 0.5;

/** What is no larger than this, mm, is a dot, and no line of a crack. */
const SPECK = 2;

/** Points nearer than this, mm, are one point. */
const SAME_POINT = 1e-4;

/**
 * Puts outlines and knots in place of drawings. The box of the outline comes to lie at the origin.
 *
 * @param texts text of every drawing by the name the entry gives
 * @param field name of the list in messages
 */
export function withOutlines(
  entries: readonly JobBoard[],
  texts: Readonly<Record<string, string>>,
  file: string,
  field: string,
): { readonly boards: JobBoard[]; readonly issues: Issue[] } {
  const issues: Issue[] = [];
  const boards = entries.map((entry, i): JobBoard => {
    if (entry.drawing === undefined) return entry;
    const place = { file, field: `${entryField(field, entries, i)}.drawing` };
    const traced = tracedBoard(entry, entry.drawing, texts, place);
    issues.push(...traced.issues);
    return traced.board ?? entry;
  });
  return { boards, issues };
}

/** The field of the job that names a drawing. */
interface FieldPlace {
  readonly file: string;
  readonly field: string;
}

/** The entry with the outline and knots of its drawing; without a board where that cannot be used. */
function tracedBoard(
  entry: JobBoard,
  { file: name, scale }: NonNullable<JobBoard['drawing']>,
  texts: Readonly<Record<string, string>>,
  place: FieldPlace,
): { readonly board?: JobBoard; readonly issues: readonly Issue[] } {
  if (!Object.hasOwn(texts, name))
    return { issues: [unusable(`the drawing "${name}" is not at hand`, place)] };
  const read = readDrawing(texts[name], { file: name });
  if (read.drawing.page === undefined)
    return { issues: [...read.issues, unusable(`the drawing "${name}" states no physical size`, place)] };
  const { rings, others } = linesOf(shownShapes(read.drawing.root), scale);
  const [outline, ...inside] = rings.sort((a, b) => ringArea(b) - ringArea(a));
  const left = linesLeftOut(others, outline, name);
  if (outline === undefined) {
    const why = unusable(`the drawing "${name}" has no closed line`, place);
    return { issues: [...left, ...read.issues, why] };
  }
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  const issues = [...left, ...ofBoard(read.issues, scale, [maxX - minX, maxY - minY], place)];
  const covered = coveredBy(inside, outline);
  const frame = covered.find((each) => isBoardItself(each, outline, inside));
  if (frame !== undefined) return { issues: [...issues, framed(name, frame.share, place)] };
  const moved = (ring: Ring) => ring.map(([x, y]): [number, number] => [x - minX, y - minY]);
  const knots = covered.filter(({ share }) => share > 0).map(({ ring }) => ({ outline: moved(ring) }));
  const { drawing: _, ...rest } = entry;
  return {
    board: { ...rest, outline: moved(outline), defects: [...entry.defects, ...knots] },
    issues,
  };
}

/** A closed line within the outermost one, and the share of the wood there that it goes around. */
interface Covered {
  readonly ring: Ring;
  readonly share: number;
}

/** A crack may cross the board without a single corner on it, so the overlap decides. */
function coveredBy(rings: readonly Ring[], outline: Ring): Covered[] {
  const wood = [{ outline, openings: [] }];
  return rings.map((ring) => {
    const covered = combineRegions('intersection', wood, [{ outline: ring, openings: [] }]);
    return { ring, share: regionsArea(covered) / ringArea(outline) };
  });
}

/** True for a line that is too large for a knot: it is the edge of the wood, and the outermost line a frame around it. */
function isBoardItself({ ring, share }: Covered, outline: Ring, inside: readonly Ring[]): boolean {
  return (
    share > MOST_OF_BOARD ||
    (share > MOST_AROUND_OTHERS && liesClear(ring, outline) && inside.some(isHeldBy(ring)))
  );
}

/** Hints that a drawing was made at another scale than it states. */
const SCALE_HINTS = ['size-in-pixels', 'scale-older-pixels', 'scale-unit-mistaken'];

/**
 * What was remarked on in the drawing of a board; where it was made at another scale than 1 : 1, or that may be, with the size
 * that came out: the wood is there to be measured, and no finished piece is.
 */
function ofBoard(
  issues: readonly Issue[],
  scale: number,
  sides: readonly number[],
  where: Issue['where'],
): Issue[] {
  const size = sides.map((side) => Number(side.toFixed(1))).join(' x ');
  const isHint = ({ kind }: Issue) => SCALE_HINTS.includes(kind);
  if (scale === 1 && !issues.some(isHint)) return [...issues];
  const read: Issue = {
    kind: 'board-drawing-size',
    severity: 'note',
    message: `the board is taken to be ${size} mm, the drawing at scale ${Number(scale.toFixed(4))}`,
    remedy:
      'Where it is not, state the "scale" of the drawing: the length of the board by that in the drawing.',
    where,
  };
  return [
    ...issues.map((issue) => (isHint(issue) ? { ...issue, remedy: 'Measure the board.' } : issue)),
    read,
  ];
}

/** True for a ring that keeps clear of the edge of what it lies in, as sapwood with knots in it does not. */
function liesClear(ring: Ring, outer: Ring): boolean {
  return ring.every((point) => locateInRing(point, outer, USUAL_JOIN_GAP) === 1);
}

/** Tells whether a ring is a knot on what another one goes around. */
function isHeldBy(outer: Ring): (ring: Ring) => boolean {
  return (ring) => ringArea(ring) <= DRAWN_TWICE * ringArea(outer) && holdsRing(outer, ring);
}

/** A frame around the board, the edge of its picture, or the outer side of a wide line: parts would lie beside the wood. */
function framed(name: string, share: number, place: FieldPlace): Issue {
  return {
    ...unusable(
      `a closed line in the drawing "${name}" lies within another one and ${share > MOST_OF_BOARD ? 'covers most of it' : 'has further ones in it'}`,
      place,
    ),
    expected: `knots of at most ${100 * MOST_OF_BOARD} % of the board, ${100 * MOST_AROUND_OTHERS} % with others in them`,
    received: `one of ${Math.round(100 * share)} %`,
    remedy:
      'Take the frame away, or the second line of the outline: the outermost line has to be the edge of the wood. A hole as large as that is to be entered under "defects" of the board.',
  };
}

function unusable(message: string, where: FieldPlace): Issue {
  return {
    kind: 'board-drawing-unusable',
    severity: 'error',
    message,
    expected: 'an SVG with the outline of the board as a closed line',
    remedy: 'Draw the outline as one closed line and the knots as closed lines inside it.',
    where,
  };
}

/** The shapes that are switched on. */
function shownShapes({ visible, children }: DrawingGroup): DrawingShape[] {
  if (!visible) return [];
  return children.flatMap((child) => (child.kind === 'group' ? shownShapes(child) : [child]));
}

/** A line of a drawing, and the shape it is of. */
interface DrawnLine {
  readonly line: Line;
  readonly shape: DrawingShape;
}

/** The closed lines of shapes, flattened, those with them whose ends all but meet; and the others, which enclose nothing. */
function linesOf(
  shapes: readonly DrawingShape[],
  scale: number,
): { readonly rings: Ring[]; readonly others: readonly DrawnLine[] } {
  const rings: Ring[] = [];
  const others: DrawnLine[] = [];
  for (const shape of shapes) {
    for (const curve of shape.curves) {
      const line = flattenCurve(mapCurve([scale, 0, 0, scale, 0, 0], curve), TOLERANCE);
      const ring = withoutRepeats(line, SAME_POINT);
      const closes =
        curve.closed || shape.fill !== 'none' || (line.length > 2 && endsApart(line) <= USUAL_JOIN_GAP);
      if (closes && ring.length >= 3 && ringArea(ring) > 1) rings.push(ring);
      else others.push({ line, shape });
    }
  }
  return { rings, others };
}

/**
 * Lines on a board that enclose nothing: a crack, or a knot whose line does not close, and nothing would keep clear of
 * either. Beside it there may be whatever dimensions and notes there are.
 */
function linesLeftOut(lines: readonly DrawnLine[], outline: Ring | undefined, file: string): Issue[] {
  const wood = outline && [{ outline, openings: [] }];
  const left = lines.filter(
    ({ line }) =>
      Math.max(...sidesOf(boundsOf(line))) > SPECK &&
      (wood === undefined || clipLines([line], wood).length > 0),
  );
  const shapes = [...new Set(left.map(({ shape }) => shape))];
  if (shapes.length === 0) return [];
  const [{ element, line }] = shapes;
  return [
    {
      kind: 'board-line-left-out',
      severity: 'warning',
      message:
        shapes.length === 1
          ? 'a line in the drawing of a board that encloses nothing is left out: nothing keeps clear of it'
          : `${shapes.length} shapes with lines in the drawing of a board that enclose nothing, this one first, are left out: nothing keeps clear of them`,
      expected: `closed lines, or ends that meet within ${USUAL_JOIN_GAP} mm`,
      remedy:
        'Close the line around the crack or knot, or enter it under "defects" of the board. Hide it if it is a mere mark.',
      where: { file, element, line },
    },
  ];
}
