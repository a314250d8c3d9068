import { boundsOf, type Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch, SawReach } from '../model/batch.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { rippedByEye } from '../stock/ripping.ts';
import { swingOf } from '../stock/sections.ts';
import { clippedToBox, largestOf } from '../stock/trim.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';

/** Coordinates of a layout are rounded, mm. */
const ROUNDING = 1e-3;

/** Farthest from the blade that wood may reach before it is told, mm: 16 in, a throat of small saws (common practice, no source). */
const SMALL_THROAT = 406.4;

/**
 * A warning for every board with parts that cannot be sawn in every direction within the throat. Where the job states
 * neither a throat nor a greatest length, one note when the boards are long for a saw.
 *
 * @param stock the batch the layout is of: it tells why a board was not ripped
 */
export function throatIssues(
  { boards }: Pick<Layout, 'boards'>,
  { throat, longest }: Partial<SawReach>,
  unit: DisplayUnit,
  stock: Pick<Batch, 'boards' | 'pins'> = { boards: [] },
): Issue[] {
  if (throat === undefined) return longest === undefined ? unstated(boards, unit) : [];
  return boards.flatMap((board): Issue[] => {
    const swings = swingsOf(board);
    const beyond = swings.filter((swing) => swing > throat + 1e-6);
    if (beyond.length === 0) return [];
    return [
      {
        kind: 'part-beyond-throat',
        severity: 'warning',
        message: `${beyond.length} of its ${swings.length} parts cannot be swung all the way round in the throat`,
        expected: `at most ${formatLength(throat, unit)} from the blade to the farthest corner`,
        received: formatLength(Math.max(...beyond), unit),
        remedy: `${ripRemedy(board, stock)}, or saw these parts from the edge.`,
        where: { board: board.id },
      },
    ];
  });
}

/** How the board gets narrower: where it stayed whole for a reason, that reason and the way round it. */
function ripRemedy(
  { stock: id, strips = 1 }: LaidBoard,
  { boards, pins = [] }: Pick<Batch, 'boards' | 'pins'>,
): string {
  if (strips > 1) return 'Say more "strips" of the board';
  const board = boards.find((each) => each.id === id);
  const seen = board && rippedByEye(board);
  const why = seen ?? (pins.some((pin) => pin.board === id) ? 'pins' : undefined);
  if (why === undefined) return 'Say "strips" of the board to have it ripped, or cross-cut it smaller first';
  const [has, own] = STAYS_WHOLE[why];
  return `It was not ripped because it has ${has}: mark strips on it and enter them as boards of their own, ${own}`;
}

/** What a board that is not ripped has, and what the strips entered in its place are given. */
const STAYS_WHOLE = {
  defects: ['defects', 'each with those that lie in it'],
  trim: ['a trim of its edges', 'without what is trimmed off'],
  outline: ['an outline that is no rectangle', 'each with its size or outline'],
  pins: ['pinned parts', 'with the parts pinned there'],
} as const;

/** That the boards stay whole because no throat is stated, with how far they would have to swing. */
function unstated(boards: readonly LaidBoard[], unit: DisplayUnit): Issue[] {
  let farthest = 0;
  let board = '';
  for (const laid of boards) {
    const reached = Math.max(0, ...swingsOf(laid));
    if (reached > farthest) {
      farthest = reached;
      board = laid.id;
    }
  }
  if (farthest <= SMALL_THROAT) return [];
  return [
    {
      kind: 'throat-unstated',
      severity: 'note',
      message: `the job states no throat, so the boards stay whole; on ${board} the wood reaches ${formatLength(farthest, unit)} from the blade`,
      remedy:
        'Say how deep the throat of your saw is: boards are then laid out in sections that swing in it.',
      where: { field: 'saw.throat' },
    },
  ];
}

/** How far from the blade the wood under each part of a board reaches, mm. */
function swingsOf(board: LaidBoard): number[] {
  return board.placements.map((placement) => swingOf(placement.region, pieceUnder(board, placement)));
}

/** The piece of wood that is swung when a part is sawn: its section, or the whole board. */
function pieceUnder({ usable, sections = [] }: LaidBoard, { region }: Placement): Region {
  const part = boundsOf(region.outline);
  const section = sections.find(({ from, to }) => part.minX >= from - ROUNDING && part.maxX <= to + ROUNDING);
  if (section === undefined) return usable;
  const { minY, maxY } = boundsOf(usable.outline);
  return largestOf(clippedToBox(usable, { minX: section.from, minY, maxX: section.to, maxY }));
}
