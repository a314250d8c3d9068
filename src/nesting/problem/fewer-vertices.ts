import { regionArea, ringArea, verticesOf } from '../../geometry/ring.ts';
import { boundsOf, boxRing, grownBox, type Region, type Ring } from '../../geometry/shapes.ts';
import { lastOf, type Steps } from '../running/steps.ts';
import { withoutBays } from './covered-bays.ts';
import { simplifyOutward } from './simplify-outward.ts';

/**
 * Outlines in a handy number of vertices, never with less wood: what a no-fit polygon costs grows with the square of
 * their number and more.
 */

/** Greatest excess in mm of the outlines the engine works with over the true ones, for most. */
const LARGEST_EXCESS = 0.1;

/** The same as a share of the size of the part, for small parts. */
const SHARE_OF_SIZE = 0.002;

/** Vertices that need no simplifying. */
const HANDY = 72;

/**
 * Vertices from which on an outline is crowded: a leaf with a thousand teeth, or a line that was traced from a picture
 * step by step. Smooth ones have fewer within the excess above, however finely they were drawn.
 */
const CROWDED = 300;

/** The excess a crowded outline may have beside its covered bays, as a multiple of the usual one. */
const CROWDED_EXCESS = 2.5;

/** Bays of a crowded outline are tried to be covered so many times, each time half as wide again, with that excess in them. */
const TRIES = 8;
const WIDENED = 1.5;
const EXCESS_IN_BAYS = 1 / 8;

/**
 * Share of its area by which a part may grow to be rid of {@link CROWDED} vertices; more for more, by the power of 1.5 with which
 * the time of a no-fit polygon grows with them, as measured on toothed leaves.
 */
const WORTH = 0.02;

/** Covering bays has to bring the vertices down to this share, or it is not worth the excess. */
const WORTHWHILE = 0.6;

/** The same for the edge of a board, whose no-fit polygons with parts grow with its vertices alone. */
const WORTH_OF_EDGE = 0.002;

/**
 * A region around the true one that is quick to work with: within a tenth of a millimetre of it where that will do. Of a
 * crowded one the bays are covered as far as the time they would take is worth the wood they would give.
 *
 * @param distance what everything keeps from the region at least, mm
 */
export function withFewVertices(region: Region, distance: number): Region {
  return lastOf(fewVerticesSteps(region, distance));
}

/**
 * As {@link withFewVertices}, in steps of some milliseconds.
 *
 * @param leeway how many times the usual excess is allowed: vertices are wanted fewer by its root, as curves then have
 */
export function* fewVerticesSteps(region: Region, distance: number, leeway = 1): Steps<Region> {
  const fewer = Math.sqrt(leeway);
  const excess = leeway * excessAllowed(region);
  const plain = withLittleExcess(region, excess, HANDY / fewer);
  if (verticesOf(plain) <= CROWDED / fewer) return plain;
  return yield* withBaysCovered(plain, { distance, excess, area: regionArea(region), worth: leeway * WORTH });
}

/**
 * The outline of a board without what stands out from a crowded edge, as one that was traced along the bark: the same for
 * the solid around the board. Others stay as they are.
 *
 * @param distance what everything keeps from the edge at least, mm
 */
export function edgeWithFewVertices(outline: Ring, distance: number): Ring {
  if (outline.length <= CROWDED) return outline;
  const around = { outline: boxRing(grownBox(boundsOf(outline), 1)), openings: [outline] };
  const area = ringArea(outline);
  const covering = { distance, excess: LARGEST_EXCESS, area, worth: WORTH_OF_EDGE };
  const { openings } = lastOf(withBaysCovered(simplifyOutward(around, LARGEST_EXCESS), covering));
  return openings.length === 1 ? openings[0] : outline;
}

/** How bays are covered. */
interface Covering {
  /** What everything keeps from the region at least, mm. */
  readonly distance: number;
  /** Usual excess over the true outline, mm. */
  readonly excess: number;
  /** Area that what is given away is measured by, mm2. */
  readonly area: number;
  /** See {@link WORTH}. */
  readonly worth: number;
}

function* withBaysCovered(plain: Region, { distance, excess, area, worth }: Covering): Steps<Region> {
  const given = regionArea(plain);
  const loss = (tried: Region) => {
    const crowd = verticesOf(tried) / CROWDED;
    // A root, not a power: the last bit of that is left to each machine.
    return (regionArea(tried) - given) / area + worth * crowd * Math.sqrt(crowd);
  };
  let best = plain;
  let covered = plain;
  let mouth = narrowest(distance, excess);
  for (let n = 0; n < TRIES; n++, mouth *= WIDENED) {
    yield;
    covered = withoutBays(covered, mouth);
    // Wider bays only give more away.
    if ((regionArea(covered) - given) / area >= loss(best)) break;
    const tried = simplifyOutward(covered, Math.max(CROWDED_EXCESS * excess, EXCESS_IN_BAYS * mouth));
    if (verticesOf(tried) <= WORTHWHILE * verticesOf(plain) && loss(tried) < loss(best)) best = tried;
  }
  return best;
}

function excessAllowed({ outline }: Region): number {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  return Math.min(LARGEST_EXCESS, SHARE_OF_SIZE * Math.max(maxX - minX, maxY - minY));
}

/**
 * Bays with a mouth as wide as this, mm, are no place for anything: a disc as large as the distance, which is what keeps
 * it, sinks in between the tips by the excess at most.
 */
function narrowest(distance: number, excess: number): number {
  return 2 * Math.sqrt(excess * (2 * Math.max(distance, excess) - excess));
}

/** The region in a handy number of vertices, if it can be had, with as little excess as that takes. */
function withLittleExcess(region: Region, most: number, handy: number): Region {
  if (verticesOf(region) <= handy) return region;
  // Long curves stay above the handy number: one try tells, where working up to it would take seven.
  const simplest = simplifyOutward(region, most);
  if (verticesOf(simplest) > handy) return simplest;
  let result = region;
  for (let excess = most / 64; excess <= most && verticesOf(result) > handy; excess *= 2) {
    result = simplifyOutward(region, excess);
  }
  return result;
}
