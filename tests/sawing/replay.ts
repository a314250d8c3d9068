import type { Line, Point, Ring } from '../../src/geometry/shapes.ts';
import type { BoardPlan, Cut, CutPlan } from '../../src/model/cut-plan.ts';
import type { LaidBoard, Layout } from '../../src/model/layout.ts';

/**
 * Replays a cut plan on the layout, independently of what made it: wood is taken away cut by cut, and everything
 * that could not be done at a saw is written down. Shares no code with src/sawing.
 */
export function replay(layout: Layout, plan: CutPlan): string[] {
  const faults: string[] = [];
  const boards = layout.boards.filter(({ placements }) => placements.length > 0);
  if (boards.length !== plan.boards.length) faults.push('the plan has not one entry for each board');
  let length = 0;
  let leadIns = 0;
  let shared = 0;
  boards.forEach((board, i) => {
    const own = plan.boards[i];
    const said = (fault: string) => faults.push(`${board.id}: ${fault}`);
    shared += board.copies * replayBoard(board, own, said);
    length += board.copies * own.cuts.reduce((sum, { line, closed }) => sum + lengthOf(line, closed), 0);
    leadIns += board.copies * own.cuts.reduce((sum, { leadIn }) => sum + lengthOf(leadIn, false), 0);
  });
  if (Math.abs(length - plan.cutLength) > 1e-6) faults.push('the cut length is not the sum of the cuts');
  const barred = plan.boards.some(({ cuts }) => cuts.some(({ leadInClear }) => !leadInClear));
  if (barred !== plan.issues.some(({ kind }) => kind === 'lead-in-barred'))
    faults.push('barred lead-ins are not told of');
  if (Math.abs(leadIns - plan.leadInLength) > 1e-6) faults.push('the lead-ins do not add up');
  if (Math.abs(length + shared - layout.figures.cutLength) > 1e-6)
    faults.push('the cut length is not that of the layout less the shared edges');
  return faults;
}

/** An edge of the layout, and the stretches of it that were sawn, as shares of its length. */
interface Sawable {
  readonly ends: readonly [Point, Point];
  readonly sawn: [from: number, to: number][];
}

function replayBoard(board: LaidBoard, plan: BoardPlan, said: (fault: string) => void): number {
  const { toSaw, shared } = edgesToSaw(board);
  const free = new Set<number>();
  const fallen: Ring[] = [];
  const sawn: Line[] = [];
  plan.cuts.forEach((cut, i) => {
    const name = `cut ${i + 1} (${cut.kind} of ${cut.part} ${cut.placement})`;
    if (cut.number !== i + 1) said(`${name} has another number`);
    if (cut.reason.length < 10) said(`${name} gives no reason`);
    const own = cut.placement;
    if (cut.partFree !== free.has(own)) said(`${name} says wrongly whether its part is free`);
    if (free.has(own) && !/free/.test(cut.reason))
      said(`${name} comes after its part was freed, without saying why`);
    for (const point of along(cut.line, cut.closed)) {
      for (const gone of free)
        if (gone !== own && inside(point, board.placements[gone].region.outline))
          said(`${name} runs through a freed part`);
      if (fallen.some((ring) => inside(point, ring))) said(`${name} runs through waste that has fallen out`);
    }
    if (cut.entry === 'in passing') turnedIn(cut, plan.cuts, (fault) => said(`${name} ${fault}`));
    else entered(cut, board, plan, sawn, (fault) => said(`${name} ${fault}`));
    for (const [a, b] of edges(cut.line, cut.closed)) {
      const fault = saw(toSaw.get(keyOf(own, cut.kind)) ?? [], a, b);
      if (fault !== '') said(`${name} ${fault}`);
    }
    const around = cut.kind === 'outline' || cut.kind === 'tab';
    const frees = around && left(toSaw.get(keyOf(own, 'outline')) ?? []) < 1e-6;
    if (frees !== cut.frees) said(`${name} says wrongly whether it frees the part`);
    if (frees) free.add(own);
    if (cut.kind === 'opening') fallen.push(cut.line);
    sawn.push(cut.closed ? [...cut.line, cut.line[0]] : cut.line);
    if (cut.leadInClear && cut.leadIn.length > 0) sawn.push(cut.leadIn);
  });
  for (const [key, sawable] of toSaw) if (left(sawable) >= 1e-6) said(`not sawn: ${key}`);
  return shared;
}

/** A vein sawn in passing begins on the line that is sawn next, by the same blade, and needs nothing else. */
function turnedIn(
  { line, leadIn, number, placement, blade, kind }: Cut,
  cuts: readonly Cut[],
  said: (fault: string) => void,
): void {
  if (kind !== 'vein' || leadIn.length > 0)
    said('is no vein, or has a lead-in, and is said to be in passing');
  const host = cuts.find((cut) => cut.number > number && cut.entry !== 'in passing');
  if (host === undefined || host.placement !== placement || host.kind === 'vein')
    said('is not followed by the line it branches off');
  else if (!edges(host.line, host.closed).some(([a, b]) => toSegment(line[0], a, b) < 0.5))
    said('does not begin on the line that follows');
  else if (host.blade !== blade) said('asks for another blade in the middle of a line');
}

/** How the blade got to a cut: through its hole, from the edge of the board or an earlier cut, never through a part. */
function entered(
  { leadIn, leadInClear, entry, line, number }: Cut,
  { usable, placements }: LaidBoard,
  { holes, sections }: BoardPlan,
  sawn: readonly Line[],
  said: (fault: string) => void,
): void {
  const own = holes.filter((hole) => hole.cut === number);
  if (own.length !== (entry === 'hole' ? 1 : 0)) said('has a hole missing or too many');
  const start = leadIn[0] ?? line[0];
  const onBoardEdge = edges(usable.outline, true).some(([a, b]) => toSegment(start, a, b) < 1e-6);
  const atSectionEnd = sections.some(({ from, to }) => [from, to].some((x) => Math.abs(start[0] - x) < 1e-6));
  const reach = entry === 'earlier cut' ? 0.5 : 1e-6;
  const fromCut = sawn.some((other) => edges(other, false).some(([a, b]) => toSegment(start, a, b) < reach));
  if (entry === 'hole' && apart(start, own[0]?.at ?? [Number.NaN, 0]) > 1e-6)
    said('does not start in its hole');
  if (entry === 'earlier cut' && !fromCut) said('starts from a cut that is not there yet');
  if (entry === 'waste' && !onBoardEdge && !atSectionEnd && !fromCut)
    said('starts in the middle of the wood');
  if (leadIn.length > 0 && apart(leadIn[leadIn.length - 1], line[0]) > 1e-6)
    said('is not where its lead-in ends');
  if (!leadInClear) return;
  for (const point of along(leadIn, false, 0.1)) {
    // The blade has a width: where the lead-in meets the line it touches the part.
    if (apart(point, leadIn[0]) < 0.5 || apart(point, line[0]) < 0.5) continue;
    if (
      placements.some(
        ({ region }) =>
          inside(point, region.outline) && !region.openings.some((opening) => inside(point, opening)),
      )
    )
      said('has a lead-in through a part');
  }
}

/** Every edge to saw by placement and kind, and the length that lies on the edge of the board. */
function edgesToSaw({ placements, usable }: LaidBoard): { toSaw: Map<string, Sawable[]>; shared: number } {
  const toSaw = new Map<string, Sawable[]>();
  let shared = 0;
  placements.forEach(({ region, veins }, p) => {
    const outline: Sawable[] = [];
    for (const ends of edges(region.outline, true)) {
      const [a, b] = ends;
      if (edges(usable.outline, true).some(([c, d]) => offLine(a, c, d) && offLine(b, c, d)))
        shared += apart(a, b);
      else outline.push({ ends, sawn: [] });
    }
    toSaw.set(keyOf(p, 'outline'), outline);
    const all = (kind: Cut['kind'], lines: readonly Line[], closed: boolean) =>
      toSaw.set(
        keyOf(p, kind),
        lines.flatMap((line) => edges(line, closed)).map((ends) => ({ ends, sawn: [] })),
      );
    all('opening', region.openings, true);
    all('vein', veins, false);
  });
  return { toSaw, shared };
}

/** Saws from a to b on the edge both lie on; says what is wrong when there is none, or it was sawn there before. */
function saw(sawable: readonly Sawable[], a: Point, b: Point): string {
  const on = ({ ends: [c, d] }: Sawable) => toSegment(a, c, d) < 1e-6 && toSegment(b, c, d) < 1e-6;
  const candidates = sawable.filter(on);
  if (candidates.length === 0) return 'saws what is not there';
  for (const { ends, sawn } of candidates) {
    const shares = [a, b].map((point) => share(point, ends)).sort((s, t) => s - t);
    const slack = 1e-7 / apart(...ends);
    if (sawn.some(([from, to]) => Math.min(to, shares[1]) - Math.max(from, shares[0]) > slack)) continue;
    sawn.push([shares[0], shares[1]]);
    return '';
  }
  return 'saws what was sawn before';
}

function share([x, y]: Point, [[ax, ay], [bx, by]]: readonly [Point, Point]): number {
  return ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
}

/** What is left to saw of these edges, mm. */
function left(sawable: readonly Sawable[]): number {
  return sawable.reduce((sum, { ends, sawn }) => {
    const done = sawn.reduce((all, [from, to]) => all + to - from, 0);
    return sum + Math.max(0, 1 - done) * apart(...ends);
  }, 0);
}

/** A tab is a stretch of the outline. */
function keyOf(placement: number, kind: Cut['kind']): string {
  return `${placement} ${kind === 'tab' ? 'outline' : kind}`;
}

function apart(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function edges(line: Line, closed: boolean): [Point, Point][] {
  if (line.length === 0) return [];
  const pairs = line.slice(1).map((point, i): [Point, Point] => [line[i], point]);
  return closed ? [...pairs, [line[line.length - 1], line[0]]] : pairs;
}

function lengthOf(line: Line, closed: boolean): number {
  return edges(line, closed).reduce((sum, [a, b]) => sum + apart(a, b), 0);
}

/** Points inside every edge of a line, at most a millimetre apart. */
function* along(line: Line, closed: boolean, step = 1): Generator<Point> {
  for (const [[ax, ay], [bx, by]] of edges(line, closed)) {
    const count = Math.ceil(Math.hypot(bx - ax, by - ay) / step);
    for (let k = 0; k < count; k++) {
      const t = (k + 0.5) / count;
      yield [ax + t * (bx - ax), ay + t * (by - ay)];
    }
  }
}

/** Winding number by summed angles: nothing in common with the crossing parity of the library. */
function inside([x, y]: Point, ring: Ring): boolean {
  let angle = 0;
  for (const [[ax, ay], [bx, by]] of edges(ring, true))
    angle += Math.atan2((ax - x) * (by - y) - (ay - y) * (bx - x), (ax - x) * (bx - x) + (ay - y) * (by - y));
  return Math.abs(angle) > Math.PI;
}

function offLine([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): boolean {
  const length = Math.hypot(bx - ax, by - ay);
  const across = Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length;
  const way = ((bx - ax) * (x - ax) + (by - ay) * (y - ay)) / length;
  return across <= 0.01 && way >= -0.01 && way <= length + 0.01;
}

function toSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const squared = (bx - ax) ** 2 + (by - ay) ** 2;
  const t =
    squared === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}
