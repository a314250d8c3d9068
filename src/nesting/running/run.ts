import type { Budget } from './budget.ts';
import type { Pulse } from './pulse.ts';

/** What a pass of a search runs on. */
export interface Run {
  /** Gives way to the thread, and tells of a stop. */
  readonly pulse: Pulse;
  /** Pays for what the pass does. */
  readonly budget: Budget;
}

/** True when the pass has to end: it was told to stop, or nothing is left to pay with. */
export function isOver({ pulse, budget }: Run): boolean {
  return pulse.stopped || budget.over;
}
