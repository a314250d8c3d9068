import { z } from 'zod';
import { MONEY } from '../model/stock-checks.ts';
import { SHEET_SIZES, type SheetName } from '../stock/sheet-sizes.ts';
import { isTrimmed } from '../stock/trimmed-sides.ts';
import { MM_PER_UNIT, parseFraction } from '../units/length.ts';
import { SURFACED_TWO_SIDES_INCHES } from '../units/lumber.ts';
import { isCalendarDate } from './calendar-date.ts';
import { AS_WRITTEN, lengthField, pointField, thicknessField } from './fields.ts';
import { PRICED_BY } from './priced-by.ts';

/** One board entry, the same in a job and in a rack. */

/** Thickness of a board of which nothing is said, mm. */
const PLAIN_THICKNESS = 19;

const defect = z.union([
  z.strictObject({
    at: pointField.describe('Centre: along the board from its left end, across it from its top edge.'),
    diameter: lengthField({ above: 0 }),
  }),
  z.strictObject({ outline: z.array(pointField).min(3) }),
]);

const strip = lengthField({ atLeast: 0 });

const trim = z
  .strictObject({
    topEdge: strip.optional().describe('Ripped off the top edge.'),
    straightEdge: z
      .union([z.literal('clean'), strip], { error: `"clean", or ${AS_WRITTEN}` })
      .optional()
      .describe('Ripped off the straight (lower) edge; "clean": just enough for a straight edge.'),
    leftEnd: strip.optional().describe('Cross-cut off the left end.'),
    rightEnd: strip.optional().describe('Cross-cut off the right end.'),
    ends: strip.optional().describe('Cross-cut off both ends, where they do not say their own.'),
  })
  .transform(({ ends = 0, topEdge = 0, straightEdge = 0, leftEnd = ends, rightEnd = ends }) => ({
    topEdge,
    straightEdge,
    leftEnd,
    rightEnd,
  }));

const drawing = z.union([
  z
    .string()
    .min(1)
    .transform((file) => ({ file, scale: 1 })),
  z.strictObject({
    file: z.string().min(1).describe('SVG of the board: its outline, and its knots inside it.'),
    scale: z.number().positive().default(1).describe('True size / drawn size.'),
  }),
]);

const amount = z.number().min(MONEY.least).max(MONEY.most);

const price = z.union(
  [
    amount,
    z.strictObject({
      amount,
      per: z.enum(PRICED_BY),
    }),
  ],
  {
    error:
      'a number without its currency, such as 38, or { "amount": 7.5, "per": "board foot" }; the sign stands under costs.currency',
  },
);

const nominal = z
  .string()
  .refine((label) => Object.hasOwn(SURFACED_TWO_SIDES_INCHES, label), {
    error: `expected one of ${Object.keys(SURFACED_TWO_SIDES_INCHES).join(', ')}`,
  })
  .describe('Thickness it is sold by, such as "4/4"; also gives the thickness when that is left out.');

const SHEET_NAMES = Object.keys(SHEET_SIZES) as [SheetName, ...SheetName[]];

const sheet = z.union([z.enum(SHEET_NAMES), z.literal(true)], {
  error: `${SHEET_NAMES.map((name) => `"${name}"`).join(', ')}, or true beside "length" and "width"`,
});

const fields = z.strictObject({
  id: z.string().trim().min(1).max(60),
  species: z.string().trim().min(1).default('wood'),
  thickness: thicknessField
    .optional()
    .describe(
      `As measured; that of "nominal" surfaced on two sides, or ${PLAIN_THICKNESS} mm, when left out.`,
    ),
  nominal: nominal.optional(),
  length: lengthField({ above: 0 }).optional().describe('Along the grain.'),
  width: lengthField({ above: 0 }).optional().describe('Across the grain.'),
  outline: z.array(pointField).min(3).optional().describe('For a board that is no rectangle.'),
  drawing: drawing.optional().describe('For a traced board: an SVG of its outline and knots.'),
  sheet: sheet.optional().describe('Sheet goods: a standard size, or true beside a length and a width.'),
  defects: z.array(defect).default([]).describe('Knots, cracks and holes: nothing is placed on them.'),
  trim: trim.optional().describe('What is ripped and cross-cut off before layout.'),
  strips: z
    .number()
    .int()
    .min(1)
    .max(100)
    .optional()
    .describe(
      'How many strips it is ripped into along the grain; as many as the throat asks for when left out.',
    ),
  lengths: z
    .number()
    .int()
    .min(1)
    .max(100)
    .optional()
    .describe('How many equal lengths it is cross-cut into first, so that those of one board make a stack.'),
  quantity: z.number().int().min(1).max(1000).default(1),
  price: price
    .optional()
    .describe('Of one such board, or an amount per board foot, square foot, cubic metre or square metre.'),
  straightTopEdge: z
    .boolean()
    .optional()
    .describe(
      'Whether the top edge is straight too, so that parts with a rest edge stand on both, head to foot.',
    ),
  keeper: z.boolean().optional().describe('True for what was kept of an earlier board.'),
  since: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, { error: 'expected a date such as 2026-03-31', abort: true })
    .refine(isCalendarDate, { error: 'expected a day that there is, such as 2026-03-31' })
    .optional()
    .describe('Date it came into the shop.'),
  from: z.string().optional().describe('The board a keeper was cut from.'),
  largest: z
    .strictObject({ length: lengthField({ above: 0 }), width: lengthField({ above: 0 }) })
    .optional()
    .describe('The largest rectangle in a keeper, for the eye; the outline is what counts.'),
});

/** As many boards of an offer as a search may ask for: a supplier has more than one on his rack. */
const OF_AN_OFFER = 1000;

/** A board entry as read: lengths in mm, thickness filled in. */
export const boardSchema = checkedEntry(fields);

/** An entry of what a supplier offers: as many as are needed when it does not say how many there are. */
export const offerSchema = checkedEntry(
  fields.extend({ quantity: fields.shape.quantity.removeDefault().default(OF_AN_OFFER) }),
);

/** What an entry is read to be, however little it says. */
export interface ThicknessFound {
  /** mm */
  readonly thickness: number;
  /** True when nothing is said of it, so that it is the usual one. */
  readonly isThicknessAssumed?: boolean;
}

/** Where an entry was written. */
export interface EntryPlace {
  /** Its place in the list of the file, from 0, where that is not its own: an offer by grade becomes several boards. */
  readonly place?: number;
}

function checkedEntry(entry: typeof fields) {
  return entry
    .refine((board) => waysOfSize(board) === 1, {
      error:
        'expected one of: "length" and "width" (with "sheet": true for sheet goods of any size), "outline", "drawing", or a named "sheet"',
    })
    .superRefine((board, context) => {
      for (const { field, untrimmed, without } of CUT_FIRST)
        if ((board[field] ?? 1) > 1 && !isPlain(board, untrimmed))
          context.addIssue({
            code: 'custom',
            message: `expected a plain rectangle, ${without}, where "${field}" is above 1`,
            path: [field],
          });
    })
    .transform((board): typeof board & ThicknessFound & EntryPlace => ({
      ...board,
      thickness: board.thickness ?? surfaced(board.nominal),
      ...(board.thickness === undefined && board.nominal === undefined ? { isThicknessAssumed: true } : {}),
    }));
}

/** What boards are cut into before layout, and what may not be trimmed off those: the ends of a board are those of all its strips. */
const CUT_FIRST = [
  {
    field: 'strips',
    untrimmed: ['edges'],
    without: 'without "defects", and without a "trim" but of its ends',
  },
  { field: 'lengths', untrimmed: ['edges', 'ends'], without: 'without "trim" and "defects"' },
] as const;

/** In how many ways the entry states its size; half a way, a length alone, is none and spoils another. */
function waysOfSize({ length, width, outline, drawing, sheet }: z.output<typeof fields>): number {
  if ((length === undefined) !== (width === undefined)) return 0;
  const ways = [
    length !== undefined,
    outline !== undefined,
    drawing !== undefined,
    typeof sheet === 'string',
  ];
  return ways.filter(Boolean).length;
}

function isPlain(
  { outline, drawing, trim, defects }: z.output<typeof fields>,
  untrimmed: readonly ('ends' | 'edges')[],
): boolean {
  const isLeftWhole = untrimmed.every((sides) => !isTrimmed(trim, sides));
  return outline === undefined && drawing === undefined && isLeftWhole && defects.length === 0;
}

function surfaced(label: string | undefined): number {
  return label === undefined ? PLAIN_THICKNESS : SURFACED_TWO_SIDES_INCHES[label] * MM_PER_UNIT.in;
}

/** One board entry of a job or a rack. */
export type JobBoard = z.output<typeof boardSchema>;

/** Thickness in mm a nominal label is sold by: quarters of an inch. */
export function soldThickness(label: string): number {
  return parseFraction(label) * MM_PER_UNIT.in;
}
