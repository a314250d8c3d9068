import type { BoardAreas } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { rectangle } from '../sawing/boards.ts';

/** A board of 600 x 150 mm at 10, of which there are two. */
export const oak: Board = {
  id: 'A',
  species: 'red oak',
  thickness: 19.05,
  outline: rectangle(0, 0, 600, 150),
  defects: [],
  quantity: 2,
  price: 10,
};

/** Where its 90,000 mm2 go, mm2: half is kept, two ninths are parts. */
export const areas: BoardAreas = {
  board: 90_000,
  trims: 0,
  defects: 0,
  parts: 20_000,
  openings: 0,
  kerf: 500,
  keepers: 45_000,
  scrap: 24_500,
};
