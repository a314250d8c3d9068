import { type Box, boundsOf } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';

/** Boxes of outlines met so far: every part with openings, and every cut, asks for those of all parts on its board. */
const outlineBoxes = new WeakMap<Placement, Box>();

/** The box around a placed part, board mm; remembered as long as the placement lives. */
export function outlineBox(placement: Placement): Box {
  const known = outlineBoxes.get(placement);
  if (known !== undefined) return known;
  const box = boundsOf(placement.region.outline);
  outlineBoxes.set(placement, box);
  return box;
}
