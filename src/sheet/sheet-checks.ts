import {
  both,
  type Check,
  displayUnit,
  listOf,
  number,
  oneOf,
  optional,
  that,
  words,
} from '../issues/checks.ts';
import { LENGTH } from '../issues/number-issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { findingCheck } from '../model/pattern-checks.ts';
import { boardPlanCheck } from '../model/plan-checks.ts';
import { PAPER_SIZES } from '../units/paper.ts';
import { PartDrawer } from './board/part-marks.ts';

/** Checks of what sheets and pages are asked to look like. What a page has room for is told where pages are set up. */

/** By what it does, for a Map of another realm is none of this one. */
const map = that(
  (value) => typeof (value as Partial<Map<unknown, unknown>> | null)?.get === 'function',
  'a Map',
);

/** Plans by the id of their board. */
export const plansCheck: Check = both(map, (field, value) =>
  [...(value as ReadonlyMap<unknown, unknown>)].flatMap(([id, plan]) =>
    boardPlanCheck(`${field}.get(${JSON.stringify(id)})`, plan),
  ),
);

/** What is shared between drawings of one layout; the plan of a board is easily handed in at its place. */
export const drawerCheck: Check = optional(
  that((value) => value instanceof PartDrawer, 'what drew other sheets of this layout'),
);

const title = {
  job: words(),
  design: optional(words()),
  date: optional(words()),
  unit: displayUnit,
  kerf: number(LENGTH, 'Give the width that the blade removes, as in the layout.'),
  clearance: optional(number(LENGTH)),
  drill: optional(number(LENGTH)),
  line: optional(oneOf(['thin', 'wide', 'bright'])),
  numbers: optional(map),
  findings: optional(listOf(findingCheck)),
};

/** Papers by name; a size or a roll is measured where the page is set up, with its margin and overlap. */
const paper: Check = (field, value) =>
  typeof value === 'object' && value !== null ? [] : oneOf(Object.keys(PAPER_SIZES))(field, value);

/** What a placement sheet says besides its board. */
export const titleCheck: Check = recordByHand(
  { ...title, plan: optional(boardPlanCheck) },
  'See `TitleFacts`.',
);

/** What pages are printed on besides. */
export const pagesCheck: Check = recordByHand(
  {
    ...title,
    paper: optional(paper),
    orientation: optional(oneOf(['portrait', 'landscape', 'fewest'])),
    margin: optional(number(LENGTH)),
    overlap: optional(number(LENGTH)),
    plans: optional(plansCheck),
  },
  'See `PagesOptions`.',
);
