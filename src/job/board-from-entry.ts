import type { Ring } from '../geometry/shapes.ts';
import { cosineAndSine } from '../geometry/sine-and-cosine.ts';
import type { Board } from '../model/stock.ts';
import { boardFeetPaid, cubicMetresPaid, squareFeetOf, squareMetresOf } from '../stock/lumber-measure.ts';
import { SHEET_SIZES } from '../stock/sheet-sizes.ts';
import { type JobBoard, soldThickness } from './board-schema.ts';

/** Sides of the polygon that stands for a round defect; it is drawn around the circle, never inside it. */
const DEFECT_SIDES = 24;

/** A board of the stock from its entry in a job or a rack; an entry with a drawing has to be resolved before. */
export function boardFromEntry(entry: JobBoard): Board {
  const board: Board = {
    id: entry.id,
    species: entry.species,
    thickness: entry.thickness,
    outline: outlineOf(entry),
    defects: entry.defects.map((defect) => ('outline' in defect ? defect.outline : roundDefect(defect))),
    quantity: entry.quantity,
    price: undefined,
    ...(entry.trim === undefined ? {} : { trim: entry.trim }),
    ...(entry.nominal === undefined ? {} : { nominal: soldThickness(entry.nominal) }),
    ...(entry.sheet === undefined ? {} : { sheet: true }),
    // To be left whole is said as well: nothing then advises to cut it.
    ...(entry.lengths === 1 ? { lengths: 1 } : {}),
    ...(entry.straightTopEdge === undefined ? {} : { straightTopEdge: entry.straightTopEdge }),
    ...(entry.keeper === undefined ? {} : { keeper: entry.keeper }),
  };
  return { ...board, price: priceOf(entry, board) };
}

function outlineOf({ outline, sheet, length = 0, width = 0 }: JobBoard): Ring {
  if (outline !== undefined) return outline;
  const [along, across] = typeof sheet === 'string' ? SHEET_SIZES[sheet] : [length, width];
  return [
    [0, 0],
    [along, 0],
    [along, across],
    [0, across],
  ];
}

/** Price of one board of the entry. */
function priceOf({ price }: JobBoard, board: Board): number | undefined {
  if (price === undefined || typeof price === 'number') return price;
  switch (price.per) {
    case 'board':
    case 'sheet':
      return price.amount;
    case 'board foot':
      return price.amount * boardFeetPaid(board);
    case 'square foot':
      return price.amount * squareFeetOf(board);
    case 'cubic metre':
      return price.amount * cubicMetresPaid(board);
    case 'square metre':
      return price.amount * squareMetresOf(board);
  }
}

/** A ring around the circle: its sides touch it, so that nothing is laid on the edge of a knot. */
function roundDefect({ at: [x, y], diameter }: { at: readonly [number, number]; diameter: number }): Ring {
  const radius = diameter / 2 / cosineAndSine(180 / DEFECT_SIDES)[0];
  return Array.from({ length: DEFECT_SIDES }, (_, i) => {
    const [cos, sin] = cosineAndSine((360 * i) / DEFECT_SIDES);
    return [x + radius * cos, y + radius * sin] as const;
  });
}
