import { RATE_CHECKS } from '../costing/rate-checks.ts';
import { place, ring } from '../geometry/point-checks.ts';
import {
  type Check,
  displayUnit,
  flag,
  listOf,
  mapOf,
  number,
  oneOf,
  optional,
  record,
  text,
  that,
  words,
} from '../issues/checks.ts';
import { issueCheck } from '../issues/issue-check.ts';
import { FINITE, LENGTH, SOME_LENGTH } from '../issues/number-issue.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { MOST_COPIES, MOST_MOISTURE_CHANGE } from '../model/limits.ts';
import { foundCheck, patternCheck } from '../model/pattern-checks.ts';
import { MONEY } from '../model/stock-checks.ts';
import { batchCheck } from '../nesting/input-issues.ts';
import { accountCheck, boundCheck, purchaseCheck } from '../sheet/report/report-checks.ts';
import { TAKING_ORDERS } from '../stock/taking.ts';
import { PRICED_BY } from './priced-by.ts';
import { SEARCH_LIMITS } from './search-limits.ts';

/**
 * Checks of a job, and of what became of it, that are handed to the steps one by one. A job file is checked as it is read,
 * and every length in it is then a number of millimetres; handed over unread, with `3/4 in` in it, it would come out as a
 * layout of nothing.
 */

const length = number(LENGTH);
const someLength = number(SOME_LENGTH);
const count = number({ least: 1, most: MOST_COPIES, whole: true });
/** Of one part in a set: none where it is not cut. */
const copies = number({ least: 0, most: MOST_COPIES, whole: true });
const grain = oneOf(['along', 'across', 'free']);

const money = number(MONEY);

/** The price of a board, or of so much of it as its unit says. */
const price: Check = (field, value) =>
  typeof value === 'object' && value !== null ? priceBySize(field, value) : money(field, value);

const priceBySize = record({
  amount: money,
  per: oneOf(PRICED_BY),
});

const tracedDefect = record({ outline: ring });
const roundDefect = record({ at: place, diameter: someLength });

const defect: Check = (field, value) =>
  typeof value === 'object' && value !== null && 'outline' in value
    ? tracedDefect(field, value)
    : roundDefect(field, value);

const trim = record({
  topEdge: length,
  straightEdge: (field, value) => (value === 'clean' ? [] : length(field, value)),
  leftEnd: length,
  rightEnd: length,
});

const board = record({
  id: text(),
  species: text(),
  thickness: someLength,
  quantity: count,
  price: optional(price),
  length: optional(someLength),
  width: optional(someLength),
  outline: optional(ring),
  drawing: optional(record({ file: words(), scale: number({ least: 0, most: 1e6, above: true }) })),
  defects: listOf(defect),
  trim: optional(trim),
  nominal: optional(words()),
  strips: optional(number({ least: 1, most: 100, whole: true })),
  lengths: optional(number({ least: 1, most: 100, whole: true })),
  straightTopEdge: optional(flag()),
  keeper: optional(flag()),
});

const pin = record({
  layer: words(),
  part: words(),
  board: words(),
  number: number({ least: 1, most: 1_000_000, whole: true }),
  at: place,
  rotation: number({ least: -360, most: 360, unit: 'degrees' }),
  turnedOver: flag(),
});

const layer = record({
  species: optional(text()),
  thickness: optional(someLength),
  grain,
  grainTolerance: number({ least: 0, most: 180, unit: 'degrees' }),
  turnOver: flag(),
  restEdge: flag(),
  copiesPerSet: copies,
  copiesOf: optional(mapOf(copies)),
  stacked: flag(),
});

const work = record({
  blades: listOf(record({ name: text(), width: someLength })),
  blade: optional(text()),
  holdSize: length,
  tab: optional(length),
  times: record({}),
  log: listOf(
    record({
      minutes: number({ least: 0, most: 1e6, above: true }),
      cutLength: optional(number({ ...FINITE, least: 0, unit: 'mm' })),
      species: optional(text()),
      thickness: optional(someLength),
      amounts: record({}),
    }),
  ),
  restTolerance: length,
  glueMargin: length,
  moistureChange: number({ least: 0, most: MOST_MOISTURE_CHANGE }),
});

/** A job as it is read. */
export const jobCheck: Check = record(
  {
    design: text(),
    pattern: record({ file: text() }),
    sets: count,
    pinned: listOf(pin),
    setsTogether: flag(),
    unit: displayUnit,
    layers: mapOf(layer),
    boards: listOf(board),
    forSale: listOf(board),
    rack: optional(text()),
    take: optional(oneOf(TAKING_ORDERS)),
    keep: record({ length: someLength, width: someLength }),
    crosscutKerf: length,
    kerf: length,
    saw: record({
      bladeWidth: optional(someLength),
      hole: optional(someLength),
      throat: optional(someLength),
      longest: optional(someLength),
      stackHeight: someLength,
    }),
    necks: record({ along: optional(length), across: optional(length) }),
    paper: record({
      orientation: oneOf(['portrait', 'landscape', 'fewest']),
      margin: length,
      overlap: length,
      print: oneOf(['boards', 'parts', 'both']),
      line: oneOf(['thin', 'wide', 'bright']),
    }),
    work,
    costs: record({ ...RATE_CHECKS, batchSizes: listOf(count) }),
    clearance: length,
    edgeMargin: length,
    thicknessTolerance: length,
    effort: number(SEARCH_LIMITS.effort),
    seed: number(SEARCH_LIMITS.seed),
  },
  'Hand in the job of `readJob`: in it every length is a number of millimetres, and every default filled in.',
);

/** Boards of a job or a rack, of which only the names of their drawings are asked. */
export const entriesCheck: Check = listOf(
  record({ drawing: optional(record({ file: words() })) }),
  'Hand in the boards of a job of `readJob`, or of a rack of `readRack`.',
);

/** Texts of files by their names. */
export const filesCheck: Check = mapOf(
  words('Hand in the text of the file, by its name as the job writes it.'),
);

const laid = {
  pattern: patternCheck,
  check: foundCheck,
  batch: batchCheck,
  layout: layoutCheck,
};

/** What the work on a job is planned from. */
export const laidJobCheck: Check = record(laid, 'Hand in the result of `runJob`.');

/** The result of a job. */
export const jobResultCheck: Check = record(
  {
    ...laid,
    material: listOf(accountCheck),
    purchase: optional(purchaseCheck),
    verification: record({ breaches: that(Array.isArray, 'a list') }),
    bounds: listOf(boundCheck),
    issues: listOf(issueCheck),
  },
  'Hand in the result of `runJob`.',
);
