import type { BoardAreas } from './layout.ts';

/** Where the wood of a batch goes. Yield is what the layout makes of sound wood; flaws are told apart from it. */
export interface MaterialAccount {
  readonly species: string;
  /** Areas of all boards taken, slices counted each, mm2. */
  readonly areas: BoardAreas;
  /** Board feet of the boards taken: exact by volume, and by the tally rule. */
  readonly exactBoardFeet: number;
  readonly tallyBoardFeet: number;
  /** Parts as a share of the sound wood that was not kept: how well the layout fills what it uses up. */
  readonly yieldOfUsed: number;
  /** Share of the boards lost to defects and trims, which no layout can mend. */
  readonly flawShare: number;
  /** Area used up for one complete set, keepers credited, mm2; undefined without a complete set. */
  readonly usedPerSet: number | undefined;
}
