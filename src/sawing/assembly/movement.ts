import type { WoodFacts } from '../wood-facts.ts';

/** How much a piece changes across the grain, and by which of the two accepted methods that was found. */
export interface Movement {
  /** mm, never negative. */
  readonly change: number;
  readonly method: 'coefficient' | 'shrinkage';
}

/** Moisture of the fibre saturation point, percent (Wood Handbook, chapter 4: taken as 30; pages read use 28). */
const FIBRE_SATURATION = 28;

/** Change of length along the grain per 1 % of moisture: 0.1 to 0.2 % from green to dry, over 30 (Wood Handbook p. 4-5). */
export const CHANGE_ALONG_GRAIN = 0.00005;

/**
 * Change of size across the grain, D C dM with the coefficient of dimensional change (Wood Handbook, equation
 * beside Table 13-5; meant for 6 to 14 % moisture).
 *
 * @param size across the grain, mm
 * @param moistureChange percentage points
 */
export function movementByCoefficient(size: number, coefficient: number, moistureChange: number): number {
  return size * coefficient * Math.abs(moistureChange);
}

/**
 * The same from total shrinkage, taken as linear from the fibre saturation point to ovendry (Wood Handbook, from
 * memory). For red oak it gives a sixth less than the coefficient, which averages several species: name the method.
 *
 * @param shrinkage green to ovendry, percent
 */
export function movementByShrinkage(size: number, shrinkage: number, moistureChange: number): number {
  return (size * shrinkage * Math.abs(moistureChange)) / (100 * FIBRE_SATURATION);
}

/**
 * Movement of flat-sawn wood across the grain by the better method its facts allow; undefined when they allow none.
 * That is the tangential direction, the greater of the two: no job says how its boards are sawn.
 *
 * @param size across the grain, mm
 * @param moistureChange percentage points
 */
export function movementAcross(wood: WoodFacts, size: number, moistureChange: number): Movement | undefined {
  if (wood.changePerPercent !== undefined) {
    return {
      change: movementByCoefficient(size, wood.changePerPercent[1], moistureChange),
      method: 'coefficient',
    };
  }
  if (wood.shrinkage === undefined) return undefined;
  return {
    change: movementByShrinkage(size, wood.shrinkage[1], moistureChange),
    method: 'shrinkage',
  };
}
