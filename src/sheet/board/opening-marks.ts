import { combineRegions } from '../../geometry/clipper.ts';
import { type InsidePoint, insidePoint } from '../../geometry/inside-point.ts';
import { locateInRing } from '../../geometry/ring.ts';
import { boundsOf, boxHolds, type Region, type Ring } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';
import { hatchLines } from '../marks/hatch.ts';
import { dot, line, type Mark, rings } from '../marks/marks.ts';

/** Distance between hatching lines, mm: in wide openings and in narrow ones. */
const HATCH_WIDE = 1.8;
const HATCH_NARROW = 0.9;

/** Least wood between the drilled hole and the line, mm. */
const DRILL_CLEARANCE = 0.2;

/**
 * The waste of each opening hatched, with a cross where the hole for the blade is drilled: the centre of the
 * largest circle that fits. Parts that lie in the opening are not waste and stay clear.
 *
 * @param others all placements of the board
 * @param drill diameter of the drill, mm: drawn as a ring where it clears the line; no ring where it does not, or when
 *   it is not known
 */
export function openingMarks(
  placement: Placement,
  others: readonly Placement[],
  drill: number | undefined,
): Mark[] {
  const nested = nestedIn(placement, others);
  return placement.region.openings.flatMap((opening) => {
    const { waste, centre } = holeOf(opening, nested);
    return centre === undefined ? [] : [...wasteMarks(waste, centre), ...crossMarks(centre, drill)];
  });
}

/** The waste of each opening hatched, where a plan says what holes are drilled. */
export function hatchedOpenings(placement: Placement, others: readonly Placement[]): Mark[] {
  const nested = nestedIn(placement, others);
  return placement.region.openings.flatMap((opening) => {
    const { waste, centre } = holeOf(opening, nested);
    return centre === undefined ? [] : hatched(waste, centre);
  });
}

/**
 * Placements that lie in the openings of one. One around it is none of them, though their boxes meet: it would take all of
 * the opening for its own. As parts do not overlap, one point tells where all of a part lies.
 */
export function nestedIn(placement: Placement, others: readonly Placement[]): Placement[] {
  const holes = placement.region.openings.map((opening) => ({ opening, box: boundsOf(opening) }));
  return others.filter((other) => {
    if (other === placement) return false;
    const { outline } = other.region;
    // One point tells of most that they do not, before a box is made.
    return holes.some(
      ({ opening, box }) =>
        boxHolds(box, boundsOf([outline[0]])) &&
        boxHolds(box, boundsOf(outline)) &&
        locateInRing(outline[0], opening) >= 0,
    );
  });
}

/**
 * The waste of an opening and where its hole is drilled: the centre of the largest circle that fits beside the parts
 * that lie in it; undefined when none does.
 */
function holeOf(
  opening: Ring,
  nested: readonly Placement[],
): { waste: Region[]; centre: InsidePoint | undefined } {
  const waste = wasteOf(opening, nested);
  return { waste, centre: widest(waste) };
}

/** What is cut out: the opening less the parts that lie in it. */
function wasteOf(opening: Ring, nested: readonly Placement[]): Region[] {
  const solid: Region = { outline: opening, openings: [] };
  if (nested.length === 0) return [solid];
  const taken = nested.map((other) => ({ outline: other.region.outline, openings: [] }));
  return combineRegions('difference', [solid], taken);
}

function widest(waste: readonly Region[]): InsidePoint | undefined {
  return waste
    .map((region) => insidePoint(region))
    .filter((point) => point.radius > 0)
    .sort((a, b) => b.radius - a.radius)[0];
}

function wasteMarks(waste: readonly Region[], centre: InsidePoint): Mark[] {
  // White around the cross: it is aimed at with a drill, hatching through it would blur the centre.
  const clear = dot(centre.at, crossArm(centre) * 1.3);
  return hatched(combineRegions('difference', waste, [{ outline: clear, openings: [] }]), centre);
}

function hatched(waste: readonly Region[], { radius }: InsidePoint): Mark[] {
  const spacing = radius > 4 ? HATCH_WIDE : HATCH_NARROW;
  return hatchLines(waste, spacing).map((points) => line('waste-hatch', ...points));
}

/** Half the width of the cross, mm: it stays inside the opening. */
function crossArm(centre: InsidePoint): number {
  return Math.min(2, 0.7 * centre.radius);
}

function crossMarks(centre: InsidePoint, drill: number | undefined): Mark[] {
  const [x, y] = centre.at;
  const arm = crossArm(centre);
  // A ring says how wide to drill: without a drill that is known and has room there is none.
  const clears = drill !== undefined && drill / 2 + DRILL_CLEARANCE <= centre.radius;
  return [
    line('hole-centre', [x - arm, y], [x + arm, y]),
    line('hole-centre', [x, y - arm], [x, y + arm]),
    ...(clears ? [rings('hole-centre', dot(centre.at, drill / 2))] : []),
  ];
}
