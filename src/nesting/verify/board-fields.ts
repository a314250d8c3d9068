import { boundsOf } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { blanksPerBoard } from '../../model/whole-board.ts';
import { TRIMMED_SIDES } from '../../stock/trimmed-sides.ts';
import { letterOf } from '../../stock/units.ts';
import { breach, told } from './places.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/** Whether what a board says of itself can be: its fields one against the other, whatever lies on it. */

/** Checks names of the stack, thickness after planing, trims, and sections of every board. */
export function checkBoardFields({ boards }: Layout, breaches: Issue[]): void {
  boards.forEach((board, i) => {
    const refuse = (field: string, expected: string, received: string) =>
      breaches.push(
        breach(
          'setting-invalid',
          'the layout states what cannot be',
          { board: board.id, field: `boards[${i}].${field}` },
          { expected, received },
        ),
      );
    const { id, copies, pieces, thickness, planeTo = 0, slices = 1 } = board;
    if (pieces !== undefined && pieces.length !== copies)
      refuse('pieces', `${copies}, one for each of the copies`, `${pieces.length}`);
    // The sheet is named after the one, and the plan takes the other.
    else if (pieces !== undefined && pieces[0] !== id) refuse('pieces[0]', id, pieces[0]);
    else
      checkPieceNames(board, (k, expected, received) =>
        refuse(pieces === undefined ? 'id' : `pieces[${k}]`, expected, received),
      );
    // What the saw takes between slices is not stated: at least their wood has to be there.
    const wood = planeTo * slices;
    if (!(wood <= thickness + DISTANCE_TOLERANCE))
      refuse('planeTo', `at most ${told(thickness / slices)} mm`, `${told(planeTo)} mm`);
    checkTrims(board, refuse);
    checkSections(board, refuse);
  });
}

/** What is trimmed off first is no wood that may be used: the sheet says to saw it off. */
function checkTrims(
  { outline, usable, trimmed }: LaidBoard,
  refuse: (field: string, expected: string, received: string) => void,
): void {
  if (trimmed === undefined) return;
  const left = boundsOf(usable.outline);
  const whole = outline === undefined ? left : boundsOf(outline);
  const most = {
    topEdge: left.minY - whole.minY,
    straightEdge: whole.maxY - left.maxY,
    leftEnd: left.minX - whole.minX,
    rightEnd: whole.maxX - left.maxX,
  };
  for (const side of TRIMMED_SIDES) {
    if (trimmed[side] <= most[side] + DISTANCE_TOLERANCE) continue;
    refuse(
      `trimmed.${side}`,
      `at most ${told(Math.max(0, most[side]))} mm, beyond what may be used`,
      `${told(trimmed[side])} mm`,
    );
  }
}

/**
 * A single board is named by its entry, its number, and letters for blank and slice: it is taken from the rack by that, and
 * of three lengths there is no fourth.
 */
function checkPieceNames(
  { id, stock, pieces = [id], strips, lengths, slices = 1 }: LaidBoard,
  refuse: (piece: number, expected: string, received: string) => void,
): void {
  const cutInto = [blanksPerBoard({ strips, lengths }), slices].filter((count) => count > 1);
  const number = new RegExp(`^-[1-9]\\d*${'(s\\d+|[a-z])'.repeat(cutInto.length)}$`);
  pieces.forEach((name, k) => {
    const found = name.startsWith(stock) ? number.exec(name.slice(stock.length)) : null;
    if (found !== null && cutInto.every((count, i) => isNamed(found[i + 1], count))) return;
    const first = `${stock}-1${cutInto.map(() => 'a').join('')}`;
    const last = `${stock}-1${cutInto.map(letterOf).join('')}`;
    const example = first === last ? first : `${first} to ${last}`;
    refuse(k, `a board of its entry "${stock}", such as ${example}`, name);
  });
}

/** Whether one of so many pieces is named so, written as it is printed: one piece has one name. */
function isNamed(letter: string, count: number): boolean {
  const place = letter.length === 1 ? letter.charCodeAt(0) - BEFORE_A : Number(letter.slice(1));
  return place >= 1 && place <= count && letter === letterOf(place);
}

const BEFORE_A = 'a'.charCodeAt(0) - 1;

function checkSections(
  { sections = [], outline, usable }: LaidBoard,
  refuse: (field: string, expected: string, received: string) => void,
): void {
  const { minX, maxX } = boundsOf(outline ?? usable.outline);
  sections.forEach(({ number, from, to }, i) => {
    if (number !== i + 1) refuse(`sections[${i}].number`, `${i + 1}, counted from the left`, `${number}`);
    const before = i === 0 ? minX : sections[i - 1].to;
    const what = i === 0 ? 'the end of the board' : 'the section before it';
    if (!(from >= before - DISTANCE_TOLERANCE))
      refuse(`sections[${i}].from`, `at least ${told(before)} mm, ${what}`, `${told(from)} mm`);
    if (!(to > from))
      refuse(`sections[${i}].to`, `more than ${told(from)} mm, where it begins`, `${told(to)} mm`);
    if (!(to <= maxX + DISTANCE_TOLERANCE))
      refuse(`sections[${i}].to`, `at most ${told(maxX)} mm, the end of the board`, `${told(to)} mm`);
  });
}
