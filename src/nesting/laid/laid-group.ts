import { applyToPoint } from '../../geometry/affine.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import type { LaidBoard, Placement, Unplaced } from '../../model/layout.ts';
import { trimmedSides } from '../../stock/trim.ts';
import { unitName } from '../../stock/units.ts';
import type { Arrangement } from '../arrangement/arrangement.ts';
import { demandAt, demandsAlike, perSetOf } from '../groups/demands-alike.ts';
import { begunBoards, boardNameOf, type Group, type StockPiece } from '../groups/group.ts';
import { copiesOf, pinnedOf } from '../groups/group-problem.ts';
import type { PinnedCopy } from '../groups/pinned.ts';
import { turn } from '../problem/orientations.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { referenceOf } from '../problem/problem-spec.ts';
import { onFirstPieces } from './first-pieces.ts';
import { type InSections, inSections } from './in-sections.ts';
import { type Lying, placementOf, rounded, roundedAngle } from './placement-of.ts';
import { whyUnplaced } from './why-unplaced.ts';

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
      const why = reasons.get(demand) ?? whyUnplaced(batch, group, demand, { stopped, isLaid, carrying });
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
