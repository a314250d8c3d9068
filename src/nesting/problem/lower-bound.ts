import { offsetRegions } from '../../geometry/clipper.ts';
import { regionArea, regionsArea } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';
import type { Container } from './container.ts';
import type { ProblemSpec } from './problem-spec.ts';

/**
 * What no layout can beat, by area: parts grown by half the gap never overlap, and lie within the board shrunk by
 * the margin and grown by half the gap. (For convex parts the grown area is A + P g/2 + pi g^2/4, Steiner 1840.)
 */

/** Excess of grown outlines that the bound has to leave out to stay one, mm. */
const EXCESS = 0.02;

/** Area in mm2 that the copies of a problem take at least, each with half of every gap around it. */
export function areaNeeded({ shapes, gap }: ProblemSpec): number {
  return shapes.reduce((sum, { region, copies }) => sum + copies * grownArea(region, gap / 2 - EXCESS), 0);
}

/** Area in mm2 that each container of a problem has at most for copies grown by half the gap. */
export function roomsOf({ shapes, containers, gap, margin }: ProblemSpec): number[] {
  // Parts on the straight edge keep no margin there.
  const kept = shapes.some(({ onEdge }) => onEdge) ? 0 : margin;
  return containers.map((container) => roomOf(container, gap, kept));
}

function grownArea(region: Region, distance: number): number {
  if (distance <= 0) return regionArea(region);
  return regionsArea(offsetRegions([region], distance, EXCESS));
}

/** Room for grown parts in a container, mm2. */
function roomOf({ box, hazards }: Container, gap: number, margin: number): number {
  const spare = gap - 2 * margin;
  const whole = (box.maxX - box.minX + spare) * (box.maxY - box.minY + spare);
  const frame = hazards.find((hazard) => hazard.frame);
  const defects = hazards.filter((hazard) => !hazard.frame).map(({ region }) => region);
  const taken = margin >= gap / 2 ? regionsArea(defects) : 0;
  const outline = frame === undefined ? whole : Math.min(whole, frameArea(frame.region, gap / 2 - margin));
  return Math.max(0, outline - taken);
}

function frameArea(region: Region, distance: number): number {
  if (distance === 0) return regionArea(region);
  return regionsArea(offsetRegions([region], distance + EXCESS, EXCESS));
}

/** Least number of some areas (mm2) that add up to what is needed; one more than there are when all do not. */
export function fewest(areas: readonly number[], need: number): number {
  const largestFirst = [...areas].sort((a, b) => b - a);
  let room = 0;
  for (const [taken, area] of largestFirst.entries()) {
    if (room >= need * (1 - 1e-9)) return taken;
    room += area;
  }
  return room >= need * (1 - 1e-9) ? areas.length : areas.length + 1;
}
