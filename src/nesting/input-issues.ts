import { FARTHEST_MM } from '../geometry/integer-grid.ts';
import { linesOutside } from '../geometry/lines-outside.ts';
import { line } from '../geometry/point-checks.ts';
import { region } from '../geometry/shape-checks.ts';
import {
  both,
  type Check,
  callable,
  flag,
  listOf,
  number,
  oneOf,
  optional,
  text,
  that,
  words,
} from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { LENGTH, type NumberLimits, SOME_LENGTH } from '../issues/number-issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { foundWords, wrongValue } from '../issues/wrong-value.ts';
import { type Batch, type Demand, type PlacingRules, standsAcrossGrain } from '../model/batch.ts';
import { type LayOutOptions, MOST_EFFORT, MOST_SEED } from '../model/laying-out.ts';
import { MOST_COPIES, MOST_VEIN_OUTSIDE } from '../model/limits.ts';
import { partKey } from '../model/same-part.ts';
import { speciesKey } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { boardCheck } from '../stock/board-checks.ts';
import { highestStack } from './groups/group.ts';

/**
 * What is wrong with what is handed to `layOut`. A job is checked as it is read; who calls with a batch of his own has
 * no reader, from plain JavaScript no compiler either, and what is not looked at here comes out as a layout: a gap that
 * is no number lets no part fit anywhere, an outline that crosses itself is no part, and of two boards with one id one
 * is laid on twice.
 */
export function inputIssues(batch: Batch, options: LayOutOptions): Issue[] {
  const ofBatch = batchCheck('batch', batch);
  return [
    ...optionsCheck('options', options),
    ...ofBatch,
    // Who is who can only be told of entries that have their names.
    ...(ofBatch.length === 0
      ? [...repeatedBoards(batch), ...repeatedParts(batch), ...unlikeStacks(batch)]
      : []),
  ];
}

/** What is wrong with boards offered for a batch, told as `offers[i]`: a buyer does not know them as boards of his own. */
export function offerIssues({ boards }: Batch, offers: readonly Board[]): Issue[] {
  const issues = offersCheck('offers', offers);
  if (issues.length > 0) return [...issues];
  return repeated([...boards, ...offers], ({ id }) => id)
    .filter((i) => i >= boards.length)
    .map((i) => repeatedId(offers[i - boards.length].id, `offers[${i - boards.length}].id`));
}

/** Places reach as far as coordinates are exact. */
const PLACE: NumberLimits = { least: -FARTHEST_MM, most: FARTHEST_MM, unit: 'mm' };
const COUNT: NumberLimits = { least: 1, most: MOST_COPIES, whole: true };
const DEGREES: NumberLimits = { least: -360, most: 360, unit: 'degrees' };

/** What the search of `layOut` is told. */
export const searchChecks = {
  effort: optional(number({ least: 0, most: MOST_EFFORT })),
  seed: optional(number({ least: 0, most: MOST_SEED, whole: true })),
  workers: optional(number({ least: 1, most: 1000, whole: true })),
  onProgress: optional(callable()),
  startWorker: optional(callable()),
  signal: optional(that(isSignal, 'the signal of an AbortController')),
};

const optionsCheck = recordByHand(searchChecks);

const fieldsOfDemand = recordByHand(
  {
    part: text('Name the part: its name is its own within its layer.'),
    layer: text('Name the layer that the part belongs to.'),
    region,
    veins: listOf(line, 'Give a list of the lines that are sawn without waste; [] for none.'),
    copiesPerSet: number(COUNT, 'Say how many of this part one finished piece has; 1 is usual.'),
    species: text('Name the wood as the boards name it.'),
    thickness: number(SOME_LENGTH, 'Give the finished thickness in millimetres.'),
    rules: both(
      recordByHand(
        {
          grain: oneOf(['along', 'across', 'free']),
          grainTolerance: number({ least: 0, most: 180, unit: 'degrees' }),
          turnOver: flag(),
          restEdge: flag(),
        },
        'Usual is { grain: "along", grainTolerance: 0, turnOver: false, restEdge: false }.',
      ),
      (field, value) => restEdgeIssues(field, value as PlacingRules),
    ),
    stack: optional(number(COUNT)),
  },
  'See `Demand` for the fields of a part to lay out; `batchFromJob` fills them in from a job.',
);

function restEdgeIssues(field: string, rules: PlacingRules): Issue[] {
  if (!standsAcrossGrain(rules)) return [];
  return [
    {
      kind: 'option-invalid',
      severity: 'error',
      message: 'a part cannot stand on the straight edge with its grain across',
      expected: 'a rest edge only where the grain runs along the drawing, or any way',
      received: 'grain "across", restEdge true',
      remedy: 'Let the grain run along, or leave the rest edge out.',
      where: { field },
    },
  ];
}

/**
 * Veins that run out of their part: the blade would follow them into the part beside it. Told with the part, as is what is
 * wrong with its outline: a drawing has many parts, and who drew it knows them by name.
 */
const demandCheck = both(
  (field, value) =>
    fieldsOfDemand(field, value).map((issue) =>
      issue.kind === 'outline-invalid' ? ofPart(issue, value as Demand) : issue,
    ),
  (field, value) => {
    const demand = value as Demand;
    return linesOutside(demand.veins, demand.region, MOST_VEIN_OUTSIDE).map((i) =>
      ofPart(
        {
          kind: 'outline-invalid',
          severity: 'error',
          message: 'this vein runs out of its part',
          expected: 'a line within the outline of the part and outside its openings',
          received: foundWords(demand.veins[i]),
          remedy: 'Give veins in the same millimetres as the outline, and cut them off where they leave it.',
          where: { field: `${field}.veins[${i}]` },
        },
        demand,
      ),
    );
  },
);

function ofPart(issue: Issue, { layer, part }: Demand): Issue {
  const names = typeof layer === 'string' && typeof part === 'string' ? { layer, part } : {};
  return { ...issue, where: { ...issue.where, ...names } };
}

const offersCheck = listOf(boardCheck, 'Give a list of the boards for sale; [] for none.');

const pinCheck = recordByHand(
  {
    number: number({ ...COUNT, most: 1_000_000 }),
    x: number(PLACE),
    y: number(PLACE),
    rotation: number(DEGREES),
    // Left out it is not turned over; anything else would go into the layout as it is, which then no one could read.
    turnedOver: optional(flag()),
    // Which part and board there are is told by `pinIssues`.
    layer: words(),
    part: words(),
    board: words(),
  },
  'See `Pin` for the fields of a copy that lies where you put it.',
);

/** A batch to lay out. */
export const batchCheck: Check = recordByHand(
  {
    sets: number(COUNT, 'Say how many finished pieces are made at once; 1 is the least.'),
    demands: both(
      // Of nothing there would be an empty layout: a slip in making the list looked like a finished job.
      that((value) => !Array.isArray(value) || value.length > 0, 'a list of one part or more'),
      listOf(demandCheck, 'Give a list of the parts to lay out.'),
    ),
    boards: listOf(boardCheck, 'Give a list of the boards at hand; [] for none.'),
    pins: optional(listOf(pinCheck)),
    kerf: number(LENGTH, 'Give the width that the blade removes; 1 is usual.'),
    clearance: number(LENGTH, 'Give the gap asked for on top of the kerf; 0.5 is usual.'),
    edgeMargin: number(LENGTH, 'Give the gap to the edge of the board; 3 is usual.'),
    thicknessTolerance: number(
      LENGTH,
      'Say by how much the thickness of a board may differ from that of the parts; 0.5 is usual.',
    ),
    outlineTolerance: number(
      LENGTH,
      'Give the `tolerance` of the pattern that the outlines are of; 0.01 is usual.',
    ),
    // Without one of its sides nothing would ever be a keeper.
    keep: optional(recordByHand({ length: number(SOME_LENGTH), width: number(SOME_LENGTH) })),
    setsTogether: optional(flag()),
    crosscutKerf: optional(number(LENGTH)),
    reach: optional(
      recordByHand({ throat: optional(number(SOME_LENGTH)), longest: optional(number(SOME_LENGTH)) }),
    ),
  },
  'See `Batch` for its fields; `batchFromJob` fills them in from a job.',
);

/** What the search asks of a signal: of another realm it is no `AbortSignal` of this one. */
function isSignal(value: unknown): boolean {
  const { aborted, addEventListener } = (value ?? {}) as Partial<AbortSignal>;
  return typeof aborted === 'boolean' && typeof addEventListener === 'function';
}

/** Copies are counted and boards taken by id: a second entry of the same would be laid on as the first. */
function repeatedBoards({ boards }: Batch): Issue[] {
  return repeated(boards, ({ id }) => id).map((i) => repeatedId(boards[i].id, `batch.boards[${i}].id`));
}

function repeatedId(id: string, field: string): Issue {
  return {
    kind: 'board-id-repeated',
    severity: 'error',
    message: 'two board entries have the same id',
    expected: 'a different id for each',
    received: `"${id}"`,
    remedy: 'Use `quantity` for several boards of one size.',
    where: { field },
  };
}

function repeatedParts({ demands }: Batch): Issue[] {
  return repeated(demands, partKey).map((i) => ({
    kind: 'part-repeated',
    severity: 'error',
    message: 'two parts of a layer have the same name',
    expected: 'a different name for each',
    received: `"${demands[i].part}" of layer "${demands[i].layer}"`,
    remedy: 'Use `copiesPerSet` for several copies of one part.',
    where: { field: `batch.demands[${i}].part` },
  }));
}

/**
 * Parts of one layer and wood in stacks of unlike height: those lie on boards of their own, where their sets are to lie on
 * one. A job has one height for each layer.
 */
function unlikeStacks({ demands, setsTogether }: Batch): Issue[] {
  if (setsTogether !== true) return [];
  const first = new Map<string, number>();
  return demands.flatMap((demand, i) => {
    const key = JSON.stringify([demand.layer, speciesKey(demand.species)]);
    const stack = highestStack(demand);
    const asked = first.get(key) ?? stack;
    first.set(key, asked);
    if (asked === stack) return [];
    const expected = `${asked}, as for the part before of layer "${demand.layer}": its sets stay together on one board`;
    return [
      wrongValue(`batch.demands[${i}].stack`, stack, expected, 'Use one `stack` for all parts of a layer.'),
    ];
  });
}

/** Places in a list whose key was there before. */
function repeated<T>(list: readonly T[], keyOf: (one: T) => string): number[] {
  const seen = new Set<string>();
  return list.flatMap((one, i) => {
    const key = keyOf(one);
    if (seen.has(key)) return [i];
    seen.add(key);
    return [];
  });
}
