import { z } from 'zod';
import { FretlayError } from '../issues/fretlay-error.ts';
import { boardSchema, type JobBoard } from './board-schema.ts';
import { parseJson } from './parse-json.ts';
import { schemaIssues } from './schema-issues.ts';

/** The rack file, version 1: the boards and keepers a shop owns. */

const settledBatch = z.strictObject({
  design: z.string(),
  sets: z.number().int(),
  fingerprint: z.string().optional().describe('Of what was cut: parts, copies and wood.'),
});

const lastBatch = z.strictObject({
  ...settledBatch.shape,
  date: z.string().optional(),
  earlierThatDay: z
    .array(settledBatch)
    .default([])
    .describe('Batches the rack was settled for before, on the same date; the last of them first.'),
  used: z.array(z.strictObject({ id: z.string(), boards: z.number().int() })),
  kept: z.array(z.strictObject({ id: z.string(), from: z.string(), area: z.number() })),
  scrapArea: z.number().describe('mm2'),
});

const takenOfJob = z.strictObject({
  id: z.string(),
  boards: z.number().int(),
  left: z.number().int().describe('Of those that the job had.'),
});

const rackSchema = z
  .strictObject({
    $schema: z.string().optional(),
    format: z.literal('fretlay-rack').default('fretlay-rack'),
    version: z.literal(1).default(1),
    boards: z.array(boardSchema).describe('Boards and keepers; entries as in a job.'),
    takenOfJobs: z
      .array(takenOfJob)
      .default([])
      .describe('Boards of jobs, not of the rack, that batches took; written by fretlay.'),
    lastBatch: lastBatch.optional().describe('What the last batch took and left, written by fretlay.'),
  })
  .superRefine(({ boards }, context) => {
    boards.forEach(({ id }, i) => {
      if (boards.findIndex((board) => board.id === id) === i) return;
      context.addIssue({
        code: 'custom',
        message: `expected a different id for each entry; "${id}" is there twice`,
        path: ['boards', i, 'id'],
        input: id,
      });
    });
  });

/** A rack as read. */
export type Rack = z.output<typeof rackSchema>;

/** A record of what a batch did to the rack. */
export type LastBatch = z.output<typeof lastBatch>;

/** A board entry as it stands in the file. */
export type RawEntry = Readonly<Record<string, unknown>>;

/**
 * Reads and checks the text of a rack file.
 *
 * @throws FretlayError that names every wrong field
 */
export function readRack(text: string, file = 'rack.json'): Rack {
  const json = parseJson(text, file, 'rack');
  if (!json.ok) throw new FretlayError([json.issue]);
  const checked = rackSchema.safeParse(json.value, { reportInput: true });
  if (checked.success) return checked.data;
  throw new FretlayError(
    schemaIssues(checked.error, {
      schema: rackSchema,
      file,
      kind: 'rack-field-invalid',
      remedy: 'See docs/rack-file.md for every field.',
    }),
  );
}

/** Dates of the boards by id, for taking the oldest first. */
export function datesOf(boards: readonly JobBoard[]): Map<string, string> {
  return new Map(boards.flatMap(({ id, since }) => (since === undefined ? [] : [[id, since] as const])));
}
