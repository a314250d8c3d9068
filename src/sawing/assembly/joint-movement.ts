import { boundsOf, type Region } from '../../geometry/shapes.ts';
import type { GlueJoint } from '../../model/assembly.ts';
import { woodFacts } from '../wood-facts.ts';
import type { LayerWood } from './assembly-part.ts';
import { CHANGE_ALONG_GRAIN, movementAcross } from './movement.ts';

type Wood = Pick<LayerWood, 'species' | 'grain'>;

/** What the moisture does to a joint, and how the grains of its layers lie to one another. */
export interface JointMovement {
  /** mm; undefined for a species that the table does not have: 0 would be read as "it keeps still". */
  readonly movement: number | undefined;
  readonly method: string;
  readonly grains: GlueJoint['grains'];
}

/**
 * How far two layers move apart over their joint, flat-sawn: the change of each over the joint's width and height,
 * across its grain by its coefficient or shrinkage, along it hardly at all; the greater difference counts. Where the grain of one
 * is free, copies of it may lie either way, and the way that moves most counts.
 *
 * @param moistureChange percentage points
 */
export function jointMovement(
  behind: Wood,
  front: Wood,
  contact: readonly Region[],
  moistureChange: number,
): JointMovement {
  const box = boundsOf(contact.flatMap(({ outline }) => outline));
  const sizes = [box.maxX - box.minX, box.maxY - box.minY];
  const isFree = behind.grain === 'free' || front.grain === 'free';
  const grains = isFree ? 'any way' : behind.grain === front.grain ? 'alike' : 'crossed';
  const [ways, others] = [behind, front].map((wood) =>
    (wood.grain === 'free' ? EITHER_WAY : [wood.grain]).map((grain) =>
      changesOf(wood.species, grain, sizes, moistureChange),
    ),
  );
  let movement: number | undefined;
  let method = 'unknown: a species is not in the table';
  for (const a of ways) {
    for (const b of others) {
      if (a === undefined || b === undefined) continue;
      movement = Math.max(movement ?? 0, Math.abs(a.x - b.x), Math.abs(a.y - b.y));
      method = a.method === b.method ? a.method : `${a.method} and ${b.method}`;
    }
  }
  return { movement, method, grains };
}

const EITHER_WAY = ['along', 'across'] as const;

/** Change of one layer over the joint, along x and along y. */
function changesOf(
  species: string,
  grain: 'along' | 'across',
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
