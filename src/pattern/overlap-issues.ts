import type { Issue } from '../issues/issue.ts';
import type { LayerPlace, Solid } from './solids.ts';

/** What has become of a solid that meets another of its layer. */
export function overlapIssue(
  solid: Solid,
  other: Solid,
  what: 'united' | 'opened' | 'swallowed' | 'twice',
  place: LayerPlace,
): Issue {
  const where = { ...place, element: solid.shape.element, line: solid.shape.line };
  switch (what) {
    case 'united':
      return {
        kind: 'shapes-united',
        severity: 'warning',
        message: `overlaps ${other.shape.element} of the same layer; the two are cut as one part`,
        remedy: 'Move them apart or to different layers if they are two parts.',
        where,
      };
    case 'opened':
      return {
        kind: 'inner-shape-opened',
        severity: 'note',
        message: `lies inside ${other.shape.element} and is cut out of it as an opening`,
        where,
      };
    case 'twice':
      return {
        kind: 'shape-drawn-twice',
        severity: 'warning',
        message: `lies exactly on ${other.shape.element} of the same layer; the two are cut as one part`,
        remedy: 'Delete one of them, or move it if it is a part of its own.',
        where,
      };
    case 'swallowed':
      return {
        kind: 'inner-shape-swallowed',
        severity: 'warning',
        message: `lies wholly inside ${other.shape.element} and makes no cut`,
        remedy: `Move it to a different layer if it is a part of its own; ask for "innerShapes": "openings" in the job if such shapes are to be cut out; delete ${other.shape.element} if that is only the background.`,
        where,
      };
  }
}

/** Shapes of a layer that cannot be told from one another in reasonable time. */
export function shapesWithoutEnd(group: readonly Pick<Solid, 'shape'>[], place: LayerPlace): Issue {
  return {
    kind: 'shapes-too-tangled',
    severity: 'error',
    message: `${group.length} shapes of the layer overlap one another so often that they cannot be a pattern`,
    remedy: 'Unite them in the drawing program, or put them on layers of their own.',
    where: { ...place, element: group[0].shape.element, line: group[0].shape.line },
  };
}
