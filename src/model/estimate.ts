import type { Issue } from '../issues/issue.ts';
import type { Range } from './cut-plan.ts';

/** A figure that went into another, and where it comes from: what an estimate can be checked by. */
export interface Input {
  readonly name: string;
  /** In `unit`. */
  readonly value: number;
  readonly unit: string;
  /** `job`, `layout`, `cut plan`, `assembly`, `common practice`, ... */
  readonly from: string;
}

/** One kind of work: an amount of it times the minutes each takes. */
export interface TimeLine {
  readonly name: string;
  readonly amount: number;
  /** One of what, and several: `hole`, `holes`. */
  readonly unit: string;
  readonly units: string;
  /** Minutes for one of the amount. */
  readonly each: Range;
  readonly minutes: Range;
  /** Name of the constant, as the job overrides it. */
  readonly constant: string;
}

/** Working time of the whole batch, minutes. */
export interface WorkTime {
  readonly lines: readonly TimeLine[];
  readonly total: Range;
}

/** One line of the costs of a batch. Money in whole cents; `likely` is the product of the inputs, rounded. */
export interface CostLine {
  readonly name: string;
  readonly cents: Range;
  readonly inputs: readonly Input[];
}

/** A price asked in one place of sale. Money in whole cents. */
export interface Price {
  readonly channel: string;
  readonly price: number;
  /** What the channel keeps of it. */
  readonly fees: number;
  /** What is left after fees and the likely cost of a piece. */
  readonly profit: number;
  readonly inputs: readonly Input[];
}

/** Costs of a batch and prices of a piece: estimates, in whole cents of the maker's currency. */
export interface Estimate {
  readonly currency: string;
  readonly pieces: number;
  readonly time: WorkTime;
  readonly lines: readonly CostLine[];
  /** The lines summed. */
  readonly batch: Range;
  /** What of the wood ends up in parts; the rest of its lines is waste and what is kept. */
  readonly woodInParts: number;
  /** Of one piece; `likely` times the pieces is the batch, or up to one cent a piece above it. */
  readonly piece: Range;
  readonly prices: readonly Price[];
  readonly issues: readonly Issue[];
}

/** Where the wood of a batch size may be from. */
export const WOOD_FROM = [
  'this batch',
  'this batch repeated',
  'laid out quickly',
  'repeated',
  'repeated on fresh boards',
] as const;

/** What one piece costs when the batch has this many. */
export interface BatchSize {
  readonly sets: number;
  /** Where the wood is from: the layout of the job, a quick layout of its own, or a quick layout so many times over. */
  readonly how: (typeof WOOD_FROM)[number];
  readonly boards: number;
  /** Cents. */
  readonly piece: Range;
  /** Of which wood, cents, likely; undefined when a board it is laid out on has no price. */
  readonly wood: number | undefined;
  /** Minutes for one piece. */
  readonly minutes: Range;
}
