import type { Budget } from './budget.ts';
import type { Pulse } from './pulse.ts';

/** What a pass of a search runs on. */
export interface Run {
  /** Gives way to the thread, and tells of a stop. */
  readonly pulse: Pulse;
  /** Pays for what the pass does. */
  readonly budget: Budget;
}
