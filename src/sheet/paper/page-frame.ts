import type { DisplayUnit } from '../../units/length.ts';
import { type Mark, type MarkedDrawing, rectangle, rings, text } from '../marks/marks.ts';
import { fitted, textWidth } from '../marks/text-width.ts';
import type { PageSetup } from './page-setup.ts';
import { ruleAcross, ruleDown } from './rule.ts';

const NAME_SIZE = 2.6;

/** What stands above the window of a page. */
export interface PageName {
  readonly left: string;
  readonly right: string;
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

interface Frame {
  readonly window: PageSetup['window'];
  readonly unit: DisplayUnit;
  readonly marks: readonly Mark[];
}

/** The frame of the page before: most pages of a job have the same one, some hundreds of ticks long. */
let last: Frame | undefined;

/** The frame of a window and its rules: the same list for setups that are alike and asked for in turn. */
export function frameMarks({ window }: PageSetup, unit: DisplayUnit): readonly Mark[] {
  if (last === undefined || last.unit !== unit || !isSame(last.window, window)) {
    const { x, y, width, height } = window;
    const frame = rings('frame', rectangle(x, y, width, height));
    const marks = [frame, ...ruleAcross(x, y, width, unit), ...ruleDown(x, y, height, unit)];
    last = { window, unit, marks };
  }
  return last.marks;
}

function isSame(a: PageSetup['window'], b: PageSetup['window']): boolean {
  return a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height;
}

/** The name above the window of a page. */
export function nameMarks({ window, margin }: PageSetup, { left, right }: PageName): Mark[] {
  const baseline = margin + NAME_SIZE;
  const room = window.width - textWidth(right, NAME_SIZE) - 4;
  return [
    text('heading', fitted(left, room, NAME_SIZE), [window.x, baseline], NAME_SIZE),
    text('text', right, [window.x + window.width, baseline], NAME_SIZE, 'end'),
  ];
}
