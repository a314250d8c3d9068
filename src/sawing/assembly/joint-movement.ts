import { boundsOf, type Region } from '../../geometry/shapes.ts';
import { woodFacts } from '../wood-facts.ts';
import type { LayerWood } from './assembly-part.ts';
import { CHANGE_ALONG_GRAIN, movementAcross } from './movement.ts';

/**
 * How far two layers move apart over their joint, flat-sawn: the change of each over the joint's width and height,
 * across its grain by its coefficient or shrinkage, along it hardly at all; the greater difference counts. Undefined
 * for a species that the table does not have: 0 would be read as "it keeps still".
 *
 * @param moistureChange percentage points
 */
export function jointMovement(
  behind: Pick<LayerWood, 'species' | 'grain'>,
  front: Pick<LayerWood, 'species' | 'grain'>,
  contact: readonly Region[],
  moistureChange: number,
): { movement: number | undefined; method: string; crossed: boolean } {
  const box = boundsOf(contact.flatMap(({ outline }) => outline));
  const sizes = [box.maxX - box.minX, box.maxY - box.minY];
  const [a, b] = [behind, front].map((wood) => changesOf(wood, sizes, moistureChange));
  const crossed = behind.grain !== front.grain && behind.grain !== 'free' && front.grain !== 'free';
  if (a === undefined || b === undefined)
    return { movement: undefined, method: 'unknown: a species is not in the table', crossed };
  return {
    movement: Math.max(Math.abs(a.x - b.x), Math.abs(a.y - b.y)),
    method: a.method === b.method ? a.method : `${a.method} and ${b.method}`,
    crossed,
  };
}

/** Change of one layer over the joint, along x and along y. Free grain is taken along x. */
function changesOf(
  { species, grain }: Pick<LayerWood, 'species' | 'grain'>,
  [width, height]: readonly number[],
  moistureChange: number,
): { x: number; y: number; method: string } | undefined {
  const facts = woodFacts(species);
  const upright = grain === 'across';
  const across =
    facts === undefined ? undefined : movementAcross(facts, upright ? width : height, moistureChange);
  if (across === undefined) return undefined;
  const along = (upright ? height : width) * CHANGE_ALONG_GRAIN * moistureChange;
  return {
    x: upright ? across.change : along,
    y: upright ? along : across.change,
    method: across.method,
  };
}
