import { insideRegion } from '../../geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesMeet,
  type Line,
  middleOf,
  type Point,
  pointBetween,
  type Region,
} from '../../geometry/shapes.ts';
import type { Cut } from '../../model/cut-plan.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { MARK_STYLES } from '../marks/mark-styles.ts';
import { dot, flatMarks, line, type Mark, rectangle, rings, shapeBox, text } from '../marks/marks.ts';
import { ASCENT, textBox, textWidth } from '../marks/text-width.ts';
import { type BoxedPart, boxedParts } from './boxed-part.ts';
import { Sides } from './sides.ts';
import { nearestIn, stretchIn } from './straight-way.ts';

/**
 * The place of each cut in the order of work, written by the start of the cut. It has to be plain which cut a number
 * belongs to: it stands in its own part (that of an opening in the opening), or else a short lead joins it to the
 * start. That of an eye in a small head finds room neither in the eye nor beside it: its lead may run out over the outline
 * of its own part. A number is small and has to stand close by, so a few hundred places around the start are tried, from near to
 * far, against the lines that run there: a map of free space like that for labels would cost a hundred times as much.
 */

/**
 * Sizes of the numbers, mm: the smaller one where the other finds no room. Its digits are 1.15 mm high, as those of the
 * smallest number of a part; see `part-label.ts` for why no less.
 */
const NUMBER_SIZES = [2.1, 1.6] as const;
/** Free space around a number, mm; a wide line takes half its width more. */
const CLEARANCE = 0.35;
const BESIDE_WIDE = CLEARANCE + MARK_STYLES['wide-edge'].width / 2;
/** Farthest the middle of a number may be from the start of its cut, mm: in its own part, and with a lead. */
const REACH = 6;
const LEAD_REACH = 9;
/** Radius of the dot at the start of a cut where a lead ends, mm. */
const START = 0.3;
/** How near to the start a lead is looked at, mm: at the start it touches the line to saw. */
const SHORT_OF_START = 0.1;

/** Marks that no number covers, by their boxes; and by their lines, for the box of a slanting one is mostly free. */
const BOXED: ReadonlySet<string> = new Set(['grain', 'grain-head', 'leader-end', 'weak']);
/**
 * A hole is its cross and its ring: the box of the cross is as wide as a small opening, and would bar the start of its own
 * cut from every lead.
 */
const LINES: ReadonlySet<string> = new Set(['leader', 'section', 'keeper', 'hole-centre', 'rest-edge']);

/** Where the middle of a number may be, seen from the start of its cut: from near to far, in all directions, mm. */
const OFFSETS: readonly Offset[] = offsets(1.2, LEAD_REACH, 0.4, 24);

/** From the start of a cut to a place for its number, and how far that is, mm. */
interface Offset {
  readonly dx: number;
  readonly dy: number;
  readonly away: number;
}

/** What stands on the board already, numbers and leads set so far included. */
interface Taken {
  readonly boxes: Box[];
  readonly lines: SawLine[];
  readonly clearance: number;
}

/** A line that no number covers, with the box around it. */
interface SawLine {
  readonly points: Line;
  readonly closed: boolean;
  readonly box: Box;
}

/** What lies around the start of one cut. */
interface Surroundings {
  readonly start: Point;
  /** The other parts near by. */
  readonly others: readonly BoxedPart[];
  /** Sides of lines near the start: those to saw along, and thin ones. */
  readonly sides: Sides;
  /** The same without those of the part that is cut. Gathered when asked for: few numbers find no place before. */
  readonly foreignSides: () => Sides;
  readonly boxes: readonly Box[];
  /** Free space between a number and a line to saw along, mm. */
  readonly clearance: number;
}

/** Where the number of a cut stands, and how large its type is, mm. */
export interface NumberPlace {
  readonly box: Box;
  readonly size: number;
  /** From the number to the start of its cut, when the number does not stand in its own part. */
  readonly lead: Line | undefined;
}

/**
 * Where the numbers of a board's cuts stand, in the order of the cuts; undefined for one that finds no room by the
 * start of its cut: the cut list has it.
 *
 * @param drawn what is on the board already: no number is written over a text or a saw line
 */
export function placeCutNumbers(
  board: LaidBoard,
  cuts: readonly Cut[],
  drawn: readonly Mark[],
): (NumberPlace | undefined)[] {
  const taken = takenBy(drawn);
  const neighbourhood = new Neighbourhood(board, taken);
  return cuts.map((cut) => {
    const around = neighbourhood.of(cut, LEAD_REACH + textWidth(`${cut.number}`, NUMBER_SIZES[0]));
    // One after the other in the order of the cuts: each heeds those before it, so the numbers are the same every time.
    const place = placeOf(board, cut, around);
    if (place === undefined) return undefined;
    taken.boxes.push(place.box);
    if (place.lead !== undefined) taken.lines.push(sawLine(place.lead, false));
    return place;
  });
}

/** The place of one number: in its part before beside it, in large type before small, and out over its outline last. */
function placeOf(board: LaidBoard, cut: Cut, around: Surroundings): NumberPlace | undefined {
  const wanted = NUMBER_SIZES.map((size) => ({ size, width: textWidth(`${cut.number}`, size) }));
  const led = (box: Box | undefined, size: number): NumberPlace | undefined =>
    box && { box, size, lead: [nearestIn(around.start, box), around.start] };
  for (const { size, width } of wanted) {
    const own = boxInOwn(board, cut, around, { width, size });
    if (own !== undefined) return { box: own, size, lead: undefined };
    const beside = led(boxWithLead(board, around, { width, size }, around.sides), size);
    if (beside !== undefined) return beside;
  }
  // What begins on the outline has the waste beside it as near already.
  if (cut.kind !== 'opening' && cut.kind !== 'vein') return undefined;
  for (const { size, width } of wanted) {
    const outside = led(boxWithLead(board, around, { width, size }, around.foreignSides()), size);
    if (outside !== undefined) return outside;
  }
  return undefined;
}

/** The numbers of cuts in their places; one without a place leaves a dot at the start of its cut, and the key tells why. */
export function cutNumberMarks(cuts: readonly Cut[], places: readonly (NumberPlace | undefined)[]): Mark[] {
  return cuts.flatMap(({ number, line: [start] }, i) => {
    const place = places[i];
    if (place === undefined) return [rings('unnumbered', dot(start, START))];
    const marks = numberMarks(`${number}`, place);
    const { lead } = place;
    return lead === undefined
      ? marks
      : [line('cut-lead', ...lead), rings('cut-number', dot(lead[1], START)), ...marks];
  });
}

/** Rounds of places about the start, each `step` mm farther out, evenly in all directions. */
function offsets(nearest: number, farthest: number, step: number, directions: number): Offset[] {
  const rounds = Math.round((farthest - nearest) / step);
  return Array.from({ length: rounds + 1 }, (_, round) =>
    Array.from({ length: directions }, (_, i): Offset => {
      const angle = (2 * Math.PI * i) / directions;
      const away = nearest + round * step;
      return { dx: away * Math.cos(angle), dy: away * Math.sin(angle), away };
    }),
  ).flat();
}

function takenBy(drawn: readonly Mark[]): Taken {
  const marks = flatMarks(drawn);
  const isWide = marks.some(({ role }) => role === 'wide-edge');
  const taken: Taken = { boxes: [], lines: [], clearance: isWide ? BESIDE_WIDE : CLEARANCE };
  for (const mark of marks) {
    if (mark.kind === 'text') taken.boxes.push(textBox(mark));
    else if (LINES.has(mark.role)) {
      if (mark.kind === 'line') taken.lines.push(sawLine(mark.points, false));
      else for (const ring of mark.rings) taken.lines.push(sawLine(ring, true));
    } else if (BOXED.has(mark.role)) taken.boxes.push(shapeBox(mark));
  }
  return taken;
}

function sawLine(points: Line, closed: boolean): SawLine {
  return { points, closed, box: boundsOf(points) };
}

function sawLines({ placement, box }: BoxedPart): SawLine[] {
  const { region, veins } = placement;
  return [
    { points: region.outline, closed: true, box },
    ...region.openings.map((opening) => sawLine(opening, true)),
    ...veins.map((vein) => sawLine(vein, false)),
  ];
}

/** Tells what lies around the starts of a board's cuts, one after the other. */
class Neighbourhood {
  readonly #parts: readonly BoxedPart[];
  readonly #taken: Taken;
  readonly #edge: SawLine;
  /** Lines with their boxes, made when a cut first starts near the part. */
  readonly #lines = new Map<BoxedPart, readonly SawLine[]>();
  /** Filled anew for every cut: what was told of the one before holds no longer. */
  readonly #sides = new Sides();
  readonly #foreignSides = new Sides();

  /** @param taken heeded as it is when a cut's turn comes, with what has been added by then */
  constructor(board: LaidBoard, taken: Taken) {
    this.#parts = boxedParts(board.placements);
    this.#taken = taken;
    this.#edge = sawLine(board.usable.outline, true);
  }

  /** What lies within `reach` mm of the start of a cut, both ways. */
  of(cut: Cut, reach: number): Surroundings {
    const [start] = cut.line;
    const [x, y] = start;
    const window = { minX: x - reach, minY: y - reach, maxX: x + reach, maxY: y + reach };
    const near = this.#parts.filter(({ box }) => boxesMeet(box, window));
    const own = this.#parts[cut.placement];
    const gather = (sides: Sides, parts: readonly BoxedPart[]) => {
      sides.empty();
      const addNear = ({ points, closed, box }: SawLine) => {
        if (boxesMeet(box, window)) sides.addNear(window, points, closed);
      };
      for (const part of parts) this.#linesOf(part).forEach(addNear);
      addNear(this.#edge);
      this.#taken.lines.forEach(addNear);
      return sides;
    };
    const others = near.filter((each) => each !== own);
    return {
      start,
      others,
      sides: gather(this.#sides, near),
      foreignSides: () => gather(this.#foreignSides, others),
      boxes: this.#taken.boxes.filter((box) => boxesMeet(box, window)),
      clearance: this.#taken.clearance,
    };
  }

  #linesOf(part: BoxedPart): readonly SawLine[] {
    const known = this.#lines.get(part) ?? sawLines(part);
    this.#lines.set(part, known);
    return known;
  }
}

/**
 * A place in the part itself, or in the opening that is cut. No side runs through the box of a number, so that its
 * middle tells for all of it on which side of every line it is.
 */
function boxInOwn(board: LaidBoard, cut: Cut, around: Surroundings, wanted: WantedNumber): Box | undefined {
  const { region } = board.placements[cut.placement];
  const solid: Region =
    cut.kind === 'opening' ? { outline: region.openings[cut.piece], openings: [] } : region;
  return firstFree(
    around,
    wanted,
    REACH,
    (box) => insideRegion(middleOf(box), solid) && isOffOthers(box, around),
  );
}

/**
 * A place outside of all other parts from which a straight lead reaches the start and crosses nothing.
 *
 * @param sides of the lines that the lead may not cross
 */
function boxWithLead(
  board: LaidBoard,
  around: Surroundings,
  wanted: WantedNumber,
  sides: Sides,
): Box | undefined {
  const accepts = (box: Box) =>
    isLeadClear(nearestIn(around.start, box), around, sides) &&
    insideRegion(middleOf(box), board.usable) &&
    isOffOthers(box, around);
  return firstFree(around, wanted, LEAD_REACH, accepts);
}

/** How wide a number is in a type of some size, mm. */
interface WantedNumber {
  readonly width: number;
  readonly size: number;
}

/** The nearest place for a number that touches nothing and is accepted. */
function firstFree(
  around: Surroundings,
  { width, size }: WantedNumber,
  reach: number,
  accepts: (box: Box) => boolean,
): Box | undefined {
  const { start, boxes, sides, clearance } = around;
  for (const { dx, dy, away } of OFFSETS) {
    if (away > reach + 1e-9) return undefined;
    const minX = start[0] + dx - width / 2;
    const minY = start[1] + dy - size / 2;
    // Most places fall here: no box is made for them.
    const maxX = minX + width;
    const maxY = minY + size;
    if (sides.anyIn(minX - clearance, minY - clearance, maxX + clearance, maxY + clearance)) continue;
    const box = { minX, minY, maxX, maxY };
    if (boxes.some((other) => boxesMeet(box, other, CLEARANCE))) continue;
    if (accepts(box)) return box;
  }
  return undefined;
}

/** True when the middle of a number lies in no other part; as no line runs through its box, then none of it does. */
function isOffOthers(box: Box, { others }: Surroundings): boolean {
  return !others.some(
    (other) => boxesMeet(other.box, box) && insideRegion(middleOf(box), other.placement.region),
  );
}

/**
 * True when a lead runs through no number, text or line. It is looked at from a little off the start, where it touches the
 * very line whose cut it names.
 */
function isLeadClear(end: Point, { start, boxes }: Surroundings, sides: Sides): boolean {
  const length = Math.hypot(end[0] - start[0], end[1] - start[1]);
  const share = Math.min(1, SHORT_OF_START / length);
  const from = pointBetween(start, end, share);
  if (boxes.some((box) => stretchIn(from, end, box) !== undefined)) return false;
  return !sides.anyCrossedBy(from, end);
}

function numberMarks(words: string, { box, size }: NumberPlace): Mark[] {
  const { minX, minY, maxX } = box;
  // White under it covers hatching only: there is no saw line here.
  const paper = rectangle(minX, minY, maxX - minX, size);
  const at: Point = [(minX + maxX) / 2, minY + ASCENT * size];
  return [rings('paper', paper), text('cut-number', words, at, size, 'middle')];
}
