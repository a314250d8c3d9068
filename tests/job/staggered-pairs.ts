import { applyToRegion, placementMap } from '../../src/geometry/affine.ts';
import { boundsOf, type Region } from '../../src/geometry/shapes.ts';
import type { Batch, Demand } from '../../src/model/batch.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import type { Size } from './box-packing.ts';

/**
 * What a careful person draws by hand (common practice, no source): two copies of a part side by side, the second
 * head to foot, pushed together until they are the gap apart; the pairs are then laid out by their boxes, an odd
 * copy by its own. Parts that stand on the straight edge may not be turned and stay single.
 */
export function staggeredBoxes(demands: readonly Demand[], batch: Batch): Size[] {
  const gap = batch.kerf + batch.clearance;
  return demands.flatMap(({ region, copiesPerSet, rules }) => {
    const copies = copiesPerSet * batch.sets;
    const { minX, minY, maxX, maxY } = boundsOf(region.outline);
    const single = { width: maxX - minX, height: maxY - minY };
    if (rules.restEdge) return Array<Size>(copies).fill(single);
    const pair = { width: pairWidth(region, gap), height: single.height };
    return [...Array<Size>(Math.floor(copies / 2)).fill(pair), ...Array<Size>(copies % 2).fill(single)];
  });
}

/** Step in mm by which the second copy is pushed along. */
const STEP = 0.25;

/** Width of the narrowest pair, head to foot with level boxes, that keeps the gap. */
function pairWidth(region: Region, gap: number): number {
  const { minX, minY, maxX, maxY } = boundsOf(region.outline);
  const width = maxX - minX;
  const first = referenceRegion(region);
  let least = 2 * width + gap;
  for (let apart = width + gap - STEP; apart > 0; apart -= STEP) {
    // Turned by half a turn about the middle of its box, then moved along.
    const turned = placementMap([minX + maxX + apart, minY + maxY], 180, false);
    const second = referenceRegion(applyToRegion(turned, region));
    if (first.boundaryDistance(second).distance < gap) break;
    least = width + apart;
  }
  return least;
}
