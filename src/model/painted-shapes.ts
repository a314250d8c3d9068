import type { DrawingGroup, DrawingShape } from './drawing.ts';

/** The shapes that show, in painting order: those in groups that are switched off are passed over. */
export function* paintedShapes(group: DrawingGroup): Generator<DrawingShape> {
  if (!group.visible) return;
  for (const child of group.children) {
    if (child.kind === 'shape') yield child;
    else yield* paintedShapes(child);
  }
}
