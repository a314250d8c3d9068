import { ROUNDING_OF_SIDES } from '../geometry/integer-grid.ts';
import { regionBounds } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import { type Batch, type Demand, marginsAcross } from '../model/batch.ts';
import { speciesKey } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { usableSize } from '../stock/usable.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { type DisplayUnit, formatLength, MM_PER_UNIT } from '../units/length.ts';
import { isLikelyBoard, isOnRule } from './size-issues.ts';
import { waysToLie } from './stock-in-blanks.ts';
import { ifMeant } from './unit-meant.ts';

/** Whether every part of a batch has room on some board of its wood, by boxes, before a search that cannot end well. */

/**
 * An error for every wood of whose boards nothing is left to lay parts on, and for every part that is larger than the boards.
 *
 * @param batch with all boards that may be taken, those for sale too, as they are before they are ripped
 */
export function roomIssues(batch: Batch, unit: DisplayUnit, file: string): Issue[] {
  const rooms = batch.demands.map((demand) => roomFor(demand, batch));
  return [...nothingLeftIssues(rooms, file), ...rooms.flatMap((room) => tooLargeIssues(room, unit, file))];
}

/** The boards a part may be cut from, and the boxes (along x across, mm) in which it may lie on them. */
interface Room {
  readonly demand: Demand;
  readonly candidates: readonly Board[];
  readonly boxes: readonly number[][];
}

function roomFor(demand: Demand, batch: Batch): Room {
  const { boards, thicknessTolerance } = batch;
  const steps = woodSteps(boards, demand.species, demand.thickness, thicknessTolerance);
  const candidates = steps.flat().map(({ board }) => board);
  const boxes = candidates.flatMap((board) => {
    const size = usableSize(board);
    if (size === undefined) return [];
    const [length, across] = size;
    return [[length - 2 * batch.edgeMargin, across - marginsAcross(demand.rules, batch.edgeMargin)]];
  });
  return { demand, candidates, boxes };
}

function isSome([length, across]: number[]): boolean {
  return length > 0 && across > 0;
}

/** Refuses boards of which nothing is left, once for all parts of them: the mistake is in the board and not in a part. */
function nothingLeftIssues(rooms: readonly Room[], file: string): Issue[] {
  const told = new Map<string, Issue>();
  for (const { demand, candidates, boxes } of rooms) {
    if (boxes.some(isSome)) continue;
    const ids = candidates.map(({ id }) => id);
    told.set([speciesKey(demand.species), ...ids].join('\n'), {
      kind: 'part-larger-than-boards',
      severity: 'error',
      message: `trim and edge margin leave nothing of any board of ${demand.species}`,
      received: ids.join(', '),
      remedy: 'Look at "trim", "edgeMargin" and the sizes of the boards: a plain number is in millimetres.',
      where: { file },
    });
  }
  return [...told.values()];
}

/**
 * Refuses a part whose box, in every way the grain allows, is larger than the box of every board of its wood. Boxes only:
 * it is to spare a search that cannot end well, and whether a shape truly fits is the search's own question.
 */
function tooLargeIssues({ demand, candidates, boxes }: Room, unit: DisplayUnit, file: string): Issue[] {
  const part = regionBounds(demand.region);
  const width = part.maxX - part.minX;
  const height = part.maxY - part.minY;
  const { grain, grainTolerance } = demand.rules;
  const ways = waysToLie(demand);
  const fits = ([length, across]: number[]) =>
    ways.some(([along, over]) => along <= length + ROUNDING_OF_SIDES && over <= across + ROUNDING_OF_SIDES) ||
    // Turned at an angle: only the shorter side is sure to count.
    ((grain === 'free' || grainTolerance > 0) && Math.min(width, height) <= Math.min(length, across));
  // Where nothing is left of any board, that has been told once and for all.
  if (boxes.some(fits) || !boxes.some(isSome)) return [];
  const size = (a: number, b: number) => `${formatLength(a, unit)} x ${formatLength(b, unit)}`;
  return [
    {
      kind: 'part-larger-than-boards',
      severity: 'error',
      message: `the part is larger than every board of ${demand.species}`,
      expected: `at most ${boxes
        .filter(isSome)
        .map(([length, across]) => size(length, across))
        .join(' or ')} (along x across, inside the edge margin)`,
      received: `${size(width, height)}, grain ${grain}`,
      remedy: `${inchesMeant(candidates, fits)}${sidesSwapped(candidates, fits)}Make the pattern smaller, add a larger board, or change "grain".`,
      where: { file, layer: demand.layer, part: demand.part },
    },
  ];
}

/**
 * Asks whether inches were meant, where the part fits on a board of the same numbers of inches. Only of numbers as a rule
 * of inches shows them, whole ones or with thirty-seconds: a board of 2 in is one of 50.8 mm, and 50.8 in were not meant.
 * Where one side is such a number of millimetres and the other one of inches, only the first lacks its unit.
 */
function inchesMeant(boards: readonly Board[], fits: (box: number[]) => boolean): string {
  for (const { outline } of boards) {
    const { minX, minY, maxX, maxY } = boundsOf(outline);
    const sides = [maxX - minX, maxY - minY];
    const inches = sides.map((side) => side * MM_PER_UNIT.in);
    const isMeant = (box: number[]) => isLikelyBoard(box) && fits(box);
    if (sides.every(isOnRule) && isMeant(inches))
      return `${ifMeant(sides.map((side) => `"${side} in"`).join(' by '))} `;
    for (const [i, name] of (['length', 'width'] as const).entries()) {
      const isOneLacking = isOnRule(sides[i]) && isOnRule(sides[1 - i] / MM_PER_UNIT.in);
      if (isOneLacking && isMeant(sides.with(i, inches[i])))
        return `${ifMeant(`a ${name} of "${sides[i]} in"`)} `;
    }
  }
  return '';
}

/** Asks whether length and width changed places, where the part fits on a board that is wider than long when turned. */
function sidesSwapped(boards: readonly Board[], fits: (box: number[]) => boolean): string {
  const isMeant = boards.some((board) => {
    const [length, across] = usableSize(board) ?? [0, 0];
    return length < across && fits([across, length]);
  });
  return isMeant
    ? 'The length of a board runs along its grain: see whether length and width changed places. '
    : '';
}
