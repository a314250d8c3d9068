import { type Check, number, oneOf, optional, record, words } from '../issues/checks.ts';
import { LENGTH } from '../issues/number-issue.ts';
import { PAPER_SIZES } from '../units/paper.ts';

/** Checks of what sheets and pages are asked to look like. What a page has room for is told where pages are set up. */

const title = {
  job: words(),
  design: optional(words()),
  date: optional(words()),
  unit: oneOf(['mm', 'in']),
  kerf: number(LENGTH, 'Give the width that the blade removes, as in the layout.'),
  clearance: optional(number(LENGTH)),
  drill: optional(number(LENGTH)),
  line: optional(oneOf(['thin', 'wide', 'bright'])),
};

/** Papers by name; a size or a roll is measured where the page is set up, with its margin and overlap. */
const paper: Check = (field, value) =>
  typeof value === 'object' && value !== null ? [] : oneOf(Object.keys(PAPER_SIZES))(field, value);

/** What a placement sheet says besides its board. */
export const titleCheck: Check = record(title, 'See `TitleFacts`.');

/** What pages are printed on besides. */
export const pagesCheck: Check = record(
  { ...title, paper: optional(paper), orientation: optional(oneOf(['portrait', 'landscape', 'fewest'])) },
  'See `PagesOptions`.',
);
