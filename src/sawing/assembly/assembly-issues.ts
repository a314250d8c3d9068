import { boundsOf } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import { type PartIssue, toldOnce } from '../../issues/told-once.ts';
import type { GlueJoint, StandingPart } from '../../model/assembly.ts';
import type { PartName } from '../../model/same-part.ts';
import { looseGroupIssues } from './loose-groups.ts';
import { missesPlane } from './rest-edges.ts';

/** Width across the grain above which a crossed joint is cautioned, mm: 3 in, common practice (2 to 4 in), no source. */
const WIDE_CROSSED = 76.2;

/** A part glued over less than this share of its face may be knocked off: common practice, no source. */
const LEAST_GLUED = 0.02;

/**
 * What a person should look at before gluing a whole piece: bottoms off the plane, parts that hardly hold.
 *
 * @param restTolerance how far a bottom may be off the plane, mm
 * @param copies of each part in one piece
 */
export function standingIssues(
  parts: readonly StandingPart[],
  joints: readonly GlueJoint[],
  restTolerance: number,
  copies: readonly number[],
): Issue[] {
  return [
    ...restIssues(parts, restTolerance),
    ...toldOnce(parts.flatMap((part, i) => heldIssues(part, copies[i], parts, joints))),
    ...looseGroupIssues(parts, joints),
  ];
}

function restIssues(parts: readonly StandingPart[], tolerance: number): Issue[] {
  return parts
    .filter(({ offPlane }) => missesPlane(offPlane, tolerance))
    .map(({ layer, part, offPlane = 0 }) => ({
      kind: 'rest-edge-off-plane',
      severity: 'warning',
      message: `the straight bottom lies ${Math.abs(offPlane).toFixed(2)} mm ${offPlane > 0 ? 'above' : 'below'} the plane the piece stands on`,
      expected: `within ${tolerance} mm`,
      remedy: 'Move the part in the drawing, or plane the bottom after gluing.',
      where: { layer, part },
    }));
}

/**
 * Warns of a part without a straight bottom on whose lowest point the piece would stand.
 *
 * @param reach of the part below the plane, mm
 */
export function belowPlaneIssue({ layer, part }: StandingPart, reach: number, tolerance: number): Issue {
  return {
    kind: 'rest-edge-off-plane',
    severity: 'warning',
    message: `the part reaches ${reach.toFixed(2)} mm below the plane the piece stands on: the piece rocks on it`,
    expected: `within ${tolerance} mm`,
    remedy: 'Move the part up in the drawing, or cut its bottom straight at the plane.',
    where: { layer, part },
  };
}

/**
 * That the lowest part of a piece ends far below the plane: a note, for it may hang over the edge of a shelf on purpose, or the
 * piece on a wall.
 *
 * @param reach of the part below the plane, mm
 */
export function hangsBelowIssue({ layer, part }: PartName, reach: number): Issue {
  return {
    kind: 'rest-edge-off-plane',
    severity: 'note',
    message: `the part ends ${reach.toFixed(1)} mm below the plane that most straight bottoms lie on: the piece does not stand on that plane`,
    remedy: 'Look at the bottoms in the drawing if the piece is to stand on a table.',
    where: { layer, part },
  };
}

/** A part that touches no other, or too little of one: glue kept back from the edges finds no room, or hardly any. */
function heldIssues(
  { layer, part, area }: StandingPart,
  copies: number,
  parts: readonly StandingPart[],
  joints: readonly GlueJoint[],
): PartIssue[] {
  if (parts.length < 2) return [];
  const isThis = (side: GlueJoint['front']) => side.layer === layer && side.part === part;
  const own = joints.filter(({ front, behind }) => isThis(front) || isThis(behind));
  // Three trees on one bank hold the bank three times, and each tree is held once.
  const inAll = (areaOf: (joint: GlueJoint) => number) =>
    own.reduce((sum, joint) => sum + Math.floor(joint.copies / copies) * areaOf(joint), 0);
  const glued = inAll(({ glueArea }) => glueArea);
  if (glued > 0 && glued >= LEAST_GLUED * area) return [];
  if (glued > 0) {
    const touched = inAll(({ contactArea }) => contactArea);
    return [hardlyHeld({ layer, part }, glued / area, touched / area)];
  }
  const touches = own.length > 0;
  return [
    {
      kind: touches ? 'joint-narrow' : 'part-held-by-nothing',
      severity: 'warning',
      message: touches
        ? 'the part touches the others only where there is no room for glue kept back from the edges'
        : 'the part touches no other part: nothing holds it',
      remedy: touches
        ? 'Glue it sparingly to the edge, pin it, or let it overlap more.'
        : 'Let it overlap another part, or hold it by a pin or a wire.',
      where: { layer, part },
    },
  ];
}

/**
 * @param glued share of the face that is glued
 * @param touched share that lies on other parts
 */
function hardlyHeld(where: PartIssue['where'], glued: number, touched: number): PartIssue {
  const percent = (share: number) => `${(100 * share).toFixed(2)} %`;
  const isNarrow = touched >= LEAST_GLUED;
  // What lies between two others touches on both faces.
  const touching = touched > 1 ? 'a touching area larger than that face' : `${percent(touched)} that touch`;
  const kept = isNarrow ? `, of ${touching}, for glue is kept back from the edges` : '';
  return {
    kind: 'joint-small',
    severity: 'warning',
    message: `the part is glued over ${percent(glued)} of its face only${kept}: it may be knocked off`,
    expected: `at least ${100 * LEAST_GLUED} %`,
    remedy: isNarrow
      ? 'Spread glue nearer to its edges ("glueMargin" under "work"), or let it overlap the parts behind more.'
      : 'Let it overlap the parts behind more, or put a block or a spacer behind it.',
    where,
  };
}

function movementWords({ movement, movementMethod }: GlueJoint, moistureChange: number): string {
  return movement === undefined
    ? `how far they move apart is ${movementMethod}`
    : `they move ${movement.toFixed(2)} mm apart for ${moistureChange} % of moisture (${movementMethod} method)`;
}

/**
 * A joint of wide parts whose grains lie across one another.
 *
 * @param moistureChange percentage points
 */
export function crossedIssues(joint: GlueJoint, moistureChange: number): Issue[] {
  if (joint.grains !== 'crossed') return [];
  const box = boundsOf(joint.contact.flatMap(({ outline }) => outline));
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  if (size <= WIDE_CROSSED) return [];
  const { layer, part } = joint.front;
  return [
    {
      kind: 'grain-crossed',
      severity: 'warning',
      message: `glued with its grain across that of ${joint.behind.layer} ${joint.behind.part} over ${size.toFixed(0)} mm: ${movementWords(joint, moistureChange)}`,
      remedy: 'Let the grains run the same way, or glue in the middle only.',
      where: { layer, part },
    },
  ];
}
