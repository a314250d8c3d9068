import { line, type Mark, rings } from './marks.ts';

/**
 * A level arrow with two heads, for the grain: it has a direction but no sense.
 *
 * @param length from tip to tip, mm
 * @param head length of a head, mm
 */
export function grainArrow(x: number, y: number, length: number, head: number): Mark[] {
  const left = x - length / 2;
  const right = x + length / 2;
  const half = head * 0.3;
  return [
    line('grain', [left + head, y], [right - head, y]),
    rings(
      'grain-head',
      [
        [left, y],
        [left + head, y - half],
        [left + head, y + half],
      ],
      [
        [right, y],
        [right - head, y + half],
        [right - head, y - half],
      ],
    ),
  ];
}
