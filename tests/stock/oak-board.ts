import type { Board } from '../../src/model/stock.ts';
import { rectangle } from '../rectangle.ts';

/** An oak board 106 mm wide. */
export function oakBoard(id: string, length: number, price: number, keeper = false): Board {
  return {
    id,
    species: 'oak',
    thickness: 19,
    outline: rectangle(length, 106),
    defects: [],
    quantity: 1,
    price,
    keeper,
  };
}
