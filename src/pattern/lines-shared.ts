import { locateInRing } from '../geometry/ring.ts';
import { boundsOf, boxesMeet, type Line, type Point, type Ring } from '../geometry/shapes.ts';
import { type JoinedRing, joinLines, type SourcedLine } from './join-lines.ts';
import type { Twin } from './lines-twice.ts';
import { TOUCHING_DEPTH } from './solids.ts';

/** What came of lines drawn twice. */
interface Shared<Source> {
  readonly rings: readonly JoinedRing<Source>[];
  readonly rest: readonly SourcedLine<Source>[];
  /** Twins that close no outline: one of each two is sawn. */
  readonly twins: readonly SourcedLine<Source>[];
}

/**
 * Outlines that close by the second drawing of a side they share with an outline beside them, as those of parts drawn line
 * by line do. Only lines that lie in no ring so far are joined again, for the others may be veins; and a second drawing is
 * there for them only once the first one is in a ring, for the two of them would close a ring around nothing.
 *
 * @param rest lines that closed no ring so far, `rings` all that are closed, with the lines that they are made of
 */
export function ringsBySharedLines<Source>(
  rest: readonly SourcedLine<Source>[],
  twins: readonly Twin<Source>[],
  rings: readonly Ring[],
  gap: number,
): Shared<Source> {
  const found: JoinedRing<Source>[] = [];
  const open = new Set(rest);
  let outside = twins.length === 0 ? [] : outsideOf(rings, rest);
  let second = twins;
  while (second.length > 0 && outside.length > 0) {
    // Of several drawings of one side no more than one at a time, for the same reason.
    const free = new Map(second.filter(({ of }) => !open.has(of)).map(({ of, twin }) => [of, twin]));
    const next = joinLines([...outside, ...free.values()], gap).rings.filter(({ lines }) =>
      lines.some((line) => open.has(line)),
    );
    if (next.length === 0) break;
    for (const ring of next) found.push(ring);
    const used = new Set(next.flatMap(({ lines }) => lines));
    for (const line of used) open.delete(line);
    second = second.filter(({ twin }) => !used.has(twin));
    outside = outsideOf(
      next.map(({ ring }) => ring),
      outside.filter((line) => open.has(line)),
    );
  }
  return { rings: found, rest: rest.filter((line) => open.has(line)), twins: second.map(({ twin }) => twin) };
}

/** Those of some lines of which nothing lies within a ring. */
function outsideOf<Source>(
  rings: readonly Ring[],
  lines: readonly SourcedLine<Source>[],
): SourcedLine<Source>[] {
  const boxed = rings.map((ring) => ({ ring, box: boundsOf(ring) }));
  return lines.filter(({ line }) => {
    const box = boundsOf(line);
    return !boxed.some((each) => boxesMeet(each.box, box) && reachesInto(line, each.ring));
  });
}

/** True when a vertex of a line, or the middle between two, lies within a ring. */
function reachesInto(line: Line, ring: Ring): boolean {
  const isIn = (point: Point) => locateInRing(point, ring, TOUCHING_DEPTH) > 0;
  return line.some(
    ([x, y], i) => isIn([x, y]) || (i > 0 && isIn([(x + line[i - 1][0]) / 2, (y + line[i - 1][1]) / 2])),
  );
}
