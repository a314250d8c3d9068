import type { Issue } from '../issues/issue.ts';
import type { Layout } from './layout.ts';

/** What to buy so that a batch can be made. */
export interface Purchase {
  /** Boards to buy, by offer; empty when the boards at hand do. */
  readonly items: readonly PurchaseItem[];
  /** Sum of the prices, money in the currency of the offers; undefined when one is not stated. */
  readonly total: number | undefined;
  /** True when with these boards every set is complete. */
  readonly completes: boolean;
  /** True when the search was stopped before its end: more might have been found. Left out when it was not. */
  readonly isStopped?: boolean;
  /** The batch laid out on the boards at hand and those to buy. */
  readonly layout: Layout;
  /** What is to be said of that layout: copies that find no place on those boards either, copies to spare. */
  readonly issues: readonly Issue[];
  /** The usual rule of thumb beside it for the parts on what is bought, by species; none of sheets. */
  readonly ruleOfThumb: readonly ThumbRule[];
  /** Where boards that ask for more work would do for clearly less; left out where none would. */
  readonly cheaper?: readonly CheaperPurchase[];
}

/** Thicker boards that would do for one wood of a purchase for less money and more work, by a quick layout. */
export interface CheaperPurchase {
  readonly species: string;
  /** Of the finished parts, mm. */
  readonly thickness: number;
  /** What the purchase pays for this wood, money in the currency of the offers. */
  readonly paid: number;
  /** Boards to buy instead. */
  readonly items: readonly PurchaseItem[];
  /** What these cost together, money in the currency of the offers: a longer search may find less still. */
  readonly total: number;
  /** Offers to leave out of those for sale to have it so. */
  readonly without: readonly string[];
  /** What has to be done to them. */
  readonly work: 'plane' | 'resaw';
}

/** Boards to buy of one offer. */
export interface PurchaseItem {
  /** Id of the offer. */
  readonly id: string;
  readonly species: string;
  readonly boards: number;
  /** As a dealer measures them; 0 for sheets. */
  readonly boardFeet: number;
  /** Of all of them together, money in the currency of the offer; undefined when not stated. */
  readonly price: number | undefined;
}

/** Net area of the parts plus an allowance: `add 20 %` buys 1.2 times the parts, which is 16.7 % waste. */
export interface ThumbRule {
  readonly species: string;
  /** Board feet in the parts at the thickness wood is sold by, nothing added. */
  readonly net: number;
  /** The same with 20 % and with 30 % added. */
  readonly with20: number;
  readonly with30: number;
}
