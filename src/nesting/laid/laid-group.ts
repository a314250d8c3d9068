import { applyToPoint } from '../../geometry/affine.ts';
import { type Box, boundsOf, type Point, type Region } from '../../geometry/shapes.ts';
import { counted } from '../../issues/counted.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import type { LaidBoard, Placement, Section, Unplaced } from '../../model/layout.ts';
import { blanksPerBoard } from '../../model/whole-board.ts';
import { USUAL_CROSSCUT_KERF, USUAL_KEEP } from '../../stock/keep-rule.ts';
import { withoutNeedlessCuts } from '../../stock/needless-cuts.ts';
import { type SectionPlan, sectionReach } from '../../stock/sections.ts';
import { isLevelAt, reachesStraightEdge } from '../../stock/sound-edges.ts';
import { type Cell, tightened } from '../../stock/tighten-sections.ts';
import { trimmedOutline, trimmedSides } from '../../stock/trim.ts';
import { MOST_OF_A_KIND, unitName } from '../../stock/units.ts';
import type { Arrangement } from '../arrangement/arrangement.ts';
import { boxFits, boxOf, marginOf, roomBetween } from '../groups/board-margin.ts';
import { demandAt, demandsAlike, perSetOf } from '../groups/demands-alike.ts';
import {
  begunBoards,
  boardNameOf,
  type Group,
  gapOf,
  type StockPiece,
  slicesOf,
  woodName,
} from '../groups/group.ts';
import { copiesOf, liesOf, pinnedOf } from '../groups/group-problem.ts';
import type { PinnedCopy } from '../groups/pinned.ts';
import { turn } from '../problem/orientations.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { referenceOf } from '../problem/problem-spec.ts';
import { onFirstPieces } from './first-pieces.ts';
import {
  BEYOND_SECTIONS,
  HELD_WHOLE,
  LESS_MARGIN,
  NO_EITHER_EDGE,
  NO_STRAIGHT_EDGE,
  NOT_RIPPED,
  STOPPED_BEFORE,
  TOO_CLOSELY,
  TURNS_IN_NONE,
  UNSOUND_BELOW,
} from './laid-issues.ts';
import { type Lying, placementOf, rounded, roundedAngle } from './placement-of.ts';

/** From an arrangement of the engine back to boards with true parts on them. */

/** Boards of one group and the copies that found no place. */
export interface LaidGroup {
  readonly boards: readonly LaidBoard[];
  readonly unplaced: readonly Unplaced[];
}

/**
 * Puts true regions where the arrangement has their copies, and numbers the sets along the boards.
 *
 * @param stopped whether the search was stopped: a copy without a place may then still have one
 */
export function laidGroup(
  batch: Batch,
  group: Group,
  problem: NestingProblem,
  arrangement: Arrangement,
  stopped: boolean,
): LaidGroup {
  const onBoard: Placement[][] = group.pieces.map(() => []);
  const unplaced: Unplaced[] = [];
  const carrying = carryingBoards(group, arrangement);
  let first = 0;
  for (const alike of demandsAlike(group)) {
    const copies = copiesOf(group, alike);
    const perSet = perSetOf(alike);
    const found = Array.from({ length: copies }, (_, i) => located(problem, arrangement, first + i));
    first += copies;
    const pinned = alike.flatMap((demand) => pinnedOf(group, demand).map(locatedPin));
    // Of sets that stay together those that are not whole are taken off again: what is pinned is of the first ones.
    const inOrder =
      batch.setsTogether === true
        ? [...pinned.sort(compareAlongBoards), ...found.sort(compareAlongBoards)]
        : [...pinned, ...found].sort(compareAlongBoards);
    const isLaid = inOrder.some(({ container }) => container >= 0);
    // Found once for every part: of hundreds of copies that fit nowhere each has the reason of the others.
    const reasons = new Map<Demand, string>();
    const whyOf = (demand: Demand): string => {
      const why = reasons.get(demand) ?? reason(batch, group, demand, { stopped, isLaid, carrying });
      reasons.set(demand, why);
      return why;
    };
    inOrder.forEach(({ container, lie }, rank) => {
      const set = group.firstSet + group.stack * Math.floor(rank / perSet);
      const demand = demandAt(alike, rank % perSet);
      if (container < 0) unplaced.push(...unplacedCopies(demand, set, group, whyOf(demand)));
      else onBoard[container].push(placementOf(demand, lie(demand), set));
    });
  }
  return { boards: laidBoards(batch, group, onBoard), unplaced };
}

/** Names of the boards that something lies on. */
function carryingBoards({ pieces }: Group, { container }: Arrangement): Set<string> {
  const names = begunBoards(pieces);
  for (const k of new Set(container)) if (k >= 0) names.add(boardNameOf(pieces[k]));
  return names;
}

/** One for every board of the stack that gives a set that is wanted. */
function unplacedCopies(
  { part, layer }: Demand,
  set: number,
  { stack, lastSet }: Group,
  why: string,
): Unplaced[] {
  const wanted = Math.min(stack, lastSet - set + 1);
  return Array.from({ length: wanted }, (_, i) => ({ part, layer, set: set + i, why }));
}

/** The boards that carry something; the sections of one board come together again. */
function laidBoards(
  batch: Batch,
  { pieces, thickness }: Group,
  onPiece: readonly Placement[][],
): LaidBoard[] {
  const boards = new Map<string, { piece: StockPiece; placements: Placement[] }>();
  pieces.forEach((piece, k) => {
    if (onPiece[k].length === 0) return;
    const name = boardNameOf(piece);
    const known = boards.get(name);
    if (known === undefined) boards.set(name, { piece, placements: [...onPiece[k]] });
    else known.placements.push(...onPiece[k]);
  });
  const begun = begunBoards(pieces);
  const laid = [...boards].map(([name, { piece, placements }]) => {
    const parted = inSections(batch, piece, placements, !begun.has(name));
    return laidBoard(piece, thickness, parted);
  });
  return onFirstPieces(pieces, laid);
}

/** A copy with the piece it lies on, -1 for none, and its reference point there. */
interface Located {
  readonly container: number;
  readonly along: number;
  readonly across: number;
  /** Where the copy lies when it is one of a demand: those that look alike are drawn in different places. */
  readonly lie: (demand: Demand) => Lying;
}

function located(problem: NestingProblem, arrangement: Arrangement, item: number): Located {
  const { degrees: listed, turnedOver } = problem.orientations[arrangement.orientation[item]];
  const degrees = roundedAngle(listed + arrangement.twist[item]);
  const along = arrangement.x[item];
  const across = arrangement.y[item];
  return {
    container: arrangement.container[item],
    along,
    across,
    lie: ({ region }) => {
      const middle = applyToPoint(turn(degrees, turnedOver), referenceOf(region));
      return {
        x: rounded(along - middle[0]),
        y: rounded(across - middle[1]),
        rotation: ((degrees % 360) + 360) % 360,
        turnedOver,
      };
    },
  };
}

function locatedPin({ copy, on }: { readonly copy: PinnedCopy; readonly on: number }): Located {
  const { minX, minY, maxX, maxY } = boundsOf(copy.region.outline);
  const { turnedOver = false } = copy.pin;
  const lie = () => ({ ...copy.pin, turnedOver });
  return { container: on, along: (minX + maxX) / 2, across: (minY + maxY) / 2, lie };
}

/** Placed copies first, board by board, from left to right: sets stay together. */
function compareAlongBoards(a: Located, b: Located): number {
  const board = ({ container }: Located) => (container < 0 ? Number.POSITIVE_INFINITY : container);
  if (board(a) !== board(b)) return board(a) - board(b);
  return a.along - b.along || a.across - b.across;
}

function laidBoard(piece: StockPiece, thickness: number, { sections, placements }: InSections): LaidBoard {
  const { kind, board, units } = piece;
  const { fit, usable } = kind;
  const trimmed = trimmedSides(board);
  return {
    id: boardNameOf(piece),
    stock: board.id,
    species: board.species,
    thickness: board.thickness,
    copies: units.length,
    outline: board.outline,
    ...(trimmed === undefined ? {} : { trimmed }),
    usable,
    ...(kind.edges.straightTop === undefined ? {} : { straightTopEdge: true }),
    placements,
    pieces: units.map((unit) => unitName(board, unit)),
    ...(fit.work === 'none' ? {} : { planeTo: rounded(thickness) }),
    ...(fit.work === 'resaw' ? { slices: fit.slices } : {}),
    ...(board.strips === undefined ? {} : { strips: board.strips }),
    ...((board.lengths ?? 1) > 1 ? { lengths: board.lengths } : {}),
    ...(sections.length === 0 ? {} : { sections }),
  };
}

/** What lies on a board, and the sections it is cut to, numbered from the left. */
interface InSections {
  readonly sections: readonly Section[];
  readonly placements: readonly Placement[];
}

/** The sections drawn together around what lies in them; neighbours that need no cut between them stay in one piece. */
function inSections(
  batch: Batch,
  { sections: plans, kind }: StockPiece,
  placements: readonly Placement[],
  mayShift: boolean,
): InSections {
  const { crosscutKerf: kerf = USUAL_CROSSCUT_KERF, keep = USUAL_KEEP, reach } = batch;
  const cells = cellsOf(plans, placements);
  const tight = tightened(kind.usable, cells, { margin: marginOf(batch), kerf, mayShift });
  const carrying = tight.filter(({ carries }) => carries !== undefined);
  const before = cells.filter(({ carries }) => carries !== undefined);
  const moved = placements.map((placement): Placement => {
    const { minX, maxX } = boundsOf(placement.region.outline);
    const home = before.findIndex(({ from, to }) => minX < to && maxX > from);
    return movedAlong(placement, home < 0 ? 0 : carrying[home].shift);
  });
  const longest = reach === undefined ? Number.POSITIVE_INFINITY : sectionReach(kind.usable, reach);
  const sections = withoutNeedlessCuts(tight, { longest, keepLength: keep.length, gap: gapOf(batch) });
  return { sections: sections.map((section, i) => ({ number: i + 1, ...section })), placements: moved };
}

function cellsOf(plans: readonly SectionPlan[], placements: readonly Placement[]): Cell[] {
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const cells: Cell[] = [];
  for (const { from, to } of plans) {
    const own = boxes.filter(({ minX, maxX }) => minX < to && maxX > from);
    const carries =
      own.length === 0
        ? undefined
        : {
            minX: Math.min(...own.map(({ minX }) => minX)),
            maxX: Math.max(...own.map(({ maxX }) => maxX)),
          };
    const before = cells[cells.length - 1];
    if (before !== undefined && before.carries === undefined && carries === undefined)
      cells[cells.length - 1] = { ...before, to };
    else cells.push({ from, to, carries });
  }
  return cells;
}

function movedAlong(placement: Placement, shift: number): Placement {
  if (shift === 0) return placement;
  const along = ([x, y]: Point): Point => [rounded(x + shift), y];
  const { region, veins } = placement;
  return {
    ...placement,
    x: rounded(placement.x + shift),
    region: { outline: region.outline.map(along), openings: region.openings.map((ring) => ring.map(along)) },
    veins: veins.map((vein) => vein.map(along)),
  };
}

/** Room to spare on a board below which a part may find none, mm: curves are taken up to 0.1 mm larger on either side. */
const SPARE_FOR_CURVES = 0.25;

/** How the search for a place of a copy went. */
interface Fate {
  readonly stopped: boolean;
  /** Whether another copy of the part has one. */
  readonly isLaid: boolean;
  /** Names of the boards that something lies on. */
  readonly carrying: ReadonlySet<string>;
}

/** Whether a piece of board no larger than a box can be swung at the saw. */
function turnsIn(reach: Batch['reach'], { minX, minY, maxX, maxY }: Box): boolean {
  const { throat = Number.POSITIVE_INFINITY, longest = Number.POSITIVE_INFINITY } = reach ?? {};
  const [length, width] = [maxX - minX, maxY - minY];
  return length <= longest && length * length + width * width <= throat * throat;
}

function reason(batch: Batch, group: Group, demand: Demand, { stopped, isLaid, carrying }: Fate): string {
  const wood = woodName(demand.species, demand.thickness);
  // A board in sections is one board, and a stack as many as are in it.
  const boardsOf = (pieces: readonly StockPiece[]) =>
    new Set(pieces.flatMap(({ board, units }) => units.map((unit) => unitName(board, unit))));
  const count = boardsOf(group.pieces).size;
  if (group.stock.length === 0) return `there is no board of ${wood}`;
  if (group.stock.every(({ usable }) => usable.outline.length === 0))
    return `trims and defects leave nothing of the boards of ${wood}`;
  if (count === 0) return `the boards of ${wood} are taken by other parts, or too few for a stack`;
  const parts = liesOf(batch, group, demand).map((lie) => boxOf(demand, lie));
  const fits = ({ outline }: Region, margin = batch.edgeMargin) => {
    const board = boundsOf(outline);
    return parts.some((part) => boxFits(margin, demand.rules, part, board));
  };
  const fitting = boardsOf(group.pieces.filter(({ usable }) => fits(usable)));
  const roomy = fitting.size;
  if (roomy === 0) {
    // Whole boards may hold it where sections that fit the saw, or the strips they are ripped into for it, do not.
    const isSaw = group.pieces.some(({ kind, board }) => board.strips !== undefined || fits(kind.usable));
    const less = group.pieces.some(({ usable }) => fits(usable, 0)) ? `, ${LESS_MARGIN}` : '';
    const ever = parts.some((part) => turnsIn(batch.reach, part)) ? '' : `, ${TURNS_IN_NONE}`;
    return isSaw
      ? `${BEYOND_SECTIONS} of ${wood} that the saw's throat and longest board allow${ever === '' ? less : ever}`
      : `larger than every board of ${wood}`;
  }
  if (stopped) return STOPPED_BEFORE;
  const isRoomy = ({ usable }: StockPiece) => {
    const board = boundsOf(usable.outline);
    return parts.some((part) => roomBetween(batch.edgeMargin, demand.rules, part, board) >= SPARE_FOR_CURVES);
  };
  if (!isLaid && !group.pieces.some(isRoomy)) return `${TOO_CLOSELY} the boards of ${wood}`;
  const areStraightAbove = group.pieces
    .filter(({ kind }) => fits(kind.usable))
    .every(({ kind }) => kind.edges.straightTop !== undefined);
  const edge = areStraightAbove ? NO_EITHER_EDGE : NO_STRAIGHT_EDGE;
  const room = demand.rules.restEdge ? edge : 'no room left on';
  const whole = boardsOf(group.pieces.filter(({ kind }) => fits(kind.usable)));
  const parted = [...whole].filter((board) => !fitting.has(board)).length;
  const large = group.pieces.filter((piece) => demand.rules.restEdge && fits(piece.usable));
  const lacking = [NOT_RIPPED, UNSOUND_BELOW].flatMap((lack) => {
    const number = boardsOf(large.filter((piece) => edgeLackingBelow(piece) === lack)).size;
    const some = number === roomy ? 'all of which have' : counted(number, 'of which has', 'of which have');
    const which = roomy === 1 ? 'which has' : some;
    return number === 0 ? [] : [`, ${which} ${lack}`];
  });
  // More boards help only where those that are looked at have all found a use.
  const isCrowd = group.stock.some(
    (kind) =>
      kind.board.quantity * (slicesOf(kind) ?? 1) > MOST_OF_A_KIND &&
      group.pieces.every((piece) => piece.kind.board !== kind.board || carrying.has(boardNameOf(piece))),
  );
  const besides = [
    ...lacking,
    ...(parted > 0 ? [`; ${parted} more ${HELD_WHOLE}`] : []),
    ...(isCrowd
      ? [`; of one entry no more than ${MOST_OF_A_KIND} are looked at, so enter the others as a second one`]
      : []),
  ].join('');
  // Of one sheet there may be five strips, and of one board three lengths.
  const isWhole = ({ kind, board }: StockPiece) => blanksPerBoard(board) === 1 && (slicesOf(kind) ?? 1) === 1;
  const boards = group.pieces.every(isWhole) ? 'boards' : 'pieces';
  if (roomy < count)
    return `${room} the ${roomy === 1 ? 'one' : roomy} of ${count} ${boards} of ${wood} large enough for it${besides}`;
  return `${count === 1 ? `${room} the board` : `${room} the ${count} ${boards}`} of ${wood}${besides}`;
}

/** What the lower edge of a board lacks: it is not straight, where parts stand only where it is lowest, or it is unsound. */
function edgeLackingBelow({ kind: { board, usable } }: StockPiece): string | undefined {
  const isLevelBelow = ({ outline }: Region) => isLevelAt(outline, boundsOf(outline).maxY);
  if (reachesStraightEdge(board, usable) && isLevelBelow(usable)) return undefined;
  return isLevelBelow(trimmedOutline(board)) ? UNSOUND_BELOW : NOT_RIPPED;
}
