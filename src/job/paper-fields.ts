import { z } from 'zod';
import { USUAL_PAGE } from '../model/usual-settings.ts';
import { LONGEST_PAGE, PAPER_SIZES, type PaperName } from '../units/paper.ts';
import { lengthField } from './fields.ts';

const names = Object.keys(PAPER_SIZES) as [PaperName, ...PaperName[]];

const side = lengthField({ above: 0, atMost: LONGEST_PAGE });

/** What the placement sheets are printed on: the `paper` field of a job. */
export const paperFields = z.strictObject({
  size: z
    .union([z.enum(names), z.strictObject({ width: side, height: side }), z.strictObject({ roll: side })])
    .optional()
    .describe(
      'A size by name, by width and height, or a roll by its width; letter when the unit is in, else a4.',
    ),
  orientation: z
    .enum(['portrait', 'landscape', 'fewest'])
    .default('fewest')
    .describe('Which way round pages lie; the way that needs fewer pages when left out.'),
  margin: lengthField({ atLeast: 0 })
    .default(USUAL_PAGE.margin)
    .describe('Edge the printer cannot print on.'),
  overlap: lengthField({ atLeast: 0 })
    .default(USUAL_PAGE.overlap)
    .describe('How far neighbouring pages show the same.'),
  print: z
    .enum(['boards', 'parts', 'both'])
    .default('boards')
    .describe('Pages of whole boards to join, pages of single parts to stick one by one, or both.'),
  line: z
    .enum(['thin', 'wide', 'bright'])
    .default('thin')
    .describe(
      'A thin saw line, a broad band with a white line in it for weak eyes, or a bright line for tissue or film on dark wood.',
    ),
});
