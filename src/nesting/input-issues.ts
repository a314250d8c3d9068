import type { Issue } from '../issues/issue.ts';
import { type NumberLimits, numberIssue } from '../issues/number-issue.ts';
import type { Batch } from '../model/batch.ts';
import { type LayOutOptions, MOST_EFFORT, MOST_SEED } from '../model/laying-out.ts';

/**
 * What is wrong with the numbers handed to `layOut`. A job is checked as it is read; who calls from plain JavaScript has
 * no compiler either, and a gap that is not a number lets no part fit anywhere: the layout would say that there is no
 * room, where a field is missing.
 */
export function inputIssues(batch: Batch, options: LayOutOptions): Issue[] {
  return [...optionIssues(options), ...batchIssues(batch)];
}

/** Lengths as a job may have them at most; places reach as far as coordinates are exact. */
const LENGTH: NumberLimits = { least: 0, most: 50_000, unit: 'mm' };
const SOME_LENGTH: NumberLimits = { ...LENGTH, above: true };
const PLACE: NumberLimits = { least: -100_000, most: 100_000, unit: 'mm' };
const COUNT: NumberLimits = { least: 1, most: 10_000, whole: true };
/** As a job may have it: any price whose cents are counted exactly. */
const PRICE: NumberLimits = { least: 0, most: Number.MAX_SAFE_INTEGER };
const DEGREES: NumberLimits = { least: -360, most: 360, unit: 'degrees' };

const MAY_BE_LEFT_OUT = 'Leave it out to have the usual one.';
const IN_BATCH = 'Give the batch this number; `batchFromJob` fills in every field.';
const LIST_IN_BATCH = 'Give the batch this list; `batchFromJob` fills in every field.';

function optionIssues({ effort, seed, workers }: LayOutOptions): Issue[] {
  return issuesOf(
    'options',
    {
      effort: [effort, { least: 0, most: MOST_EFFORT }],
      seed: [seed, { least: 0, most: MOST_SEED, whole: true }],
      workers: [workers, { least: 1, most: 1000, whole: true }],
    },
    'optional',
  );
}

function batchIssues(batch: Batch): Issue[] {
  const { keep, reach, crosscutKerf, pins = [] } = batch;
  return [
    ...issuesOf('batch', {
      sets: [batch.sets, COUNT],
      kerf: [batch.kerf, LENGTH],
      clearance: [batch.clearance, LENGTH],
      edgeMargin: [batch.edgeMargin, LENGTH],
      thicknessTolerance: [batch.thicknessTolerance, LENGTH],
      outlineTolerance: [batch.outlineTolerance, LENGTH],
    }),
    ...issuesOf(
      'batch',
      {
        crosscutKerf: [crosscutKerf, LENGTH],
        'reach.throat': [reach?.throat, SOME_LENGTH],
        'reach.longest': [reach?.longest, SOME_LENGTH],
      },
      'optional',
    ),
    // Without one of its sides nothing would ever be a keeper.
    ...(keep === undefined
      ? []
      : issuesOf('batch.keep', { length: [keep.length, SOME_LENGTH], width: [keep.width, SOME_LENGTH] })),
    ...listIssues('batch.demands', batch.demands, (demand, field) => [
      ...issuesOf(field, {
        copiesPerSet: [demand.copiesPerSet, COUNT],
        thickness: [demand.thickness, SOME_LENGTH],
        // Not there at all when a caller left the rules out: told as the number it lacks.
        'rules.grainTolerance': [demand.rules?.grainTolerance, { least: 0, most: 180, unit: 'degrees' }],
      }),
      ...issuesOf(field, { stack: [demand.stack, COUNT] }, 'optional'),
    ]),
    ...listIssues('batch.boards', batch.boards, (board, field) => [
      ...issuesOf(field, {
        thickness: [board.thickness, SOME_LENGTH],
        quantity: [board.quantity, { least: 0, most: 1_000_000, whole: true }],
      }),
      ...issuesOf(field, { price: [board.price, PRICE] }, 'optional'),
    ]),
    ...listIssues('batch.pins', pins, (pin, field) =>
      issuesOf(field, {
        number: [pin.number, { ...COUNT, most: 1_000_000 }],
        x: [pin.x, PLACE],
        y: [pin.y, PLACE],
        rotation: [pin.rotation, DEGREES],
      }),
    ),
  ];
}

/** Fields of one object, each with its value and the limits of that. */
type Numbers = Readonly<Record<string, readonly [value: unknown, limits: NumberLimits]>>;

function issuesOf(of: string, numbers: Numbers, need: 'needed' | 'optional' = 'needed'): Issue[] {
  return Object.entries(numbers).flatMap(([field, [value, limits]]) => {
    if (value === undefined && need === 'optional') return [];
    const remedy = need === 'optional' ? MAY_BE_LEFT_OUT : IN_BATCH;
    return numberIssue(`${of}.${field}`, value, limits, remedy) ?? [];
  });
}

function listIssues<T>(field: string, list: readonly T[], each: (one: T, field: string) => Issue[]): Issue[] {
  if (Array.isArray(list)) return list.flatMap((one: T, i) => each(one, `${field}[${i}]`));
  return [
    {
      kind: 'option-invalid',
      severity: 'error',
      message: list === undefined ? 'this list is missing' : 'this is no list',
      expected: 'a list',
      received: list === undefined ? 'nothing' : typeof list,
      remedy: LIST_IN_BATCH,
      where: { field },
    },
  ];
}
