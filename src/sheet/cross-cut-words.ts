import { heightsWithin } from '../geometry/heights-within.ts';
import { boundsOf, type Line } from '../geometry/shapes.ts';
import { crossCuts, ripsBeforeCrossCuts } from '../model/cross-cuts.ts';
import type { LaidBoard } from '../model/layout.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/**
 * Where a board is cross-cut, and ripped before that, by measure from its left end as it lies on the rack, in the order it is
 * done; empty where it is not cross-cut. A cut far from every part is on no page, and single parts are on none that shows a cut.
 */
export function crossCutWords(board: LaidBoard, unit: DisplayUnit): string {
  const { minX } = boundsOf(board.outline ?? board.usable.outline);
  const cuts = crossCuts(board);
  if (cuts.length === 0) return '';
  const end = (board.trimmed?.leftEnd ?? 0) > 0 ? 'the left end before it is trimmed' : 'the left end';
  const measure = (x: number) => formatLength(x - minX, unit);
  const made = new Set<number>();
  const crossCut = (some: readonly number[]): string[] => {
    const next = some.filter((cut) => !made.has(cut));
    if (next.length === 0) return [];
    const from = made.size === 0 ? ` from ${end}` : '';
    for (const cut of next) made.add(cut);
    return [`cross-cut ${next.map(measure).join(', ')}${from}`];
  };
  const ripped = ripsBeforeCrossCuts(board).flatMap((rip) => {
    const { minX, maxX } = boundsOf(rip);
    const first = cuts.filter((cut) => cut <= minX).at(-1);
    const last = cuts.find((cut) => cut >= maxX);
    const where =
      first === undefined
        ? last === undefined
          ? ''
          : ` up to ${measure(last)}`
        : ` from ${measure(first)}${last === undefined ? ' on' : ` to ${measure(last)}`}`;
    // Where a rip ends short of the board, the piece it is made in is cross-cut from it first.
    const before = crossCut([first, last].filter((cut) => cut !== undefined));
    return [...before, `${ripWords(rip, board, unit)}${where}`];
  });
  return `${[...ripped, ...crossCut(cuts)].join(', then ')}, to the middle of the kerf`;
}

/** A rip by measure from the straight edge of its board, as along a fence. */
function ripWords(rip: Line, { usable, outline, trimmed }: LaidBoard, unit: DisplayUnit): string {
  const whole = outline ?? usable.outline;
  const { minX, maxX } = boundsOf(usable.outline);
  // What is cross-cut off the ends may have reached farther.
  const [, lowest] = heightsWithin(whole, minX, maxX);
  const edge = Math.min(lowest, boundsOf(whole).maxY - (trimmed?.straightEdge ?? 0));
  return `rip ${formatLength(edge - boundsOf(rip).maxY, unit)} above the straight edge`;
}
