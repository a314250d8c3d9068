import { regionBounds } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { type Demand, marginsAcross } from '../model/batch.ts';
import type { LaidBoard } from '../model/layout.ts';
import type { Board } from '../model/stock.ts';
import {
  cutInto,
  hasRoom,
  mayBeRipped,
  sectionOfFullWidth,
  stripsToTurn,
  type WaysToLie,
} from '../stock/ripping.ts';
import { SHORTEST } from '../stock/sections.ts';
import { candidatesFor } from '../stock/wood-choice.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';
import { boardFromEntry } from './board-from-entry.ts';
import type { JobBoard } from './board-schema.ts';
import type { Job } from './job-schema.ts';

/** Boards that are cut up before layout: those too wide for the saw in strips, and any in lengths where the maker says so. */

/**
 * The boards of a list of entries, ripped where an entry says so or the throat asks for it, and cross-cut where it says so. A board with pinned parts
 * is not ripped unasked: the maker has measured them on the whole of it.
 */
export function stockInBlanks(
  { saw, crosscutKerf: kerf, edgeMargin: margin, thicknessTolerance, pinned }: Job,
  entries: readonly JobBoard[],
  demands: readonly Demand[],
): Board[] {
  const rules = { reach: { throat: saw.throat, longest: saw.longest }, kerf, margin };
  const boards = entries.map(boardFromEntry);
  const lengths = entries.map((entry) => entry.lengths ?? 1);
  const shortened = boards.map((board, i) => cutInto({ strips: 1, lengths: lengths[i] }, board, kerf));
  const rooms = shortened.map((board) => sectionOfFullWidth(board, rules.reach));
  const gives = (board: Board, { species, thickness }: Demand) =>
    candidatesFor([board], species, thickness, thicknessTolerance).length > 0;
  const wanted = demands.map((demand) => {
    const ways = waysWithin(demand, margin);
    const hasPlace = (board: Board, i: number) =>
      gives(board, demand) && rooms[i] !== undefined && hasRoom(ways, rooms[i], margin);
    return { demand, ways, isHomeless: !boards.some(hasPlace) };
  });
  return boards.map((board, i) => {
    const isPlain = mayBeRipped(board) && !pinned.some((pin) => pin.board === board.id);
    const own = wanted.filter(({ demand }) => gives(board, demand));
    const parts = own.map(({ ways }) => ways);
    const homeless = own.filter(({ isHomeless }) => isHomeless).map(({ ways }) => ways);
    const strips = entries[i].strips ?? (isPlain ? stripsToTurn(shortened[i], parts, homeless, rules) : 1);
    return cutInto({ strips, lengths: lengths[i] }, board, kerf);
  });
}

/** The boxes a part takes along and across the grain in the ways its rules allow, mm; turned at an angle left out. */
export function waysToLie({ region, rules }: Demand): WaysToLie {
  const { minX, minY, maxX, maxY } = regionBounds(region);
  const width = maxX - minX;
  const height = maxY - minY;
  return [
    ...(rules.grain === 'across' ? [] : [[width, height] as const]),
    ...(rules.grain === 'along' ? [] : [[height, width] as const]),
  ];
}

/** The same for whoever takes the margins of both edges off: what of them a part does not keep is taken off the part. */
export function waysWithin(demand: Demand, margin: number): WaysToLie {
  const spared = 2 * margin - marginsAcross(demand.rules, margin);
  return waysToLie(demand).map(([along, across]) => [along, across - spared] as const);
}

/** Refuses strips that are too narrow to be handled, and lengths that are too short. */
export function smallBlankIssues(boards: readonly Board[], unit: DisplayUnit, file: string): Issue[] {
  return boards.flatMap(({ id, strips, lengths, outline }): Issue[] => {
    const { minX, minY, maxX, maxY } = boundsOf(outline);
    const cuts = [
      { kind: 'strips-too-narrow', what: 'strip', count: strips, size: maxY - minY, is: ['narrow', 'wide'] },
      { kind: 'lengths-too-short', what: 'length', count: lengths, size: maxX - minX, is: ['short', 'long'] },
    ] as const;
    return cuts.flatMap(({ kind, what, count, size, is: [small, large] }): Issue[] => {
      if (count === undefined || size >= SHORTEST) return [];
      return [
        {
          kind,
          severity: 'error',
          message: `${counted(count, what)} of this board would be too ${small}`,
          expected: `${what}s at least ${formatLength(SHORTEST, unit)} ${large}`,
          received: formatLength(Math.max(0, size), unit),
          remedy: `Lower "${what}s" of the board.`,
          where: { file, board: id },
        },
      ];
    });
  });
}

/**
 * What boards are ripped into, one note for every entry that is.
 *
 * @param stated ids of the entries that say so themselves
 */
export function rippingIssues(
  boards: readonly LaidBoard[],
  stated: readonly string[],
  unit: DisplayUnit,
): Issue[] {
  const ripped = new Map<string, LaidBoard>();
  for (const board of boards) if (board.strips !== undefined) ripped.set(board.stock, board);
  return [...ripped].map(([stock, { strips = 1, lengths = 1, outline, usable }]) => {
    const { minX, minY, maxX, maxY } = boundsOf(outline ?? usable.outline);
    const inLengths =
      lengths === 1 ? '' : `, each in ${lengths} lengths of ${formatLength(maxX - minX, unit)},`;
    const lettered =
      lengths === 1
        ? 'Strips are lettered from the top edge.'
        : 'Lengths are lettered from the left end, one strip after the other from the top edge.';
    return {
      kind: 'board-to-rip',
      severity: 'note',
      message: `each board of "${stock}" is ripped into ${strips} strips ${formatLength(maxY - minY, unit)} wide${inLengths} before it is cross-cut`,
      remedy: stated.includes(stock)
        ? lettered
        : `${lettered} Say "strips" of the board for another number of them.`,
      where: { board: stock },
    };
  });
}
