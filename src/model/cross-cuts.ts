import { type Box, boundsOf, type Line } from '../geometry/shapes.ts';
import { keeperCuts } from './keeper-cuts.ts';
import type { LaidBoard, Section } from './layout.ts';

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

/** Half of what the narrowest cut between two sections takes, mm; endless where there are no two. */
export function halfCutBetween(sections: readonly Pick<Section, 'from' | 'to'>[]): number {
  return Math.min(...sections.slice(1).map(({ from }, i) => (from - sections[i].to) / 2));
}

/** The cross-cuts of a board as lines over it, from the left: none goes through a strip that is ripped off before. */
export function crossCutLines(board: PartedBoard): Line[] {
  const { minY, maxY } = boundsOf(board.usable.outline);
  const strips = rippedStrips(board);
  return crossCuts(board).flatMap((x) => {
    const gaps = strips.filter(({ minX, maxX }) => minX < x && x < maxX).sort((a, b) => a.minY - b.minY);
    const from = [minY, ...gaps.map((strip) => strip.maxY)];
    const to = [...gaps.map((strip) => strip.minY), maxY];
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
 * The strips that hold keepers over a cross-cut, as far as the rips go that part them off, to the middle of those, and to an edge
 * without one. A knot may leave less of a strip than the whole of it.
 */
export function rippedStrips(board: PartedBoard): Box[] {
  const cuts = crossCuts(board);
  const edges = boundsOf(board.usable.outline);
  return (board.offcuts ?? []).flatMap(({ region, lines }) => {
    const own = cuts.filter((x) => isOver(region.outline, x));
    if (own.length === 0) return [];
    const rips = lines.filter((line) => isRip(line) && own.every((x) => isOver(line, x))).map(boundsOf);
    return stripBetween(rips, boundsOf(region.outline), edges);
  });
}

/** How far a rip without a width may lie inside its keeper, mm: straight cuts lie on no grid, and wood is clipped on one of 0.0001 mm. */
const ROUNDING = 1e-3;

/** The rips that lie above and below a keeper. */
export function ripsBeside(rips: readonly Box[], keeper: Box): { above: Box[]; below: Box[] } {
  return {
    above: rips.filter((rip) => rip.maxY <= keeper.minY + ROUNDING),
    below: rips.filter((rip) => rip.minY >= keeper.maxY - ROUNDING),
  };
}

/** The strip that rips above and below a keeper part off, to the middle of those, and to an edge of the board without one. */
export function stripBetween(rips: readonly Box[], keeper: Box, edges: Box): Box {
  const { above, below } = ripsBeside(rips, keeper);
  const beside = [...above, ...below];
  return {
    minX: Math.max(edges.minX, ...beside.map((rip) => rip.minX)),
    maxX: Math.min(edges.maxX, ...beside.map((rip) => rip.maxX)),
    minY: Math.max(edges.minY, ...above.map((rip) => rip.maxY)),
    maxY: Math.min(edges.maxY, ...below.map((rip) => rip.minY)),
  };
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

function isOver(line: Line, x: number): boolean {
  const { minX, maxX } = boundsOf(line);
  return minX < x && x < maxX;
}
