/**
 * Lumber measure: nominal quarter thickness and the board foot.
 *
 * Source of the thickness table: National Hardwood Lumber Association rules as tabulated by The Engineering
 * ToolBox, "Hardwood lumber thickness" (rough against surfaced two sides, S2S), read there; 10/4 is from memory.
 * 1 board foot = 144 cubic inches = 12 in x 12 in x 1 in (American Softwood Lumber Standard PS 20 and NHLA rules).
 */
import { MM_PER_UNIT } from './length.ts';

/** Thickness in inches after surfacing two sides, by nominal quarter thickness. */
export const SURFACED_TWO_SIDES_INCHES: Readonly<Record<string, number>> = {
  '3/4': 9 / 16,
  '4/4': 13 / 16,
  '5/4': 1 + 1 / 16,
  '6/4': 1 + 5 / 16,
  '7/4': 1.5,
  '8/4': 1.75,
  '10/4': 2.25,
  '12/4': 2.75,
  '14/4': 3.25,
  '16/4': 3.75,
};

/** Cubic millimetres in one board foot (144 cubic inches). */
const CUBIC_MM_PER_BOARD_FOOT = 144 * MM_PER_UNIT.in ** 3;

/** Square millimetres in one square foot. */
export const SQUARE_MM_PER_SQUARE_FOOT = MM_PER_UNIT.ft ** 2;

/**
 * Surfaced thickness in millimetres of a nominal quarter label such as `4/4`, or undefined when the text is not
 * one. `3/4` is left out on purpose: written alone it is far more often three quarters of an inch.
 */
export function quarterThickness(label: string): number | undefined {
  const text = label.replace(/\s/g, '');
  return text === '3/4' || !Object.hasOwn(SURFACED_TWO_SIDES_INCHES, text)
    ? undefined
    : SURFACED_TWO_SIDES_INCHES[text] * MM_PER_UNIT.in;
}

/**
 * Board feet, exact by volume (not by the tally rule, which rounds).
 *
 * @param area face area in mm2
 * @param thickness in mm
 */
export function boardFeet(area: number, thickness: number): number {
  return (area * thickness) / CUBIC_MM_PER_BOARD_FOOT;
}
