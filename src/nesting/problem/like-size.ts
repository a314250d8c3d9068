import type { Box } from '../../geometry/shapes.ts';

/**
 * Shapes by their numbers in groups of about one width and height: first so many groups by width at most, then each of
 * these in so many by height.
 *
 * @param boxes of all shapes, by number
 */
export function groupsOfLikeSize(
  numbers: readonly number[],
  boxes: readonly Box[],
  widths: number,
  heights: number,
): number[][] {
  const width = (number: number) => boxes[number].maxX - boxes[number].minX;
  const height = (number: number) => boxes[number].maxY - boxes[number].minY;
  return partedBySize(numbers, widths, width).flatMap((group) => partedBySize(group, heights, height));
}

/** Numbers sorted by a size and cut into so many parts at most, about as many in each. */
function partedBySize(
  numbers: readonly number[],
  parts: number,
  size: (number: number) => number,
): number[][] {
  const sorted = numbers.toSorted((a, b) => size(a) - size(b) || a - b);
  const each = Math.max(1, Math.ceil(sorted.length / parts));
  return Array.from({ length: Math.ceil(sorted.length / each) }, (_, n) =>
    sorted.slice(n * each, (n + 1) * each),
  );
}
