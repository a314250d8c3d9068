import { combineRegions, offsetRegions } from '../geometry/clipper.ts';
import type { Region, Ring } from '../geometry/shapes.ts';
import { simplifyRegion, simplifyRing } from '../geometry/simplify-ring.ts';

/**
 * A board after sawing, as a partition: every point of it belongs to exactly one of the lists. So the areas add up
 * to the whole board but for the rounding of corners to the integer grid.
 */
export interface BoardPartition {
  /** Ripped and cross-cut off before layout. */
  readonly trims: readonly Region[];
  /** Parts and the path of the blade around them and in their openings. */
  readonly sawn: readonly Region[];
  readonly defects: readonly Region[];
  /** What falls out of openings, less other parts that lie there. */
  readonly openings: readonly Region[];
  /** Sound wood between and beside the parts. */
  readonly rest: readonly Region[];
}

/** What a board is partitioned by. */
export interface SawnBoard {
  /** Before any trim. */
  readonly outline: Ring;
  readonly trimmed: Region;
  readonly defects: readonly Ring[];
  /** Parts as placed; no two overlap. */
  readonly parts: readonly Region[];
  /** Width the blade removes, mm. */
  readonly kerf: number;
}

/** Excess in mm of the blade's path over the kerf: the kerf is not known better, and many vertices are spared. */
const PATH_EXCESS = 0.005;

/** Partitions a board by what the saw does to it. */
export function partitionBoard({ outline, trimmed, defects, parts, kerf }: SawnBoard): BoardPartition {
  const solid = (ring: Ring): Region => ({ outline: ring, openings: [] });
  const excess = Math.min(PATH_EXCESS, kerf / 4);
  const plain = parts.map((part) => simplifyRegion(part, excess));
  const path = offsetRegions(plain, kerf + excess, PATH_EXCESS);
  const holes = plain.flatMap((part) => part.openings.map(solid));
  const flawed = defects.map((ring) => solid(simplifyRing(ring, excess)));
  const unsawn = less([trimmed], path);
  const sound = less(unsawn, flawed);
  return {
    trims: trimmed.outline === outline ? [] : less([solid(outline)], [trimmed]),
    sawn: combineRegions('intersection', path, [trimmed]),
    defects: flawed.length === 0 ? [] : combineRegions('intersection', unsawn, flawed),
    openings: holes.length === 0 ? [] : combineRegions('intersection', sound, holes),
    rest: less(sound, holes),
  };
}

function less(regions: readonly Region[], taken: readonly Region[]): readonly Region[] {
  return taken.length === 0 ? regions : combineRegions('difference', regions, taken);
}
