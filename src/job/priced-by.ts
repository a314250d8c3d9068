/** What the price of a board may be for: the whole of it, or so much of it as it is sold by. */
export const PRICED_BY = [
  'board',
  'sheet',
  'board foot',
  'square foot',
  'cubic metre',
  'square metre',
] as const;
