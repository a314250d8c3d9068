import type { Cut } from './cut-plan.ts';

/** How the reason of every cut begins that frees a part too small to hold: the words stand in one place only. */
export const TOO_SMALL_TO_HOLD = 'too small to hold by itself';

/** True for the cut of a part that is too small to hold by itself: cautions and lists say more about those. */
export function isOfSmallPart({ reason }: Pick<Cut, 'reason'>): boolean {
  return reason.startsWith(TOO_SMALL_TO_HOLD);
}

/** A part just as long as what can be held is so however it is turned on the board, mm. */
const ROUNDING = 1e-6;

/** True for a part that is smaller both ways, in mm, than what can be held: a long thin one is held by its end. */
export function isHardToHold(
  { longest }: { readonly longest: number },
  { holdSize }: { readonly holdSize: number },
): boolean {
  return longest < holdSize - ROUNDING;
}
