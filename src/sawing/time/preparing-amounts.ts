import { throwOnErrors } from '../../issues/fretlay-error.ts';
import { begunPieces } from '../../model/begun-pieces.ts';
import { boardsToTake } from '../../model/boards-to-take.ts';
import { carriesParts } from '../../model/carries-parts.ts';
import { crossCutLines, isRip } from '../../model/cross-cuts.ts';
import { keeperCuts } from '../../model/keeper-cuts.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { laidBoardsCheck } from '../../model/layout-checks.ts';
import { roughSlice, surplusOf } from '../../model/resawing.ts';
import type { WorkAmounts } from './work-time.ts';

/**
 * What is done to the boards of a layout besides sawing out the parts, in the units of `COMMON_TIMES`: straight cuts counted
 * one by one, those that part keepers from a board too, and boards or slices planed. Boards that carry nothing stay as they
 * are; of a board that is resawn every cut is made, also for slices on which nothing lies, but only the others are planed
 * and cross-cut.
 *
 * @throws FretlayError for what is no layout
 */
export function preparingAmounts(layout: Pick<Layout, 'boards' | 'kerf'>): WorkAmounts {
  throwOnErrors(laidBoardsCheck('layout', layout));
  const used = layout.boards.filter(carriesParts);
  const taken = boardsToTake(layout);
  const begun = taken.flatMap(({ laid }) => begunPieces(laid));
  const edges = begun.map(({ laid, begun: times }) => trimsOf(laid).map((cuts) => cuts * times));
  const partings = used.map((board) => partingsOf(board).map((cuts) => cuts * board.copies));
  return {
    ripping:
      sum(taken.map(({ boards, laid }) => boards * ((laid[0].strips ?? 1) - 1))) +
      sum(edges.map(([rips]) => rips)) +
      sum(partings.map(([rips]) => rips)),
    resawing: sum(
      begun.map(({ laid, begun: times, taken: used }) =>
        laid.slices === undefined ? 0 : times * (laid.slices - 1) + used * surplusCuts(laid, laid.slices),
      ),
    ),
    planing: sum(used.map(({ planeTo, copies }) => (planeTo === undefined ? 0 : copies))),
    crosscutting:
      sum(taken.map(({ boards, laid }) => boards * lengthCuts(laid[0]))) +
      sum(used.map((board) => board.copies * crossCutLines(board).length)) +
      sum(edges.map(([, ends]) => ends)) +
      sum(partings.map(([, across]) => across)),
  };
}

/** Cuts that part a board, or its strips, into lengths. */
function lengthCuts({ strips = 1, lengths = 1 }: LaidBoard): number {
  return strips * (lengths - 1);
}

/** Resaw cuts that take the surplus off a slice, or off a board that gives one: 1 where it is too thick to be planed. */
function surplusCuts({ thickness, planeTo = thickness }: LaidBoard, slices: number): number {
  return surplusOf(roughSlice(thickness, slices), planeTo) > 0 ? 1 : 0;
}

/** Trims of a board: rips along its edges, cross-cuts of its ends. */
function trimsOf({ trimmed }: LaidBoard): readonly [rips: number, ends: number] {
  if (trimmed === undefined) return [0, 0];
  const { topEdge, straightEdge, leftEnd, rightEnd } = trimmed;
  const cuts = (...widths: readonly number[]) => widths.filter((width) => width > 0).length;
  return [cuts(topEdge, straightEdge), cuts(leftEnd, rightEnd)];
}

/** Straight cuts that part the keepers of a board from it: rips along it, cuts across. */
function partingsOf(board: LaidBoard): readonly [rips: number, across: number] {
  const cuts = keeperCuts(board);
  const rips = cuts.filter(isRip);
  return [rips.length, cuts.length - rips.length];
}

function sum(amounts: readonly number[]): number {
  return amounts.reduce((all, each) => all + each, 0);
}
