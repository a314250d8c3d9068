import { isBox } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';
import { roughSlice, surplusOf } from '../model/resawing.ts';
import { formatThickness } from '../units/distances.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';
import { topEdgeStoodOn } from './board/straight-edge.ts';

/** A verb and its object. */
type Preparation = readonly [verb: string, object: string];

/** What is done to a board before its paper goes on, in the order it is done. */
export function preparingWords(board: LaidBoard, unit: DisplayUnit): readonly Preparation[] {
  return [
    ...blankWords(board, unit),
    ...thinningWords(board, unit),
    ...trimmingWords(board, unit),
    ...edgesWords(board, unit),
  ];
}

/** What is ripped off the edges and cross-cut off the ends; of a board that is no rectangle, from where it reaches farthest. */
export function trimmingWords(board: LaidBoard, unit: DisplayUnit): readonly Preparation[] {
  if (board.trimmed === undefined) return [];
  const { topEdge, straightEdge, leftEnd, rightEnd } = board.trimmed;
  const most = board.outline === undefined || isBox(board.outline) ? '' : 'up to ';
  const wide = (width: number) => formatLength(width, unit);
  const off = (width: number, side: string): Preparation[] =>
    width > 0 ? [['trim', `${most}${wide(width)} off ${side}`]] : [];
  const ends =
    wide(leftEnd) === wide(rightEnd)
      ? off(leftEnd, 'either end')
      : [...off(leftEnd, 'the left end'), ...off(rightEnd, 'the right end')];
  return [...off(topEdge, 'the top edge'), ...off(straightEdge, 'the straight edge'), ...ends];
}

/** Of a board with parts on both edges, how far those lie apart: where it is wider or tapers, those on one edge float. */
export function edgesWords(board: LaidBoard, unit: DisplayUnit): readonly Preparation[] {
  if (topEdgeStoodOn(board) === undefined) return [];
  const { minY, maxY } = boundsOf(board.usable.outline);
  return [['check', `that both edges are straight, ${formatLength(maxY - minY, unit)} apart`]];
}

/** What a board is ripped and cross-cut into, and how large the pieces are: the one that is laid out is one of them. */
export function blankWords(
  { strips = 1, lengths = 1, outline, usable }: LaidBoard,
  unit: DisplayUnit,
): Preparation[] {
  const { minX, minY, maxX, maxY } = boundsOf(outline ?? usable.outline);
  const each = strips > 1 ? 'each' : 'the whole board';
  return [
    ...(strips > 1
      ? [['rip', `the whole board into ${strips} strips ${formatLength(maxY - minY, unit)} wide`] as const]
      : []),
    ...(lengths > 1
      ? [['cross-cut', `${each} into ${lengths} lengths of ${formatLength(maxX - minX, unit)}`] as const]
      : []),
  ];
}

function thinningWords({ thickness: whole, planeTo, slices }: LaidBoard, unit: DisplayUnit): Preparation[] {
  if (planeTo === undefined) return [];
  const thickness = formatThickness(planeTo, unit);
  if (slices === undefined) return [['plane', `to ${thickness}`]];
  if (slices > 1 && surplusOf(roughSlice(whole, slices), planeTo) > 0)
    return [
      ['resaw', `into ${slices} slices, and the surplus off each`],
      ['plane', `each to ${thickness}`],
    ];
  return slices > 1
    ? [['resaw', `into ${slices} slices, plane each to ${thickness}`]]
    : [['resaw', `the surplus off, plane to ${thickness}`]];
}
