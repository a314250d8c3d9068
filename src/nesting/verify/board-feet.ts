import { rings } from '../../geometry/point-checks.ts';
import type { Issue } from '../../issues/issue.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { sameSpecies } from '../../model/same-wood.ts';
import { WIDEST_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { told, wrongFigure } from './places.ts';
import { referenceRegion } from './reference-geometry.ts';
import { FIGURE_TOLERANCE } from './tolerances.ts';

/**
 * Board feet by volume. Which entries are sheets, of which there are none, a layout does not say, nor how much wood the cuts
 * between strips and lengths took: so they are those of some of the entries, with such cuts at most as wide as any saw makes.
 */

/** 144 cubic inches, mm3. */
const BOARD_FOOT = 144 * 25.4 ** 3;

/** Choices of sheets that are looked at; of more entries than these have only the most is known. */
const MOST_CHOICES = 4096;

/** What a board, or some of them, may be in board feet. */
interface Span {
  readonly least: number;
  readonly most: number;
}

/** Checks the board feet of every species, and that they add up to those of the layout. */
export function checkBoardFeet({ boards, figures }: Layout, breaches: Issue[]): void {
  const used = boards.filter(({ placements }) => placements.length > 0);
  const stated = Object.entries(figures.bySpecies);
  for (const [name, { boardFeet }] of stated) {
    const own = used.filter(({ species }) => sameSpecies(species, name));
    const spans = choicesOf(own);
    const slack = FIGURE_TOLERANCE * spans[spans.length - 1].most;
    if (spans.some(({ least, most }) => boardFeet >= least - slack && boardFeet <= most + slack)) continue;
    const field = `figures.bySpecies.${name}.boardFeet`;
    breaches.push(wrongFigure({ field }, inWords(spans[spans.length - 1]), boardFeet));
  }
  const sum = stated.reduce((total, [, { boardFeet }]) => total + boardFeet, 0);
  if (!(Math.abs(sum - figures.boardFeet) <= FIGURE_TOLERANCE * sum))
    breaches.push(wrongFigure({ field: 'figures.boardFeet' }, sum, figures.boardFeet));
}

/** Board feet of boards of one species, each entry of them sheets or not; last those without any sheet. */
function choicesOf(boards: readonly LaidBoard[]): Span[] {
  const entries = [...new Set(boards.map(({ stock }) => stock))];
  let choices: Span[] = [{ least: 0, most: 0 }];
  for (const entry of entries) {
    const own = boards.filter(({ stock }) => stock === entry).map(boardFeetOf);
    const beside = choices.map(({ least, most }) => ({
      least: own.reduce((total, each) => total + each.least, least),
      most: own.reduce((total, each) => total + each.most, most),
    }));
    const all = [...choices, ...beside];
    choices = all.length <= MOST_CHOICES ? all : [{ least: 0, most: all[all.length - 1].most }];
  }
  return choices;
}

/** Board feet of the copies of a board; a blank or a slice is its share of a whole board, saw cuts included. */
function boardFeetOf(board: LaidBoard): Span {
  const { outline, usable, thickness, copies, strips = 1, lengths = 1, slices = 1 } = board;
  const whole = { outline: outline ?? usable.outline, openings: [] };
  // What is no ring is told where it is measured.
  if (rings('outline', whole).length > 0) return { least: 0, most: Number.POSITIVE_INFINITY };
  const { area, box } = referenceRegion(whole);
  const feet = (copies * thickness) / (slices * BOARD_FOOT);
  // What is cut into blanks is a rectangle: each has its share of the cuts, and of where they cross.
  const [along, across] = [lengths, strips].map((count) => ((count - 1) / count) * WIDEST_CROSSCUT_KERF);
  const cut = across * (box[2] - box[0]) + along * (box[3] - box[1]) + along * across;
  return { least: feet * area, most: feet * (area + cut) };
}

function inWords({ least, most }: Span): string {
  return least === most
    ? `${told(most)}, less where some are sheets`
    : `${told(least)} to ${told(most)}, less where some are sheets`;
}
