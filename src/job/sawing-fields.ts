import { z } from 'zod';
import type { Blade, Range } from '../model/cut-plan.ts';
import { MOST_MOISTURE_CHANGE } from '../model/limits.ts';
import { USUAL_GLUE_UP, USUAL_HOLD_SIZE } from '../model/usual-settings.ts';
import { COMMON_BLADES, sectionDiagonal } from '../sawing/blades.ts';
import { PACE_THICKNESS } from '../sawing/time/blade-life.ts';
import { COMMON_TIMES, TIME_NAMES, type TimeName } from '../sawing/time/time-constants.ts';
import { scaledRange } from '../sawing/time/work-time.ts';
import { MIDDLING_HARDNESS } from '../sawing/wood-facts.ts';
import { FOR_INCHES } from '../units/measure.ts';
import { lengthField } from './fields.ts';

/** Blades, times, log and glue-up: the `work` field of a job. */

/** How far a time that is given as one number is thought to vary: a fifth down, a quarter up. */
const SPREAD = { low: 0.8, high: 1.25 };

/** Widening of the cut by burr and run-out, mm, for a blade without a measured kerf. Common practice, no source. */
const RUN_OUT = 0.08;

const minutes = z.number().min(0).max(10_000);

/** What a time may be stated for instead of a metre or a square metre. */
const FOOT_FIELDS = { perFoot: 'm', perSquareFoot: 'm2' } as const;

/** A number, or the least and the greatest. */
const spread = z
  .union([minutes, z.tuple([minutes, minutes])])
  .transform(
    (given): Range =>
      typeof given === 'number'
        ? { low: given * SPREAD.low, likely: given, high: given * SPREAD.high }
        : { low: Math.min(...given), likely: (given[0] + given[1]) / 2, high: Math.max(...given) },
  );

/** Minutes for one, or for a foot or a square foot where one is a metre or a square metre. */
const timeField = z.union([
  spread.transform((range) => ({ range, foot: undefined })),
  z
    .strictObject({ perFoot: spread })
    .transform(({ perFoot }) => ({ range: perFoot, foot: 'perFoot' as const })),
  z
    .strictObject({ perSquareFoot: spread })
    .transform(({ perSquareFoot }) => ({ range: perSquareFoot, foot: 'perSquareFoot' as const })),
]);

const blade = z
  .strictObject({
    name: z.string().trim().min(1).max(80),
    width: lengthField({ above: 0 }).describe('Front to back.'),
    thickness: lengthField({ above: 0 }).describe('Side to side.'),
    teethPerInch: z.number().positive().max(100).default(12),
    hole: lengthField({ above: 0 }).optional().describe('Diameter of the hole it is threaded through.'),
    kerf: lengthField({ above: 0 }).optional().describe('Width of a test cut, as measured.'),
    upTo: lengthField({ above: 0 })
      .optional()
      .describe('Thickest hardwood it is the first choice for; that of the common blade nearest in width.'),
  })
  .transform(
    (own): Blade => ({
      ...own,
      hole: own.hole ?? 1.3 * sectionDiagonal(own),
      kerf: own.kerf ?? own.thickness + RUN_OUT,
      kerfMeasured: own.kerf !== undefined,
      upTo: own.upTo ?? nearestCommon(own.width).upTo,
    }),
  );

const times = z
  .partialRecord(z.enum(TIME_NAMES as readonly [TimeName, ...TimeName[]]), timeField)
  .describe(
    `Minutes for one of each: ${TIME_NAMES.map((name) => `${name} (${COMMON_TIMES[name].unit})`).join(', ')}. Those for a metre may be written {"perFoot": minutes}, those for a square metre {"perSquareFoot": minutes}.`,
  )
  .transform((stated, context): Partial<Record<TimeName, Range>> => {
    const times: Partial<Record<TimeName, Range>> = {};
    for (const name of TIME_NAMES) {
      const time = stated[name];
      if (time === undefined) continue;
      const { range, foot } = time;
      const counted = COMMON_TIMES[name].unit;
      if (foot !== undefined && !new RegExp(`^${FOOT_FIELDS[foot]}\\b`).test(counted))
        context.addIssue({
          code: 'custom',
          path: [name],
          message: `expected minutes for one ${counted}: "${foot}" does not fit`,
          input: foot,
        });
      times[name] = foot === undefined ? range : scaledRange(range, FOR_INCHES[FOOT_FIELDS[foot]][1]);
    }
    return times;
  });

const logged = z
  .strictObject({
    minutes: z.number().positive().max(100_000),
    cutLength: lengthField({ above: 0 })
      .optional()
      .describe('Sawn length, in wood of this species and thickness.'),
    species: z
      .string()
      .trim()
      .min(1)
      .optional()
      .describe(`Wood of ${MIDDLING_HARDNESS} lbf hardness is taken when left out.`),
    thickness: lengthField({ above: 0 }).optional().describe(`${PACE_THICKNESS} mm (3/4 in) when left out.`),
    amounts: z
      .partialRecord(z.enum(TIME_NAMES as readonly [TimeName, ...TimeName[]]), z.number().min(0))
      .default({})
      .describe('How much of each other kind of work there was in it.'),
  })
  .refine(
    ({ cutLength, amounts }) => cutLength !== undefined || Object.values(amounts).some((each) => each > 0),
    {
      error: 'expected "cutLength" or "amounts": what was done in these minutes',
    },
  );

/** The `work` field. */
export const workFields = z.strictObject({
  blades: z.array(blade).default([]).describe('Your blades; the common ones by number when there are none.'),
  blade: z
    .string()
    .min(1)
    .optional()
    .describe('Name of the one blade to use; chosen cut by cut when left out.'),
  holdSize: lengthField({ above: 0 })
    .default(USUAL_HOLD_SIZE)
    .describe('Parts smaller than this both ways stay on their section to the last.'),
  tab: lengthField({ above: 0 })
    .optional()
    .describe('Tab left of the outline of such parts, sawn when all else is; none when left out.'),
  times: times.default({}),
  log: z.array(logged).default([]).describe('Stretches of work you timed: the times are fitted to them.'),
  restTolerance: lengthField({ atLeast: 0 })
    .default(USUAL_GLUE_UP.restTolerance)
    .describe('How far a straight bottom may be off the plane the piece stands on.'),
  glueMargin: lengthField({ atLeast: 0 })
    .default(USUAL_GLUE_UP.glueMargin)
    .describe('How far glue is kept back from the edges of a joint.'),
  moistureChange: z
    .number()
    .min(0)
    .max(MOST_MOISTURE_CHANGE)
    .default(USUAL_GLUE_UP.moistureChange)
    .describe('Change of moisture the piece has to stand, percentage points.'),
});

/** The `work` field as read. */
export type JobWork = z.output<typeof workFields>;

/** The blade a job names; undefined when it names none or one that is not known. */
export function namedBlade({ blade: name, blades }: JobWork): Blade | undefined {
  return [...blades, ...COMMON_BLADES].find((known) => known.name === name);
}

/** What the blade decides in a job: the kerf written as `blade`, and the blade the pattern is checked with. */
interface BladeFields {
  readonly kerf: number | 'blade';
  readonly work: JobWork;
  readonly saw: { readonly bladeWidth?: number | undefined; readonly hole?: number | undefined };
}

/** Puts the named blade's kerf, width and hole (mm) where the job leaves them to it. */
export function withBlade<T extends BladeFields>(
  job: T,
  context: z.RefinementCtx,
): Omit<T, 'kerf'> & { readonly kerf: number } {
  const own = namedBlade(job.work);
  if (own === undefined && (job.work.blade !== undefined || job.kerf === 'blade')) {
    const why = job.work.blade === undefined ? '"kerf" is to be that of the blade: ' : '';
    context.addIssue({
      code: 'custom',
      path: ['work', 'blade'],
      message: `${why}expected the name of a blade: one under work.blades, or ${COMMON_BLADES.map(({ name }) => `"${name}"`).join(', ')}`,
      input: job.work.blade,
    });
    return z.NEVER;
  }
  const saw = { ...job.saw };
  if (own !== undefined) {
    saw.bladeWidth ??= own.width;
    saw.hole ??= own.hole;
  }
  return { ...job, saw, kerf: job.kerf === 'blade' ? (own as Blade).kerf : job.kerf };
}

function nearestCommon(width: number): Blade {
  return COMMON_BLADES.reduce((near, other) =>
    Math.abs(other.width - width) < Math.abs(near.width - width) ? other : near,
  );
}
