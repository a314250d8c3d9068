/** Share of the wood, or of its price, that has to be saved before it is told: for less nobody changes a plan (common practice, no source). */
export const CLEARLY_LESS = 0.1;
