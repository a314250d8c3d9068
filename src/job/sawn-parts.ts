import type { Ring } from '../geometry/shapes.ts';
import { number } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { SOME_LENGTH } from '../issues/number-issue.ts';
import type { SawnPart } from '../model/cut-plan.ts';
import type { Pattern } from '../model/pattern.ts';
import type { PatternCheck } from '../model/pattern-check.ts';
import { foundCheck, patternCheck } from '../model/pattern-checks.ts';
import { turnsOf } from '../pattern/check-turns.ts';

/** Each look for a still tighter bend asks for one tighter by this. */
const TIGHTER = 0.8;

/** Radius beyond which hardly a blade minds a bend, mm: wider than the tightest curve of the common ones. */
export const WIDE_CURVE = 10;

/**
 * What the check of the pattern says about sawing each part, as `planCuts` takes it for `parts`: corners, the thinnest
 * neck, the tightest bend of every ring.
 *
 * @param check what `checkPattern` found in this pattern
 * @param radius radius beyond which no bend is of interest, mm (default 10)
 * @throws FretlayError for what is no pattern, no check of one, or no radius
 */
export function sawnParts(pattern: Pattern, check: PatternCheck, radius = WIDE_CURVE): SawnPart[] {
  throwOnErrors([
    ...patternCheck('pattern', pattern),
    ...foundCheck('check', check),
    ...number(SOME_LENGTH)('radius', radius),
  ]);
  return pattern.layers.flatMap(({ parts }) =>
    parts.map(({ layer, name, region }): SawnPart => {
      const own = check.parts.find((known) => known.layer === layer && known.part === name);
      const necks = check.findings.filter(
        (finding) =>
          finding.layer === layer &&
          finding.part === name &&
          (finding.kind === 'neck-thin' || finding.kind === 'neck-short-grain'),
      );
      const neck = necks.sort((a, b) => a.size - b.size).at(0);
      return {
        layer,
        part: name,
        sharpTurns: own?.sharpTurns ?? 0,
        thinnestNeck: neck?.size,
        neckAt: neck?.at,
        tightestBends: [region.outline, ...region.openings].map((ring) =>
          tightestBend(ring, check.saw.kerf, radius),
        ),
      };
    }),
  );
}

/** Radius of the tightest bend of a ring below `radius`, mm; a gentle stretch beside it would hide it, so looks close in. */
function tightestBend(ring: Ring, kerf: number, radius: number): number | undefined {
  let tightest: number | undefined;
  for (let limit = radius; ; limit = TIGHTER * (tightest ?? 0)) {
    const { tight } = turnsOf(ring, kerf, limit);
    if (tight.length === 0) return tightest;
    tightest = Math.min(tightest ?? radius, ...tight.map((bend) => bend.radius));
  }
}
