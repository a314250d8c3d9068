import { both, type Check, listOf, number, oneOf, optional, record, that, words } from './checks.ts';
import { FINITE } from './number-issue.ts';

/** The check of issues that are handed back in, to be written or shown. */

const maybeWords = optional(words());
const maybeNumber = optional(number(FINITE));

const point = both(
  that((value) => Array.isArray(value) && value.length === 2, 'a point [x, y], two numbers in mm'),
  listOf(number(FINITE)),
);

/** An issue as it came back. */
export const issueCheck: Check = record(
  {
    kind: words(),
    message: words(),
    severity: oneOf(['error', 'warning', 'note']),
    expected: maybeWords,
    received: maybeWords,
    remedy: maybeWords,
    where: optional(
      record({
        file: maybeWords,
        line: maybeNumber,
        column: maybeNumber,
        element: maybeWords,
        field: maybeWords,
        layer: maybeWords,
        part: maybeWords,
        board: maybeWords,
        at: optional(point),
      }),
    ),
  },
  'Hand in an issue as it came back.',
);
