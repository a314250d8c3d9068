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
  const { x, y, width, height } = setup.window;
  const marks: Mark[] = [
    ...inside,
    rings('frame', rectangle(x, y, width, height)),
    ...ruleAcross(x, y, width, unit),
    ...ruleDown(x, y, height, unit),
    ...nameMarks(setup, name),
  ];
  return { x: 0, y: 0, width: setup.width, height: setup.height, marks };
}

function nameMarks({ window, margin }: PageSetup, { left, right }: PageName): Mark[] {
  const baseline = margin + NAME_SIZE;
  const room = window.width - textWidth(right, NAME_SIZE) - 4;
  return [
    text('heading', fitted(left, room, NAME_SIZE), [window.x, baseline], NAME_SIZE),
    text('text', right, [window.x + window.width, baseline], NAME_SIZE, 'end'),
  ];
}
