import { insidePoint } from '../geometry/inside-point.ts';
import { regionBounds } from '../geometry/ring.ts';
import { middleOf } from '../geometry/shapes.ts';
import { snugSize } from '../geometry/snug-size.ts';
import { tightestCurve } from '../geometry/tightest-curve.ts';
import { thinPlaces } from '../geometry/widths.ts';
import { mapOf, number, oneOf, optional } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { LENGTH, SOME_LENGTH } from '../issues/number-issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import type { Part, Pattern } from '../model/pattern.ts';
import type {
  Finding,
  PartCheck,
  PatternCheck,
  PatternCheckOptions,
  SawFitting,
} from '../model/pattern-check.ts';
import { patternCheck } from '../model/pattern-checks.ts';
import { isHardToHold } from '../model/small-parts.ts';
import { stated } from '../model/stated.ts';
import { USUAL_HOLD_SIZE } from '../model/usual-settings.ts';
import { checkNecks } from './check-necks.ts';
import { turnsOf } from './check-turns.ts';
import { groupFindings } from './group-findings.ts';
import { middle, thinnestOfEach } from './thinnest-places.ts';

/**
 * What a shop would fit for 3/4 in hardwood: a blade of the size commonly called No. 5, 0.038 in wide, and a
 * 1/16 in hole. Common practice, no source: blade numbers are not standard between makers, so measure your own.
 */
export const COMMON_SAW: SawFitting = { kerf: 0.5, bladeWidth: 0.97, hole: 1.6 };

/** Outline around the end of a slot, in kerfs, below which it is the end of a notch: about three kerfs deep. */
const LEAST_SLOT = 6;

const optionsCheck = recordByHand({
  saw: optional(
    recordByHand({
      kerf: optional(number(LENGTH)),
      bladeWidth: optional(number(SOME_LENGTH)),
      hole: optional(number(SOME_LENGTH)),
    }),
  ),
  grain: optional(mapOf(oneOf(['along', 'across', 'free']))),
  neckAlong: optional(number(LENGTH)),
  neckAcross: optional(number(LENGTH)),
  holdSize: optional(number(LENGTH)),
});

/**
 * The saw's view of a pattern: thin necks and short grain, bends tighter than the blade, openings too small to
 * thread, features that vanish in the kerf, parts too small to hold. Limits that are not given are common practice,
 * no source: necks 1/16 in along the grain and twice that across it, parts under 2 in in a carrier.
 *
 * @throws FretlayError for what is no pattern, and for options that make no sense
 */
export function checkPattern(pattern: Pattern, options: PatternCheckOptions = {}): PatternCheck {
  throwOnErrors([...patternCheck('pattern', pattern), ...optionsCheck('options', options)]);
  const saw = { ...COMMON_SAW, ...stated(options.saw ?? {}) };
  const checks = pattern.layers.flatMap(({ name, parts }) => {
    const grain =
      options.grain !== undefined && Object.hasOwn(options.grain, name) ? options.grain[name] : 'along';
    const limits = { along: options.neckAlong ?? 1.6, across: options.neckAcross ?? 3.2 };
    return parts.map((part) => {
      const necks = checkNecks(part, grain, limits);
      const turns = checkTurns(part, saw);
      const findings = [
        ...necks,
        ...turns.findings,
        ...checkOpenings(part, saw),
        ...checkLostInKerf(part, saw),
        ...checkHold(part, options.holdSize ?? USUAL_HOLD_SIZE),
      ];
      const check: PartCheck = {
        layer: name,
        part: part.name,
        sharpTurns: turns.corners,
        // The thinnest comes first.
        thinnestNeck: necks[0]?.size,
      };
      return { findings, check };
    });
  });
  const findings = checks.flatMap((each) => each.findings);
  return {
    saw,
    findings,
    groups: groupFindings(findings),
    parts: checks.map(({ check }) => check),
  };
}

/** One finding for all tight bends of a part, at the tightest. */
function checkTurns(part: Part, saw: SawFitting): { corners: number; findings: Finding[] } {
  const limit = tightestCurve(saw.bladeWidth);
  const turns = [part.region.outline, ...part.region.openings].map((ring) => turnsOf(ring, saw.kerf, limit));
  const corners = turns.reduce((sum, ring) => sum + ring.corners, 0);
  const tight = turns.flatMap((ring) => ring.tight).sort((a, b) => a.radius - b.radius);
  if (tight.length === 0) return { corners, findings: [] };
  const [{ at, radius }] = tight;
  const others = tight.length === 1 ? 'a bend' : `${tight.length} bends`;
  return {
    corners,
    findings: [
      {
        ...placed(part, at),
        kind: 'turn-tight',
        severity: 'note',
        size: radius,
        limit,
        message: `${others} tighter than the blade follows in one sweep, down to a radius of ${radius.toFixed(2)} mm`,
        advice: 'Use a narrower blade, or turn it on the spot in the waste.',
      },
    ],
  };
}

/**
 * How far the largest circle found in an opening may fall short of one that is as wide as the hole, mm: twice the 0.01 by
 * which its radius is sought and the 0.01 within which curves are flattened. Drills come no truer.
 */
const HOLE_ROUNDING = 0.04;

/** An opening has to hold the drilled hole somewhere; one as wide as the hole is drilled away whole. */
function checkOpenings(part: Part, { hole }: SawFitting): Finding[] {
  return part.region.openings.flatMap((outline): Finding[] => {
    const { at, radius } = insidePoint({ outline, openings: [] }, 0.01);
    if (2 * radius >= hole - HOLE_ROUNDING) return [];
    return [
      {
        ...placed(part, at),
        kind: 'opening-small',
        severity: 'warning',
        size: 2 * radius,
        limit: hole,
        message: `an opening takes a hole of ${(2 * radius).toFixed(2)} mm at most; the blade needs ${hole.toFixed(2)} mm`,
        advice: 'Draw the opening larger, or use a finer blade with a smaller hole.',
      },
    ];
  });
}

/** Slots of waste narrower than the kerf; the very end of a notch always is, and does not count. */
function checkLostInKerf(part: Part, { kerf }: SawFitting): Finding[] {
  const slots = thinPlaces(part.region, 'waste', kerf, 0.4 * kerf).filter(
    ({ outlineBetween }) => outlineBetween > LEAST_SLOT * kerf,
  );
  return thinnestOfEach(slots, 2 * kerf).map(
    (slot): Finding => ({
      ...placed(part, middle(slot)),
      kind: 'lost-in-kerf',
      severity: 'warning',
      size: slot.width,
      limit: kerf,
      message: `a slot ${slot.width.toFixed(2)} mm wide is narrower than the cut`,
      advice: 'Draw it as a vein, or wider than the kerf.',
    }),
  );
}

function checkHold(part: Part, holdSize: number): Finding[] {
  const box = regionBounds(part.region);
  // Not the box along the axes: a part that is drawn turned is as long as one that is not.
  const { length: size } = snugSize(part.region.outline);
  if (!isHardToHold({ longest: size }, { holdSize })) return [];
  return [
    {
      ...placed(part, middleOf(box)),
      kind: 'part-small',
      severity: 'note',
      size,
      limit: holdSize,
      message: `the part is ${size.toFixed(2)} mm at its longest: too small to hold near the blade`,
      advice: 'Leave it in the board or on a carrier until the last cut.',
    },
  ];
}

function placed(part: Part, at: Finding['at']): Pick<Finding, 'layer' | 'part' | 'at' | 'span'> {
  return { layer: part.layer, part: part.name, at, span: undefined };
}
