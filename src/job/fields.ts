import { z } from 'zod';
import { LENGTH } from '../issues/number-issue.ts';
import { namesUnit, parseLength } from '../units/length.ts';
import { quarterThickness } from '../units/lumber.ts';

/** The field types of the job file: what a person may write, and what becomes of it. */

const { most: LONGEST } = LENGTH;

/** How a length is written, for whoever is told that this is none. */
export const AS_WRITTEN = 'a length such as "19 mm" or "3/4 in"';

const lengthInput = z.union([z.string(), z.number()], { error: AS_WRITTEN });

/** A length: `19 mm`, `3/4 in`, `13/16"`, or a number of millimetres. Becomes mm. */
export function lengthField(limits: LengthLimits) {
  return lengthInput.transform((input, context) => {
    const mm = lengthOrIssue(input, context);
    return mm === undefined ? z.NEVER : within(mm, limits, 'length', input, context);
  });
}

/**
 * Wood thinner or thicker than this is none, mm: veneer is some 0.5 mm, no beam is 1 m (common practice, no source).
 * Beyond it stacks and slices would be more than a layout may have, which would be told of fields that nobody wrote.
 */
const OF_WOOD = { atLeast: 0.1, atMost: 1000 };

/** A thickness of wood: a length, or a nominal quarter label such as `4/4` (its surfaced thickness). Becomes mm. */
export const thicknessField = lengthInput.transform((input, context) => {
  const quarter = typeof input === 'string' ? quarterThickness(input) : undefined;
  const mm = quarter ?? lengthOrIssue(input, context);
  return mm === undefined ? z.NEVER : within(mm, OF_WOOD, 'thickness', input, context);
});

/** Limits of a length, mm; without its own no length is longer than {@link LONGEST}. */
interface LengthLimits {
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
}

/**
 * The length in mm, or an issue where it is beyond its limits. Asked of what was read and not of the length in mm that
 * follows, so that the person finds what is told of in the file: `-5 in`, not -127.
 */
function within(
  mm: number,
  { above = Number.NEGATIVE_INFINITY, atLeast = Number.NEGATIVE_INFINITY, atMost = LONGEST }: LengthLimits,
  what: 'length' | 'thickness',
  input: string | number,
  context: z.RefinementCtx,
): number {
  const fault = (size: 'large' | 'small', expected: string) =>
    context.addIssue({ code: 'custom', message: `this ${what} is too ${size}`, params: { expected }, input });
  if (Math.abs(mm) > atMost) fault('large', `at most ${atMost} mm`);
  else if (mm <= above) fault('small', `more than ${limit(above)}`);
  else if (mm < atLeast) fault('small', `at least ${limit(atLeast)}`);
  return mm;
}

/** A limit in mm; nothing has no unit. */
function limit(mm: number): string {
  return mm === 0 ? '0' : `${mm} mm`;
}

function lengthOrIssue(input: string | number, context: z.RefinementCtx): number | undefined {
  if (typeof input === 'string' && !namesUnit(input)) {
    const expected = `"${input} in" or "${input} mm"`;
    context.addIssue({ code: 'custom', message: 'this length names no unit', params: { expected }, input });
    return undefined;
  }
  const parsed = parseLength(input, 'mm');
  if (parsed.ok) return parsed.value;
  context.addIssue({
    code: 'custom',
    message: parsed.problem,
    params: { expected: AS_WRITTEN },
    input,
  });
  return undefined;
}

/** A point of a board: two lengths, along and across. */
export const pointField = z.tuple([lengthField({}), lengthField({})]);
