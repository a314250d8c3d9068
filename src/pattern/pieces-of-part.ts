import { partedAreas } from '../geometry/parted-areas.ts';
import { locateInRing } from '../geometry/ring.ts';
import type { Line, Region } from '../geometry/shapes.ts';

/** Pieces smaller than this, mm2, are crumbs of a vein that runs along the edge. */
const LEAST_PIECE = 1;

/**
 * How many pieces a part falls into when its veins are sawn: a vein from edge to edge goes through. Loops of veins that
 * touch no edge are not looked for; lines that close are openings already.
 *
 * @param gap veins that end so near to an edge, or to one another, mm, reach it
 */
export function piecesOfPart(region: Region, veins: readonly Line[], gap: number): number {
  const rings = [region.outline, ...region.openings];
  const atEdge = veins
    .flatMap((vein) => [vein[0], vein[vein.length - 1]])
    .filter((end) => rings.some((ring) => locateInRing(end, ring, gap) === 0));
  if (atEdge.length < 2) return 1;
  return Math.max(1, partedAreas(region, veins, gap / 2).filter((area) => area >= LEAST_PIECE).length);
}
