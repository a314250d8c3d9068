import { tightestCurve } from '../geometry/tightest-curve.ts';
import type { Blade } from '../model/cut-plan.ts';

/** What one cut asks of the blade. Lengths in mm. */
export interface BladeDemand {
  /** Radius of its tightest bend; undefined when none is tight. */
  readonly bend: number | undefined;
  /** Largest hole that can be drilled for it; undefined when it needs none. */
  readonly hole: number | undefined;
}

/** A blade and why it was taken. */
export interface ChosenBlade {
  readonly blade: Blade;
  readonly why: string;
}

/** A blade finer than the wood asks for still saws wood this many times thicker, slowly. Common practice, no source. */
const FINE_REACH = 2;

/**
 * How far hardness counts: wood of a quarter more hardness is as slow as wood an eighth thicker. Held within a quarter
 * either way, for the charts it is read into are by thickness alone (common practice, no source).
 */
function effectiveThickness(thickness: number, hardness: number): number {
  return thickness * Math.min(1.25, Math.max(0.75, Math.sqrt(hardness / 1000)));
}

/**
 * The blade that thickness and hardness ask for: the finest that is meant for wood so thick. Charts by thickness
 * alone give speed only (Scrollsaw Workshop, 16 May 2018): the pattern decides, see {@link bladeForCut}.
 *
 * @param blades finest first
 * @param thickness of the wood under the blade, mm
 * @param hardness Janka, lbf
 */
export function bladeForWood(blades: readonly Blade[], thickness: number, hardness: number): Blade {
  const effective = effectiveThickness(thickness, hardness);
  return blades.find(({ upTo }) => upTo >= effective - 1e-9) ?? blades[blades.length - 1];
}

/**
 * The blade for one cut: that of the wood, or a finer one when the tightest bend or the smallest opening asks for
 * it and it can still saw the wood. Where no blade suits, the finest that can: a bend too tight for it is turned on the
 * spot, where a blade too fine for the wood would burn and break (common practice, no source).
 *
 * @param blades finest first
 * @param thickness of the wood under the blade, mm
 * @param hardness Janka, lbf
 */
export function bladeForCut(
  blades: readonly Blade[],
  thickness: number,
  hardness: number,
  { bend, hole }: BladeDemand,
): ChosenBlade {
  const main = bladeForWood(blades, thickness, hardness);
  if (blades.length === 1) return { blade: main, why: 'the one blade there is' };
  const effective = effectiveThickness(thickness, hardness);
  const able = blades.filter(
    ({ width, upTo }) => width <= main.width && (upTo * FINE_REACH >= effective || width === main.width),
  );
  const suits = (blade: Blade) =>
    (bend === undefined || tightestCurve(blade.width) <= bend) && (hole === undefined || blade.hole <= hole);
  const blade = [...able].reverse().find(suits) ?? able[0];
  if (blade === main) return { blade, why: 'for the thickness and hardness of this wood' };
  const asked =
    hole !== undefined && main.hole > hole
      ? `an opening takes a hole of ${hole.toFixed(2)} mm at most`
      : `a bend has a radius of ${bend?.toFixed(2)} mm`;
  const rest = suits(blade) ? '' : '; the tightest bends are turned on the spot';
  return { blade, why: `finer than the ${main.name} the thickness asks for: ${asked}${rest}; feed slowly` };
}
