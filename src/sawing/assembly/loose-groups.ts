import { firstFew } from '../../issues/counted.ts';
import type { Issue } from '../../issues/issue.ts';
import type { GlueJoint, StandingPart } from '../../model/assembly.ts';
import { partKey } from '../../model/same-part.ts';

/** Other parts of a group that its line names. */
const MOST_NAMED = 6;

/**
 * Parts that are glued to one another and to nothing else of the piece, as a boat with its oar that only touches the bank: each
 * is held by another, so that nothing is told of it by itself. One line for a group, at the part of it that is glued first.
 */
export function looseGroupIssues(parts: readonly StandingPart[], joints: readonly GlueJoint[]): Issue[] {
  const groups = gluedGroups(parts, joints);
  const areaOf = (group: readonly StandingPart[]) => group.reduce((sum, { area }) => sum + area, 0);
  const piece = Math.max(0, ...groups.map(areaOf));
  const main = groups.find((group) => areaOf(group) === piece);
  return groups
    .filter((group) => group !== main && group.length > 1)
    .map((group): Issue => {
      const [{ layer, part }, ...others] = group;
      const names = firstFew(
        others.map((other) => `${other.layer} ${other.part}`),
        MOST_NAMED,
      );
      const isIn = (side: GlueJoint['front']) => group.some((own) => partKey(own) === partKey(side));
      const touches = joints.some(({ front, behind }) => isIn(front) !== isIn(behind));
      return {
        kind: touches ? 'joint-narrow' : 'part-held-by-nothing',
        severity: 'warning',
        message: `it and ${names} are glued to one another and to no other part of the piece: ${
          touches
            ? 'those they touch only where there is no room for glue kept back from the edges'
            : 'they touch none'
        }`,
        remedy: touches
          ? 'Glue them sparingly to the edge, pin them, or let one of them overlap the rest more.'
          : 'Let one of them overlap the rest, or hold them by a pin or a wire.',
        where: { layer, part },
      };
    });
}

/** The parts by what holds together when the glue is dry, each group in the order of gluing. */
function gluedGroups(
  parts: readonly StandingPart[],
  joints: readonly GlueJoint[],
): (readonly StandingPart[])[] {
  let groups: StandingPart[][] = parts.map((part) => [part]);
  for (const { front, behind, glueArea } of joints) {
    if (glueArea <= 0) continue;
    const ends = new Set([partKey(front), partKey(behind)]);
    const joined = groups.filter((group) => group.some((part) => ends.has(partKey(part))));
    groups = [...groups.filter((group) => !joined.includes(group)), joined.flat()];
  }
  const place = new Map(parts.map((part, i) => [part, i]));
  return groups.map((group) => group.toSorted((a, b) => place.get(a)! - place.get(b)!));
}
