import { insidePoint } from '../geometry/inside-point.ts';
import { locateInRing, signedArea } from '../geometry/ring.ts';
import { boundsOf, boxesMeet, type Line, type Point, type Ring } from '../geometry/shapes.ts';
import { type Joined, type JoinedRing, joinLines, type SourcedLine } from './join-lines.ts';
import type { Twin } from './lines-twice.ts';
import { type BoxedRing, boxedRing } from './same-rings.ts';
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
 * there for them only once the first one is in a ring, for the two of them would close a ring around nothing. A ring that
 * has something in common with one there is already is none: it runs around several parts, or is one drawn twice.
 *
 * @param joined what the lines drawn first have closed, `others` the outlines that were closed before
 */
export function ringsBySharedLines<Source>(
  { rings, rest }: Joined<Source>,
  twins: readonly Twin<Source>[],
  others: readonly Ring[],
  gap: number,
): Shared<Source> {
  const found: JoinedRing<Source>[] = [];
  const taken = [...others, ...rings.map(({ ring }) => ring)].map(boxedRing);
  const open = new Set(rest);
  let outside = twins.length === 0 ? [] : outsideOf(taken, rest);
  let second = twins;
  while (second.length > 0 && outside.length > 0) {
    const lines = [...outside, ...oneOfEach(second.filter(({ of }) => !open.has(of)))];
    const isNew = (made: JoinedRing<Source>) => made.lines.some((line) => open.has(line));
    const next = ringsBetween(lines, gap, taken, isNew);
    if (next.length === 0) break;
    for (const ring of next) found.push(ring);
    const used = new Set(next.flatMap(({ lines }) => lines));
    for (const line of used) open.delete(line);
    second = second.filter(({ twin }) => !used.has(twin));
    outside = outsideOf(
      next.map(({ ring }) => boxedRing(ring)),
      outside.filter((line) => open.has(line)),
    );
  }
  for (const ring of ringsBetween(oneOfEach(drawnForTwo(second, twins, rings)), gap, taken, () => true))
    found.push(ring);
  const used = new Set(found.flatMap(({ lines }) => lines));
  second = second.filter(({ twin }) => !used.has(twin));
  return { rings: found, rest: rest.filter((line) => open.has(line)), twins: second.map(({ twin }) => twin) };
}

/**
 * Rings that have nothing in common with those that are taken, nor run around several others: a way that turns off to one
 * side wherever it can goes round to that side around what lies on it, and to the other around all there is.
 */
function ringsBetween<Source>(
  lines: readonly SourcedLine<Source>[],
  gap: number,
  taken: BoxedRing[],
  isNew: (made: JoinedRing<Source>) => boolean,
): readonly JoinedRing<Source>[] {
  const found: JoinedRing<Source>[] = [];
  for (const side of [1, -1] as const) {
    const used = new Set(found.flatMap((made) => made.lines));
    const left = lines.filter((line) => !used.has(line));
    const isWanted = (made: JoinedRing<Source>) =>
      isNew(made) && side * signedArea(made.ring) > 0 && takesRoom(boxedRing(made.ring), taken);
    for (const made of joinLines(left, gap, isWanted, side).rings) found.push(made);
  }
  return found;
}

/**
 * Twins that may be sides of a part with others all around it, of which every side is drawn before. Where all of a drawing
 * is there twice, those of two parts are drawn four times, and the two of others close no more than the space between.
 */
function drawnForTwo<Source>(
  second: readonly Twin<Source>[],
  all: readonly Twin<Source>[],
  rings: readonly JoinedRing<Source>[],
): Twin<Source>[] {
  const times = new Map<SourcedLine<Source>, number>();
  for (const { of } of all) times.set(of, (times.get(of) ?? 1) + 1);
  const least = rings
    .flatMap(({ lines }) => lines)
    .reduce((fewest, line) => Math.min(fewest, times.get(line) ?? 1), Number.POSITIVE_INFINITY);
  return second.filter(({ of }) => (times.get(of) ?? 1) >= 2 * least);
}

/** Of several drawings of one side no more than one, for two would close a ring around nothing. */
function oneOfEach<Source>(twins: readonly Twin<Source>[]): SourcedLine<Source>[] {
  return [...new Map(twins.map(({ of, twin }) => [of, twin])).values()];
}

/** Adds a ring to those that are taken, and is true, unless it has something in common with one of them. */
function takesRoom(made: BoxedRing, taken: BoxedRing[]): boolean {
  const near = taken.filter(({ box }) => boxesMeet(box, made.box)).map(({ ring }) => ring);
  const isAcross = near.some(
    (ring) => reachesInto([...made.ring, made.ring[0]], ring) || reachesInto([...ring, ring[0]], made.ring),
  );
  const isTaken = isAcross || isOnOne(made.ring, near);
  if (!isTaken) taken.push(made);
  return !isTaken;
}

/** True for a ring that lies in one of others, or on it. */
function isOnOne(ring: Ring, others: readonly Ring[]): boolean {
  const { at } = insidePoint({ outline: ring, openings: [] });
  return others.some((other) => locateInRing(at, other, TOUCHING_DEPTH) > 0);
}

/** Those of some lines of which nothing lies within a ring. */
function outsideOf<Source>(
  rings: readonly BoxedRing[],
  lines: readonly SourcedLine<Source>[],
): SourcedLine<Source>[] {
  return lines.filter(({ line }) => {
    const box = boundsOf(line);
    return !rings.some((each) => boxesMeet(each.box, box) && reachesInto(line, each.ring));
  });
}

/** True when a vertex of a line, or the middle between two, lies within a ring. */
function reachesInto(line: Line, ring: Ring): boolean {
  const isIn = (point: Point) => locateInRing(point, ring, TOUCHING_DEPTH) > 0;
  return line.some(
    ([x, y], i) => isIn([x, y]) || (i > 0 && isIn([(x + line[i - 1][0]) / 2, (y + line[i - 1][1]) / 2])),
  );
}
