import {
  type Check,
  displayUnit,
  listOf,
  number,
  oneOf,
  optional,
  record,
  words,
} from '../../issues/checks.ts';
import type { Issue } from '../../issues/issue.ts';
import { issueCheck } from '../../issues/issue-check.ts';
import { FINITE } from '../../issues/number-issue.ts';
import { recordByHand } from '../../issues/record-by-hand.ts';
import { WOOD_FROM } from '../../model/estimate.ts';
import type { Layout } from '../../model/layout.ts';
import { boardAreasCheck } from '../../model/layout-checks.ts';
import { foreignPattern, patternCheck } from '../../model/pattern-checks.ts';
import { anyRange, assemblyPlanCheck, cutPlanCheck, estimateCheck, range } from '../../model/plan-checks.ts';
import type { ReportWork } from './work-sections.ts';

/** Checks of what a report tells besides the layout: a figure that is none would stand in it for the maker to go by. */

const figure = number(FINITE);

/** Where the wood of one species goes. */
export const accountCheck: Check = record(
  {
    species: words(),
    areas: boardAreasCheck,
    exactBoardFeet: figure,
    tallyBoardFeet: figure,
    yieldOfUsed: figure,
    flawShare: figure,
    usedPerSet: optional(figure),
  },
  'Hand in the accounts of `materialAccount`.',
);

/** How far a layout is from the least. */
export const boundCheck: Check = record(
  {
    species: words(),
    thickness: figure,
    boards: figure,
    atLeast: figure,
    filled: figure,
    savedAtMost: figure,
  },
  'Hand in the bounds of `woodBounds`.',
);

const size = record({
  sets: figure,
  how: oneOf(WOOD_FROM),
  boards: figure,
  piece: anyRange,
  wood: optional(figure),
  minutes: range,
});

const work = record(
  {
    pattern: patternCheck,
    cutPlan: cutPlanCheck,
    assembly: assemblyPlanCheck,
    estimate: estimateCheck,
    batchSizes: listOf(size),
    calibration: optional(record({ fitted: listOf(words()) })),
  },
  'Hand in the plans of `planWork`, and the pattern.',
);

const itemsCheck = listOf(
  record({ id: words(), boards: figure, boardFeet: figure, price: optional(figure) }),
);

/** What is to be bought. */
export const purchaseCheck: Check = record(
  {
    items: itemsCheck,
    cheaper: optional(
      listOf(
        record({
          species: words(),
          thickness: figure,
          paid: figure,
          items: itemsCheck,
          total: figure,
          without: listOf(words()),
          work: oneOf(['plane', 'resaw']),
        }),
      ),
    ),
  },
  'Hand in the purchase of `whatToBuy`.',
);

/** What a report says besides. */
export const reportCheck: Check = recordByHand(
  {
    job: words(),
    design: optional(words()),
    date: optional(words()),
    unit: displayUnit,
    issues: optional(listOf(issueCheck)),
    breaches: optional(number({ least: 0, most: 1e9, whole: true })),
    bounds: optional(listOf(boundCheck)),
    material: optional(listOf(accountCheck)),
    work: optional(work),
    purchase: optional(purchaseCheck),
  },
  'See `ReportOptions`.',
);

/** What tells that the plans of the work are of another layout: their pattern has no such parts. */
export function foreignWork(
  field: string,
  { pattern, assembly }: ReportWork,
  { setContents }: Layout,
): readonly Issue[] {
  return foreignPattern(`${field}.pattern`, pattern, [...setContents, ...assembly.parts]);
}
