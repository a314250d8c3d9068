/** A rectangle to set on a page, mm. */
export interface Piece {
  readonly width: number;
  readonly height: number;
}

/** Where a piece is set: which page, and its upper left corner on that page, mm. */
export interface Shelved {
  readonly page: number;
  readonly x: number;
  readonly y: number;
}

interface Shelf {
  readonly page: number;
  readonly y: number;
  readonly height: number;
  used: number;
}

/**
 * Pieces set in rows on pages, none turned: the tallest first, each into the first row that has room (first-fit
 * decreasing height, Coffman, Garey, Johnson and Tarjan 1980), rows in the first page that has room. Gives the
 * places in the order of the pieces; one that is larger than a page gets a page to itself, cut off. None is turned: names
 * and grain arrows are read as the board lies. Rows take at most 1.7 times the least height there is, and one more row
 * (the bound of that paper, for one endless page).
 *
 * @param gap least distance between pieces, mm
 */
export function shelve(pieces: readonly Piece[], page: Piece, gap: number): Shelved[] {
  const order = pieces.map((_, i) => i).sort((a, b) => pieces[b].height - pieces[a].height || a - b);
  const shelves: Shelf[] = [];
  const filled: number[] = [];
  const places: Shelved[] = pieces.map(() => ({ page: 0, x: 0, y: 0 }));
  for (const i of order) {
    const { width, height } = pieces[i];
    let shelf = shelves.find((each) => each.height >= height && each.used + width <= page.width);
    if (shelf === undefined) {
      shelf = newShelf(height, page.height, filled, gap);
      shelves.push(shelf);
    }
    places[i] = { page: shelf.page, x: shelf.used, y: shelf.y };
    shelf.used += width + gap;
  }
  return places;
}

/** A row on the first page that has room below its last row. */
function newShelf(height: number, pageHeight: number, filled: number[], gap: number): Shelf {
  let page = filled.findIndex((used) => used + height <= pageHeight);
  if (page < 0) page = filled.push(0) - 1;
  const y = filled[page];
  filled[page] = y + height + gap;
  return { page, y, height, used: 0 };
}
