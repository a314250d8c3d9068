import { z } from 'zod';
import { standsAcrossGrain } from '../model/batch.ts';
import { MOST_EFFORT, MOST_SEED, USUAL_EFFORT } from '../model/laying-out.ts';
import { MOST_COPIES } from '../model/limits.ts';
import { USUAL_JOIN_GAP } from '../model/usual-settings.ts';
import { USUAL_CROSSCUT_KERF, USUAL_KEEP } from '../stock/keep-rule.ts';
import { TAKING_ORDERS } from '../stock/taking.ts';
import { boardSchema, type JobBoard, offerSchema } from './board-schema.ts';
import { costFields } from './cost-fields.ts';
import { AS_WRITTEN, lengthField, pointField, thicknessField } from './fields.ts';
import { gradedOfferSchema } from './graded-offer.ts';
import { paperFields } from './paper-fields.ts';
import { withBlade, workFields } from './sawing-fields.ts';

/**
 * The job file, version 1. Every field has a default that a shop would choose; a pattern, one board and a number
 * of sets are enough. Unknown fields are refused, so that a misspelt one is noticed.
 */

const finishedSize = z.strictObject({
  layer: z.string().optional().describe('Layer to measure; the whole drawing when left out.'),
  part: z.string().optional().describe('Part of that layer to measure.'),
  side: z.enum(['width', 'height']).default('width'),
  length: lengthField({ above: 0 }).describe('Finished length of that side.'),
});

const drawnSize = z
  .strictObject({
    width: lengthField({ above: 0 }).optional(),
    height: lengthField({ above: 0 }).optional(),
  })
  .refine(({ width, height }) => width !== undefined || height !== undefined, {
    error: 'expected "width", "height" or both',
  });

const pattern = z.strictObject({
  file: z.string().min(1).describe('The SVG drawing, relative to the job file.'),
  scale: z
    .number()
    .positive()
    .optional()
    .describe('Factor from drawn size to finished size; 1 when left out.'),
  drawnSize: drawnSize
    .optional()
    .describe('What the page truly measures, when the drawing states no size or a wrong one.'),
  pixelsPerInch: z
    .number()
    .positive()
    .max(10_000)
    .optional()
    .describe('Of the program that drew it, for pages without a physical unit; 96 when left out.'),
  finishedSize: finishedSize.optional().describe('The finished size of one named thing; sets the scale.'),
  joinGap: lengthField({ atLeast: 0 })
    .default(USUAL_JOIN_GAP)
    .describe('Ends of lines up to this far apart are joined.'),
  innerShapes: z
    .enum(['unite', 'openings'])
    .default('unite')
    .describe('A filled shape wholly inside another: painted over, or cut out as an opening.'),
});

const copies = z.number().int().min(0).max(1000);

const layer = z
  .strictObject({
    species: z
      .string()
      .trim()
      .min(1)
      .optional()
      .describe('Wood; the species of the boards when they are all of one.'),
    thickness: thicknessField
      .optional()
      .describe('Finished thickness; that of the boards when they are all alike.'),
    grain: z
      .enum(['along', 'across', 'free'])
      .default('along')
      .describe("How the board's grain runs: along or across the drawing's x axis, or any way."),
    grainTolerance: z
      .number()
      .min(0)
      .max(90)
      .default(0)
      .describe('Degrees a part may be turned off its grain.'),
    turnOver: z.boolean().default(false).describe('Whether parts may be cut face down.'),
    restEdge: z
      .boolean()
      .default(false)
      .describe("Whether the flat bottom lies on the board's straight edge."),
    copiesPerSet: copies
      .default(1)
      .describe('Copies of every part of the layer in one set; 0: not cut in this batch.'),
    copiesOf: z
      .record(z.string(), copies)
      .optional()
      .describe('The same for single parts, by name, where they differ from the layer.'),
    stacked: z.boolean().default(false).describe('Whether the layer is sawn in stacks of boards.'),
  })
  .refine((rules) => !standsAcrossGrain(rules), {
    error:
      'expected false where "grain" is "across": a bottom on the straight edge lies along the board, and so does the grain',
    path: ['restEdge'],
  });

const saw = z.strictObject({
  bladeWidth: lengthField({ above: 0 }).optional().describe('Width of the blade, front to back.'),
  hole: lengthField({ above: 0 }).optional().describe('Diameter of the hole the blade is threaded through.'),
  throat: lengthField({ above: 0 })
    .optional()
    .describe(
      'From the blade to the back of the saw; boards are cross-cut to sections that can be swung in it.',
    ),
  longest: lengthField({ above: 0 })
    .optional()
    .describe('Greatest length you handle at the saw; longer boards are cross-cut to sections.'),
  stackHeight: lengthField({ above: 0 })
    .default(19.05)
    .describe('Greatest height of boards sawn together, for layers that are sawn in stacks.'),
});

const necks = z.strictObject({
  along: lengthField({ above: 0 }).optional().describe('Thinnest neck that runs along the grain.'),
  across: lengthField({ above: 0 }).optional().describe('Thinnest neck that lies across the grain.'),
});

const pinned = z.strictObject({
  layer: z.string(),
  part: z.string(),
  board: z.string().describe('Id of the board it lies on, or the printed name of a single one.'),
  number: z
    .number()
    .int()
    .min(1)
    .default(1)
    .describe('Which of the boards with this id, or of their strips.'),
  at: pointField.describe('Where its box begins: from the left end and the top edge of the board or strip.'),
  rotation: z.number().min(-360).max(360).default(0).describe('Degrees, clockwise.'),
  turnedOver: z.boolean().default(false),
});

const keep = z.strictObject({
  length: lengthField({ above: 0 })
    .default(USUAL_KEEP.length)
    .describe('Least length along the grain of a keeper.'),
  width: lengthField({ above: 0 })
    .default(USUAL_KEEP.width)
    .describe('Least width across the grain of a keeper.'),
});

/** The boards of each entry in one list; those behind an entry of several say where they were written. */
function asWritten(entries: readonly (readonly JobBoard[])[]): JobBoard[] {
  const list = entries.flatMap((boards, place) => boards.map((board) => ({ board, place })));
  return list.map(({ board, place }, i) => (place === i ? board : { ...board, place }));
}

/** Name of a design to which the job gives none. */
export const USUAL_DESIGN = 'Untitled design';

const fields = z.strictObject({
  $schema: z.string().optional(),
  format: z.literal('fretlay-job').default('fretlay-job'),
  version: z.literal(1).default(1),
  design: z.string().trim().min(1).max(200).default(USUAL_DESIGN).describe('Name of the finished piece.'),
  pattern: z.union([
    z
      .string()
      .min(1)
      .transform((file) => pattern.parse({ file })),
    pattern,
  ]),
  sets: z
    .number()
    .int()
    .min(1)
    .max(MOST_COPIES)
    .default(1)
    .describe('Number of finished pieces in the batch.'),
  pinned: z
    .array(pinned)
    .max(1000)
    .default([])
    .describe('Copies that lie where you put them; the others are laid around them.'),
  setsTogether: z
    .boolean()
    .default(false)
    .describe('Whether the parts of a set that are of one wood come from one board, so that they match.'),
  unit: z
    .enum(['mm', 'in'])
    .default('mm')
    .describe('Unit of sheets and reports; when left out, in where all lengths are in inches.'),
  layers: z.record(z.string(), layer).default({}).describe('Rules by layer name; others take the defaults.'),
  boards: z.array(boardSchema).default([]).describe('Boards at hand, besides those of the rack.'),
  rack: z.string().min(1).optional().describe('The rack file to take boards from, relative to the job file.'),
  take: z
    .enum(TAKING_ORDERS)
    .optional()
    .describe('Which boards are taken first: keepers when there is a rack, else the cheapest.'),
  forSale: z
    .array(z.union([offerSchema, gradedOfferSchema]))
    .transform((offers) => asWritten(offers.map((offer) => [offer].flat())))
    .default([])
    .describe('Boards a supplier offers, by size or by grade, to say what to buy.'),
  keep: keep.prefault({}).describe('How large an offcut has to be to be kept.'),
  crosscutKerf: lengthField({ atLeast: 0 })
    .default(USUAL_CROSSCUT_KERF)
    .describe('Width of the straight saw cuts that part sections and keepers from a board.'),
  kerf: z
    .union([z.literal('blade'), lengthField({ atLeast: 0 })], { error: `"blade", or ${AS_WRITTEN}` })
    .default(1)
    .describe('Width the blade removes; `blade` for that of the blade under `work`.'),
  saw: saw.prefault({}).describe('What the saw is fitted with, for the check of the pattern.'),
  necks: necks.default({}).describe('How thin a neck may be before the check warns.'),
  paper: paperFields.prefault({}).describe('What the placement sheets are printed on.'),
  work: workFields.prefault({}).describe('Blades, times and glue-up.'),
  costs: costFields.prefault({}).describe('What things cost and how pieces are sold.'),
  clearance: lengthField({ atLeast: 0 }).default(0.5).describe('Extra gap between parts.'),
  edgeMargin: lengthField({ atLeast: 0 }).default(3).describe('Gap to the edge of the board and to defects.'),
  thicknessTolerance: lengthField({ atLeast: 0 })
    .default(0.5)
    .describe('Greatest difference between the thickness of a board and that of a layer.'),
  effort: z
    .number()
    .min(0)
    .max(MOST_EFFORT)
    .default(USUAL_EFFORT)
    .describe('Search effort, thousands of moves.'),
  seed: z.number().int().min(0).max(MOST_SEED).default(1).describe('Seed of the search.'),
});

/** Checks a job file and turns every length into mm. */
export const jobSchema = fields
  .refine(({ boards, rack, forSale }) => boards.length + forSale.length > 0 || rack !== undefined, {
    error: 'expected at least one board, a rack, or boards for sale',
    path: ['boards'],
  })
  .transform(withBlade);

/** A job as read: every length in mm, every default filled in. */
export type Job = z.output<typeof jobSchema>;

/** A job as a person may write it in TypeScript or JSON. */
export type JobInput = z.input<typeof jobSchema>;

/** The rules of one layer in a job. */
export type JobLayer = Job['layers'][string];

/** The rules of a layer of which the job says nothing. */
export const PLAIN_LAYER: JobLayer = layer.parse({});

/** The JSON Schema (draft 2020-12) of the job file, for editors. */
export function jobJsonSchema(): object {
  return z.toJSONSchema(jobSchema, { io: 'input', unrepresentable: 'any' });
}
