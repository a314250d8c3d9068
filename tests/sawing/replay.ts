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
  let shared = 0;
  boards.forEach((board, i) => {
    const own = plan.boards[i];
    const said = (fault: string) => faults.push(`${board.id}: ${fault}`);
    shared += board.copies * replayBoard(board, own, said);
    length += board.copies * own.cuts.reduce((sum, cut) => sum + lengthOf(cut), 0);
  });
  if (Math.abs(length - plan.cutLength) > 1e-6) faults.push('the cut length is not the sum of the cuts');
  if (Math.abs(length + shared - layout.figures.cutLength) > 1e-6)
    faults.push('the cut length is not that of the layout less the shared edges');
  return faults;
}

function replayBoard(board: LaidBoard, plan: BoardPlan, said: (fault: string) => void): number {
  const { toSaw, shared } = segmentsOf(board);
  const free = new Set<number>();
  const fallen: Ring[] = [];
  const sawn: Line[] = [];
  const left = board.placements.map(
    (_, p) => [...toSaw.keys()].filter((key) => key.startsWith(`${p} outline`)).length,
  );
  plan.cuts.forEach((cut, i) => {
    const name = `cut ${i + 1} (${cut.kind} of ${cut.part} ${cut.placement})`;
    if (cut.number !== i + 1) said(`${name} has another number`);
    if (cut.reason.length < 10) said(`${name} gives no reason`);
    const own = cut.placement;
    if (cut.partFree !== free.has(own)) said(`${name} says wrongly whether its part is free`);
    if (free.has(own) && !/free/.test(cut.reason))
      said(`${name} comes after its part was freed, without saying why`);
    for (const point of along(cut)) {
      for (const gone of free)
        if (gone !== own && inside(point, board.placements[gone].region.outline))
          said(`${name} runs through a freed part`);
      if (fallen.some((ring) => inside(point, ring))) said(`${name} runs through waste that has fallen out`);
    }
    if (cut.entry === 'earlier cut' && !sawn.some((line) => distance(cut.line[0], line) < 0.5))
      said(`${name} starts from a cut that is not there yet`);
    if ((cut.entry === 'hole') !== plan.holes.some((hole) => hole.cut === cut.number))
      said(`${name}: hole missing or too many`);
    for (const key of keysOf(cut)) {
      const times = toSaw.get(key) ?? 0;
      if (times === 0) said(`${name} saws what is not there or was sawn before`);
      toSaw.set(key, times - 1);
      if (cut.kind === 'outline') left[own]--;
    }
    const frees = cut.kind === 'outline' && left[own] === 0;
    if (frees !== cut.frees) said(`${name} says wrongly whether it frees the part`);
    if (frees) free.add(own);
    if (cut.kind === 'opening') fallen.push(cut.line);
    sawn.push(cut.line);
  });
  for (const [key, times] of toSaw) if (times > 0) said(`not sawn: ${key}`);
  return shared;
}

/** Every edge to saw, by placement, kind and ends, and the length that lies on the edge of the board. */
function segmentsOf({ placements, usable }: LaidBoard): { toSaw: Map<string, number>; shared: number } {
  const toSaw = new Map<string, number>();
  let shared = 0;
  const add = (p: number, kind: Cut['kind'], a: Point, b: Point) => {
    const key = keyOf(p, kind, a, b);
    toSaw.set(key, (toSaw.get(key) ?? 0) + 1);
  };
  placements.forEach(({ region, veins }, p) => {
    for (const [a, b] of edges(region.outline, true)) {
      const ends = edges(usable.outline, true).some(([c, d]) => offLine(a, c, d) && offLine(b, c, d));
      if (ends) shared += Math.hypot(b[0] - a[0], b[1] - a[1]);
      else add(p, 'outline', a, b);
    }
    for (const ring of region.openings) for (const [a, b] of edges(ring, true)) add(p, 'opening', a, b);
    for (const vein of veins) for (const [a, b] of edges(vein, false)) add(p, 'vein', a, b);
  });
  return { toSaw, shared };
}

function keysOf(cut: Cut): string[] {
  return edges(cut.line, cut.closed).map(([a, b]) => keyOf(cut.placement, cut.kind, a, b));
}

function keyOf(placement: number, kind: Cut['kind'], a: Point, b: Point): string {
  const ends = [`${a[0]},${a[1]}`, `${b[0]},${b[1]}`].sort();
  return `${placement} ${kind} ${ends.join(' ')}`;
}

function edges(line: Line, closed: boolean): [Point, Point][] {
  const pairs = line.slice(1).map((point, i): [Point, Point] => [line[i], point]);
  return closed ? [...pairs, [line[line.length - 1], line[0]]] : pairs;
}

function lengthOf(cut: Cut): number {
  return edges(cut.line, cut.closed).reduce(
    (sum, [[ax, ay], [bx, by]]) => sum + Math.hypot(bx - ax, by - ay),
    0,
  );
}

/** Points inside every edge of a cut, at most a millimetre apart. */
function* along(cut: Cut): Generator<Point> {
  for (const [[ax, ay], [bx, by]] of edges(cut.line, cut.closed)) {
    const count = Math.ceil(Math.hypot(bx - ax, by - ay));
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

function distance(point: Point, line: Line): number {
  return Math.min(...edges(line, true).map(([a, b]) => toSegment(point, a, b)));
}

function toSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const squared = (bx - ax) ** 2 + (by - ay) ** 2;
  const t =
    squared === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}
