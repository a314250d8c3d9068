import { offsetRegions } from '../../geometry/clipper.ts';
import { regionArea, regionsArea } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';
import type { Container } from './container.ts';
import type { ProblemSpec } from './problem-spec.ts';
import { wholeBoards } from './whole-boards.ts';

/**
 * What no layout can beat, by area: parts grown by half the gap never overlap, and lie within the board shrunk by
 * the margin and grown by half the gap. (For convex parts the grown area is A + P g/2 + pi g^2/4, Steiner 1840.)
 */
export interface LowerBound {
  /** Boards needed at least, the largest ones taken; more than there are when the stock is too small. */
  readonly containers: number;
  /** Cost needed at least: of the boards that give most area for their cost, the last one in part. */
  readonly cost: number;
  /** Share of the whole stock that the parts with their gaps fill, 0 to 1 and beyond. */
  readonly fill: number;
}

/** Excess of grown outlines that the bound has to leave out to stay one, mm. */
const EXCESS = 0.02;

/** The bound of a problem. */
export function lowerBound(spec: ProblemSpec): LowerBound {
  const need = areaNeeded(spec);
  const ofContainers = roomsOf(spec);
  // The sections of a board make one room.
  const rooms = wholeBoards(spec).map(({ containers, cost }) => ({
    cost,
    area: containers.reduce((sum, k) => sum + ofContainers[k], 0),
  }));
  const areas = rooms.map(({ area }) => area);
  return {
    containers: fewest(areas, need),
    cost: cheapest(rooms, need),
    fill: need / areas.reduce((sum, area) => sum + area, 0),
  };
}

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

/** Cost of the cheapest area, boards taken in part: the relaxed knapsack (Dantzig 1957). */
function cheapest(rooms: readonly { cost: number; area: number }[], need: number): number {
  let left = need;
  let cost = 0;
  for (const room of rooms.filter(({ area }) => area > 0).sort((a, b) => a.cost / a.area - b.cost / b.area)) {
    const share = Math.min(1, Math.max(0, left / room.area));
    cost += share * room.cost;
    left -= room.area;
  }
  return left > need * 1e-9 ? Number.POSITIVE_INFINITY : cost;
}
