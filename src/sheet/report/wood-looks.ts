import { clipLines } from '../../geometry/clip-lines.ts';
import { type Box, boundsOf, type Line, type Region } from '../../geometry/shapes.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { speciesKey } from '../../model/same-wood.ts';
import { line, type Mark, type MarkRole } from '../marks/marks.ts';

/**
 * How woods are told apart in pictures: by the colour of their parts and, so that a print without colour and
 * colour-blind eyes can tell them as well, by the lines on the board between the parts. Colours are a choice of our
 * own; black numbers read on all of them.
 */
export interface WoodLook {
  readonly part: MarkRole;
  /** Directions of the lines on the board, each across and down; none for plain ground. */
  readonly ground: readonly (readonly [number, number])[];
}

const LOOKS: readonly WoodLook[] = [
  { part: 'picture-wood-1', ground: [] },
  { part: 'picture-wood-2', ground: [[1, -1]] },
  { part: 'picture-wood-3', ground: [[1, 0]] },
  { part: 'picture-wood-4', ground: [[0, 1]] },
  { part: 'picture-wood-5', ground: [[1, 1]] },
  {
    part: 'picture-wood-6',
    ground: [
      [1, -1],
      [1, 1],
    ],
  },
];

/** The look of the only wood there is. */
export const PLAIN_WOOD = LOOKS[0];

/**
 * The woods of the boards in their order, by the key of their species, each with its name as first written and its
 * look; from the seventh on, looks come again.
 */
export function woodLooks(
  boards: readonly LaidBoard[],
): Map<string, { readonly species: string; readonly look: WoodLook }> {
  const woods = new Map<string, { species: string; look: WoodLook }>();
  for (const { species } of boards) {
    const key = speciesKey(species);
    if (!woods.has(key)) woods.set(key, { species, look: LOOKS[woods.size % LOOKS.length] });
  }
  return woods;
}

/**
 * The lines of a look over a region.
 *
 * @param spacing between lines, mm
 */
export function groundMarks(region: Region, { ground }: WoodLook, spacing: number): Mark[] {
  const box = boundsOf(region.outline);
  return ground.flatMap((direction) =>
    clipLines(parallels(box, direction, spacing), [region]).map((points) =>
      line('picture-ground', ...points),
    ),
  );
}

/** Parallel lines that cover a box. */
function parallels(
  { minX, minY, maxX, maxY }: Box,
  [dx, dy]: readonly [number, number],
  spacing: number,
): Line[] {
  const [width, height] = [maxX - minX, maxY - minY];
  const reach = width + height;
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [dx / length, dy / length];
  const [cx, cy] = [(minX + maxX) / 2, (minY + maxY) / 2];
  const half = Math.ceil(reach / 2 / spacing);
  return Array.from({ length: 2 * half + 1 }, (_, i): Line => {
    const away = (i - half) * spacing;
    const [x, y] = [cx - uy * away, cy + ux * away];
    return [
      [x - ux * reach, y - uy * reach],
      [x + ux * reach, y + uy * reach],
    ];
  });
}
