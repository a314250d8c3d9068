import type { Point } from '../geometry/shapes.ts';
import type { ThinPlace } from '../geometry/widths.ts';

/**
 * The thinnest place of every run of thin places. Two places belong to one run when a chain of others joins them
 * with steps of at most about `step` mm: they are gathered in square cells of that size, and cells that touch are
 * one run.
 */
export function thinnestOfEach(places: readonly ThinPlace[], step: number): ThinPlace[] {
  const cells = new Map<string, { place: ThinPlace; column: number; row: number }>();
  for (const place of places) {
    const [x, y] = middle(place);
    const [column, row] = [Math.floor(x / step), Math.floor(y / step)];
    const key = `${column},${row}`;
    const known = cells.get(key);
    if (known === undefined || place.width < known.place.width) cells.set(key, { place, column, row });
  }
  const thinnest: ThinPlace[] = [];
  // Flood fill: a cell is taken out of the map when it is reached, so each is looked at once.
  for (const first of [...cells.values()]) {
    if (!cells.delete(`${first.column},${first.row}`)) continue;
    let best = first.place;
    const pending = [first];
    for (let cell = pending.pop(); cell !== undefined; cell = pending.pop()) {
      if (cell.place.width < best.width) best = cell.place;
      for (let k = 0; k < 9; k++) {
        const key = `${cell.column + (k % 3) - 1},${cell.row + Math.floor(k / 3) - 1}`;
        const next = cells.get(key);
        if (next === undefined) continue;
        cells.delete(key);
        pending.push(next);
      }
    }
    thinnest.push(best);
  }
  return thinnest.sort((a, b) => a.width - b.width);
}

/** The point halfway between the two sides. */
export function middle({ from, to }: ThinPlace): Point {
  return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
}
