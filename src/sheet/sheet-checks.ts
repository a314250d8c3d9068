import {
  both,
  type Check,
  displayUnit,
  isRecord,
  listOf,
  number,
  oneOf,
  optional,
  record,
  that,
  words,
} from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { FINITE, LENGTH } from '../issues/number-issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import type { BoardPlan } from '../model/cut-plan.ts';
import type { LaidBoard } from '../model/layout.ts';
import { findingCheck } from '../model/pattern-checks.ts';
import { boardPlanCheck } from '../model/plan-checks.ts';
import { isPartKey, isSamePart } from '../model/same-part.ts';
import { LONGEST_PAGE, PAPER_SIZES } from '../units/paper.ts';
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

/** Numbers of kinds of parts; a kind is told by a text that layer and part are read from again. */
const numbers: Check = both(map, (field, value) =>
  [...(value as ReadonlyMap<unknown, unknown>)].flatMap(([key, each]) =>
    isPartKey(key)
      ? number({ ...FINITE, least: 0, whole: true })(`${field}.get(${JSON.stringify(key)})`, each)
      : [wrongValue(field, key, 'a key of `partKey` for each', 'Number the parts by `partKey`.')],
  ),
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
  numbers: optional(numbers),
  findings: optional(listOf(findingCheck)),
};

const paperNames = oneOf(
  Object.keys(PAPER_SIZES),
  'Give a paper by name, { width, height } or { roll }, in mm.',
);
const paperSide = number({ ...LENGTH, most: LONGEST_PAGE });
const paperSize = record({ width: paperSide, height: paperSide });
const paperRoll = record({ roll: paperSide });

/** A paper by name, a size or a roll. Whether it leaves room is told where the page is set up, by its margin and overlap. */
const paper: Check = (field, value) => {
  if (!isRecord(value)) return paperNames(field, value);
  return ('roll' in value ? paperRoll : paperSize)(field, value);
};

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

/** What tells that a plan, looked at already, is of another board or layout: a cut of it is of nothing there. */
export function foreignPlan(field: string, plan: BoardPlan | undefined, { placements }: LaidBoard): Issue[] {
  const remedy = 'Hand in the plan of this board, made from this layout.';
  for (const [i, cut] of (plan?.cuts ?? []).entries()) {
    const { placement, piece, part, layer, kind } = cut;
    const at = `${field}.cuts[${i}]`;
    const own = placements[placement];
    if (own === undefined || !isSamePart(own, cut)) {
      const expected = `the number of a placement of part "${part}" of layer "${layer}" among the ${placements.length} of the board, from 0`;
      return [wrongValue(`${at}.placement`, placement, expected, remedy)];
    }
    const { length } = own.region.openings;
    if (kind === 'opening' && own.region.openings[piece] === undefined)
      return [
        wrongValue(
          `${at}.piece`,
          piece,
          `the number of one of the ${length} openings of the part, from 0`,
          remedy,
        ),
      ];
  }
  return [];
}

/** The same for the plans of several boards. */
export function foreignPlans(
  field: string,
  plans: ReadonlyMap<string, BoardPlan> | undefined,
  boards: readonly LaidBoard[],
): Issue[] {
  return boards.flatMap((board) =>
    foreignPlan(`${field}.get(${JSON.stringify(board.id)})`, plans?.get(board.id), board),
  );
}
