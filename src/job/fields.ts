import { z } from 'zod';
import { LENGTH } from '../issues/number-issue.ts';
import { type LengthUnit, namesUnit, parseLength } from '../units/length.ts';
import { quarterThickness } from '../units/lumber.ts';

/** The field types of the job file: what a person may write, and what becomes of it. */

const { most: LONGEST } = LENGTH;

const lengthInput = z.union([z.string(), z.number()]);

/** A length: `19 mm`, `3/4 in`, `13/16"`, or a number of millimetres. Becomes mm. */
export function lengthField(limits: { readonly above?: number; readonly atLeast?: number }) {
  return lengthInput
    .transform((input, context) => lengthOrIssue(input, context, 'mm'))
    .refine((mm) => Math.abs(mm) <= LONGEST, fault('this length is too large', `at most ${LONGEST} mm`))
    .refine(
      (mm) => limits.above === undefined || mm > limits.above,
      fault('this length is too small', `more than ${limits.above} mm`),
    )
    .refine(
      (mm) => limits.atLeast === undefined || mm >= limits.atLeast,
      fault('this length is too small', `at least ${limits.atLeast} mm`),
    );
}

/** A thickness of wood: a length, or a nominal quarter label such as `4/4` (its surfaced thickness). Becomes mm. */
export const thicknessField = lengthInput
  .transform((input, context) => {
    const quarter = typeof input === 'string' ? quarterThickness(input) : undefined;
    return quarter ?? lengthOrIssue(input, context, 'mm');
  })
  .refine((mm) => mm > 0, fault('this thickness is too small', 'more than 0 mm'));

/** What is wrong, and apart from it what was expected: the reader sees that beside what was found. */
function fault(error: string, expected: string): { error: string; params: { expected: string } } {
  return { error, params: { expected } };
}

function lengthOrIssue(input: string | number, context: z.RefinementCtx, unit: LengthUnit): number {
  if (typeof input === 'string' && !namesUnit(input)) {
    const expected = `"${input} in" or "${input} mm"`;
    context.addIssue({ code: 'custom', message: 'this length names no unit', params: { expected }, input });
    return z.NEVER;
  }
  const parsed = parseLength(input, unit);
  if (parsed.ok) return parsed.value;
  context.addIssue({
    code: 'custom',
    message: parsed.problem,
    params: { expected: 'a length such as "19 mm" or "3/4 in"' },
    input,
  });
  return z.NEVER;
}

/** A point of a board: two lengths, along and across. */
export const pointField = z.tuple([lengthField({}), lengthField({})]);
