import { type Box, boxesMeet, boxHolds, boxIntersection, grownBox } from '../../geometry/shapes.ts';

/** Which windows of a board are worth a page. */

/** A window by its place among all of a board, from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
  readonly window: Box;
}

/** Where windows begin, and how large each is, mm. */
export interface Grid {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly width: number;
  readonly height: number;
}

/** What windows show beyond the boxes of marks, mm: the width of the widest line. */
export const SPARE = 1;

/**
 * The windows that show something by themselves, within their seams. One is left out where all of it is seen in windows beside
 * it as well, in what these share with it: no seam runs there then.
 *
 * @param content boxes of what has to be on the paper
 */
export function neededWindows(places: readonly Place[], grid: Grid, content: readonly Box[]): Place[] {
  const showing = places.flatMap((place) => {
    const own = withinSeams(place, grid);
    const shown = content.filter((box) => boxesMeet(box, own)).map((box) => boxIntersection(box, own));
    return shown.length === 0 ? [] : [{ place, shown }];
  });
  let kept = showing;
  for (const each of showing) {
    const beside = kept.filter(({ place }) => isBeside(place, each.place));
    const seen = each.shown.flatMap((box) => {
      const other = beside.find(({ place }) => boxHolds(grownBox(place.window, -SPARE), box));
      return other === undefined ? [] : [{ box, other }];
    });
    if (seen.length < each.shown.length) continue;
    kept = kept.filter((one) => one !== each);
    // Those windows show it alone from now on, and are not left out for what is their own.
    for (const { box, other } of seen) other.shown.push(box);
  }
  return kept.map(({ place }) => place);
}

function isBeside(a: Place, b: Place): boolean {
  return Math.abs(a.row - b.row) + Math.abs(a.column - b.column) === 1;
}

/** What of a window is left when it is trimmed along the seams to its neighbours, and a line's width more. */
export function withinSeams({ row, column, window }: Place, { xs, ys, width, height }: Grid): Box {
  const from = (starts: readonly number[], i: number, size: number) =>
    i === 0 ? Number.NEGATIVE_INFINITY : seamBetween(starts, i, size) - SPARE;
  const to = (starts: readonly number[], i: number, size: number) =>
    i === starts.length - 1 ? Number.POSITIVE_INFINITY : seamBetween(starts, i + 1, size) + SPARE;
  return boxIntersection(window, {
    minX: from(xs, column, width),
    minY: from(ys, row, height),
    maxX: to(xs, column, width),
    maxY: to(ys, row, height),
  });
}

/** The middle of what a window shares with the one before it, mm. */
export function seamBetween(starts: readonly number[], i: number, size: number): number {
  return (starts[i] + starts[i - 1] + size) / 2;
}
