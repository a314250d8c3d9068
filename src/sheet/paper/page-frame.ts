import type { DisplayUnit } from '../../units/length.ts';
import { type Mark, type MarkedDrawing, rectangle, rings, text } from '../marks/marks.ts';
import { ACCENTED_ASCENT, fitted, textWidth } from '../marks/text-width.ts';
import type { PageSetup } from './page-setup.ts';
import { ruleAcross, ruleDown } from './rule.ts';

/** Of the letters above the window, mm: two lines with all their accents find room between the margin and the rule. */
export const NAME_SIZE = 2.5;

/** From the upper line above the window to the lower one, mm: the lower one keeps off the ticks of the rule. */
const NAME_STEP = 2.65;

/** What stands above the window of a page, in two lines. */
export interface PageName {
  /** The upper line: what lies in the window. It has to be short enough. */
  readonly subject: string;
  /** At the left of the lower line, cut to the room that the right leaves. */
  readonly left: string;
  /** At the right of the lower line, the most important first: on narrow paper the last are left out. */
  readonly right: readonly string[];
}

/** A page with its window framed, its name above and a rule along two sides of the window. */
export function framedPage(
  setup: PageSetup,
  inside: readonly Mark[],
  name: PageName,
  unit: DisplayUnit,
): MarkedDrawing {
  return onPaper(setup, [...inside, ...frameMarks(setup, unit), ...nameMarks(setup, name)]);
}

/** Marks on a whole page. */
export function onPaper({ width, height }: PageSetup, marks: readonly Mark[]): MarkedDrawing {
  return { x: 0, y: 0, width, height, marks };
}

/** The frame of a window and its rules: the same for pages that are set up alike. */
export function frameMarks({ window }: PageSetup, unit: DisplayUnit): Mark[] {
  const { x, y, width, height } = window;
  const frame = rings('frame', rectangle(x, y, width, height));
  return [frame, ...ruleAcross(x, y, width, unit), ...ruleDown(x, y, height, unit)];
}

/** The name above the window of a page. */
export function nameMarks({ window, margin }: PageSetup, { subject, left, right }: PageName): Mark[] {
  const end = window.x + window.width;
  const upper = margin + ACCENTED_ASCENT * NAME_SIZE;
  const lower = upper + NAME_STEP;
  const place = fittingWords(right, window.width);
  const room = window.width - textWidth(place, NAME_SIZE) - 4;
  return [
    text('heading', fitted(subject, window.width, NAME_SIZE), [window.x, upper], NAME_SIZE),
    // A beginning of a few letters says nothing.
    ...(room < 6 * NAME_SIZE
      ? []
      : [text('text', fitted(left, room, NAME_SIZE), [window.x, lower], NAME_SIZE)]),
    text('text', place, [end, lower], NAME_SIZE, 'end'),
  ];
}

/** As many of some words as a width has room for, the first ones. */
function fittingWords(words: readonly string[], width: number): string {
  let count = words.length;
  const joined = () => words.slice(0, count).join(' \u00b7 ');
  while (count > 1 && textWidth(joined(), NAME_SIZE) > width) count--;
  return joined();
}
