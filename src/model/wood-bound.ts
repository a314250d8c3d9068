/** How far a layout is from what no layout can beat, for the boards that serve the same parts. */
export interface WoodBound {
  readonly species: string;
  /** Finished thickness of the parts, mm. */
  readonly thickness: number;
  /** Boards the layout takes; a stack counts every board of it. */
  readonly boards: number;
  /** Boards that any layout takes at least, by area. */
  readonly atLeast: number;
  /** Share of the boards taken that the parts fill with the gaps they have to keep, 0 to 1. */
  readonly filled: number;
  /** Share of the boards taken that a better layout could save at most, 0 to 1. */
  readonly savedAtMost: number;
}
