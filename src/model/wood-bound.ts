/** How far a layout is from what no layout can beat, for the boards that serve the same parts. */
export interface WoodBound {
  readonly species: string;
  /** Finished thickness of the parts, mm. */
  readonly thickness: number;
  /** Boards the layout takes; a stack counts every board of it. */
  readonly boards: number;
  /** Boards that any layout takes at least. */
  readonly atLeast: number;
  /** Share of the wood in use, from the first part of a board to its last, that the parts fill with their gaps, 0 to 1. */
  readonly filled: number;
  /** Share of the wood in use that a better layout could save at most, as ends of boards, 0 to 1. */
  readonly savedAtMost: number;
}
