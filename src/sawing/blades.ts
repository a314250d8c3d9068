import type { Blade } from '../model/cut-plan.ts';
import { MM_PER_UNIT } from '../units/length.ts';

/**
 * Blades by the number they are commonly sold under. Width, thickness and teeth per inch are what makers' charts
 * say, from memory, and differ by 15 % between makers (one real 2/0 measures .0087 x .0236 in with 15.4 teeth per
 * inch: Five Frogs Woodworking, "Scroll saws part 3"); kerf, hole and thickness of wood are common practice, no
 * source. Numbers are not standard: a maker's own records, with a measured kerf, come first.
 */
const BY_NUMBER = {
  // number: width, thickness, teeth per inch, kerf, hole, thickest wood; inches
  '2/0': [0.022, 0.01, 28, 0.012, 0.031, 0.125],
  '1': [0.026, 0.013, 23, 0.015, 0.035, 0.25],
  '3': [0.032, 0.014, 17, 0.016, 0.043, 0.5],
  '5': [0.038, 0.016, 12.5, 0.018, 0.0625, 0.75],
  '7': [0.045, 0.017, 12, 0.02, 0.0625, 1],
  '9': [0.053, 0.018, 11.5, 0.022, 0.0625, 1.5],
  '12': [0.062, 0.024, 9.5, 0.028, 0.0781, 2],
} as const satisfies Record<string, readonly number[]>;

/** The blades of {@link BY_NUMBER} in mm, finest first. */
export const COMMON_BLADES: readonly Blade[] = Object.entries(BY_NUMBER)
  .map(([number, [width, thickness, teethPerInch, kerf, hole, upTo]]) => ({
    name: `No. ${number}`,
    width: width * MM_PER_UNIT.in,
    thickness: thickness * MM_PER_UNIT.in,
    teethPerInch,
    hole: hole * MM_PER_UNIT.in,
    kerf: kerf * MM_PER_UNIT.in,
    kerfMeasured: false,
    upTo: upTo * MM_PER_UNIT.in,
  }))
  .sort((a, b) => a.width - b.width);

/** Diagonal of a blade's section, mm: the smallest hole it passes. */
export function sectionDiagonal({ width, thickness }: Pick<Blade, 'width' | 'thickness'>): number {
  return Math.hypot(width, thickness);
}
