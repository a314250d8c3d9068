import { boundsOf, type Line } from '../geometry/shapes.ts';
import { keeperCuts } from './keeper-cuts.ts';
import type { LaidBoard, Offcut, Section } from './layout.ts';

/** What of a board beyond its last section is sawn off, mm: less is rounding. */
const SOME_WOOD = 0.01;

/** A board so far as it tells its cross-cuts. */
interface PartedBoard extends Pick<LaidBoard, 'usable' | 'offcuts'> {
  readonly sections?: readonly Pick<Section, 'from' | 'to'>[];
}

/**
 * Where a board is cross-cut to sections, mm along it: the middle of what each cut takes, as a keeper's lines are the middle
 * of theirs. Whoever saw along the line then takes the same of either side, and no part of a section. After the last section
 * there is a cut where the board goes on by less than its width.
 */
export function crossCuts({ sections = [], usable }: PartedBoard): number[] {
  const end = boundsOf(usable.outline).maxX;
  return sections.flatMap(({ to }, i) => {
    const next = i + 1 < sections.length ? sections[i + 1].from : end;
    return i + 1 === sections.length && next - to <= SOME_WOOD ? [] : [(to + next) / 2];
  });
}

/** The cross-cuts of a board as lines over it, from the left: none goes through a keeper that is ripped off before. */
export function crossCutLines(board: PartedBoard): Line[] {
  const { minY, maxY } = boundsOf(board.usable.outline);
  return crossCuts(board).flatMap((x) => {
    const ripped = (board.offcuts ?? []).filter((offcut) => reachesOver(offcut, x));
    const gaps = ripped.map((offcut) => heightsOf(offcut, x, [minY, maxY])).sort((a, b) => a[0] - b[0]);
    const from = [minY, ...gaps.map(([, lower]) => lower)];
    const to = [...gaps.map(([upper]) => upper), maxY];
    return from.flatMap((top, i): Line[] =>
      to[i] > top
        ? [
            [
              [x, top],
              [x, to[i]],
            ],
          ]
        : [],
    );
  });
}

/**
 * The rips that part keepers from a board before it is cross-cut all the way, in the order they are made: first those along more
 * of it, for which nothing may be parted yet, and from the top down, so that what is ripped still has the straight edge.
 */
export function ripsBeforeCrossCuts(board: PartedBoard): Line[] {
  const cuts = crossCuts(board);
  const along = (line: Line) => boundsOf(line).maxX - boundsOf(line).minX;
  return keeperCuts(board)
    .filter((line) => isRip(line) && cuts.some((x) => isOver(line, x)))
    .sort((a, b) => along(b) - along(a) || boundsOf(a).minY - boundsOf(b).minY);
}

/** Whether a straight cut runs along the board. */
export function isRip(line: Line): boolean {
  const { minX, minY, maxX, maxY } = boundsOf(line);
  return maxX - minX >= maxY - minY;
}

function reachesOver({ region }: Offcut, x: number): boolean {
  return isOver(region.outline, x);
}

function isOver(line: Line, x: number): boolean {
  const { minX, maxX } = boundsOf(line);
  return minX < x && x < maxX;
}

/** From which rip to which a keeper was parted off where it reaches over a cross-cut, mm; from or to the edge without one. */
function heightsOf(
  { region, lines }: Offcut,
  x: number,
  [top, bottom]: readonly [number, number],
): readonly [upper: number, lower: number] {
  const { minY, maxY } = boundsOf(region.outline);
  const rips = lines.filter((line) => isRip(line) && isOver(line, x)).map((line) => boundsOf(line));
  const above = rips.filter((rip) => rip.maxY <= minY).map((rip) => rip.maxY);
  const below = rips.filter((rip) => rip.minY >= maxY).map((rip) => rip.minY);
  return [Math.max(top, ...above), Math.min(bottom, ...below)];
}
