import { regionArea } from '../../geometry/ring.ts';
import type { Issue } from '../../issues/issue.ts';
import { demandsAlike, ofOneOutline, outlineOf, perSetOf } from './demands-alike.ts';
import { type Group, woodName } from './group.ts';

/**
 * A warning for every group of so many unlike outlines that those of about one size were laid out as one around them all:
 * nothing on the boards would tell why the parts lie so far apart.
 */
export function sharedOutlineIssues(groups: readonly Group[]): Issue[] {
  return groups.flatMap((group): Issue[] => {
    const own = ofOneOutline(group).length;
    const alike = demandsAlike(group);
    if (alike.length === own || group.pieces.length === 0) return [];
    const areas = alike.map((sharing) => ({
      parts: sharing.reduce((sum, { region, copiesPerSet }) => sum + copiesPerSet * regionArea(region), 0),
      around: perSetOf(sharing) * regionArea(outlineOf(sharing)),
    }));
    const [parts, around] = (['parts', 'around'] as const).map((of) =>
      areas.reduce((sum, area) => sum + area[of], 0),
    );
    const share = Math.round(100 * (around / parts - 1));
    if (share === 0) return [];
    return [
      {
        kind: 'outlines-shared',
        severity: 'warning',
        message: `${own} unlike outlines of ${woodName(group.species, group.thickness)} are too many to be fitted to one another: those of about one size lie as if they had one outline that holds each of them, ${alike.length} outlines in all, which takes up ${share} % more wood than the parts`,
        remedy:
          'Make two or more batches of them: of one wood 360 unlike parts are fitted to one another, 180 where the grain is free, some 250 and 120 where they may be turned over as well.',
      },
    ];
  });
}
