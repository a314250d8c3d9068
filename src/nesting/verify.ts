import type { Point, Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { LaidBoard, Layout, Placement, Section, SetContent } from '../model/layout.ts';
import { type ReferenceRegion, referenceRegion } from './reference-geometry.ts';

/**
 * The independent check of a layout: it reads only the layout file and measures with a reference geometry library
 * that the search never uses. Comparisons are written so that a measure that failed (NaN) is a breach.
 */

/** Greatest shortfall in mm of a distance that still passes: ten times the grid the layout is written on. */
export const DISTANCE_TOLERANCE = 0.01;

/** Greatest error in degrees of a rotation that still passes. */
const ANGLE_TOLERANCE = 1e-6;

/** What the verifier found. */
export interface Verification {
  /** True when there is no breach. */
  readonly ok: boolean;
  /** Least distance found between two placements, mm; negative when they overlap; undefined without a pair. */
  readonly leastDistance: number | undefined;
  /** Least distance found from a placement to the edge of the usable board or a defect, mm. */
  readonly leastEdgeDistance: number | undefined;
  /** Pairs of placements whose distance was measured. */
  readonly pairsMeasured: number;
  /** Every breach, none left out. */
  readonly breaches: readonly Issue[];
}

interface Piece {
  readonly placement: Placement;
  readonly region: ReferenceRegion;
}

/**
 * Checks a layout: every two placements at least kerf + clearance apart (a part inside another's opening too),
 * every placement inside the usable board by the edge margin, every placement congruent with the others of its
 * part, rotation and turning over as the rules allow, sets complete as claimed, figures true.
 */
export function verifyLayout(layout: Layout): Verification {
  const breaches: Issue[] = [];
  let leastDistance = Number.POSITIVE_INFINITY;
  let leastEdgeDistance = Number.POSITIVE_INFINITY;
  let pairsMeasured = 0;
  const shapes = new Map<string, Region>();

  for (const board of layout.boards) {
    const usable = checkedRegion(board.usable, 'the usable board', { board: board.id }, breaches);
    if (usable === undefined) continue;
    const pieces: Piece[] = [];
    for (const placement of board.placements) {
      const region = checkedRegion(placement.region, 'the part', placeOf(board, placement), breaches);
      if (region === undefined) continue;
      pieces.push({ placement, region });
      leastEdgeDistance = Math.min(
        leastEdgeDistance,
        checkInside(layout, board, placement, region, roomOf(layout, board, placement, usable), breaches),
      );
      checkRules(layout.setContents, board, placement, breaches);
      checkSection(layout, board, placement, region, breaches);
      checkShape(shapes, board, placement, breaches);
    }
    const gap = layout.kerf + layout.clearance;
    for (const [a, b] of closePairs(pieces, gap)) {
      const { distance, at } = distanceBetween(a.region, b.region);
      pairsMeasured++;
      leastDistance = Math.min(leastDistance, distance);
      if (!(distance >= gap - DISTANCE_TOLERANCE))
        breaches.push(tooClose(board, a.placement, b.placement, gap, distance, at));
    }
  }
  checkSets(layout, breaches);
  checkFigures(layout, breaches);
  return {
    ok: breaches.length === 0,
    leastDistance: Number.isFinite(leastDistance) ? leastDistance : undefined,
    leastEdgeDistance: Number.isFinite(leastEdgeDistance) ? leastEdgeDistance : undefined,
    pairsMeasured,
    breaches,
  };
}

/** Pairs whose boxes come nearer than `reach` mm, by a sweep along x. The nearest pair is always among them. */
function* closePairs(pieces: readonly Piece[], gap: number): Generator<[Piece, Piece]> {
  const reach = gap + 2;
  const sorted = [...pieces].sort((a, b) => a.region.box[0] - b.region.box[0]);
  for (let i = 0; i < sorted.length; i++) {
    const [, minY, maxX, maxY] = sorted[i].region.box;
    for (let j = i + 1; j < sorted.length && sorted[j].region.box[0] <= maxX + reach; j++) {
      const other = sorted[j].region.box;
      if (other[1] <= maxY + reach && minY <= other[3] + reach) yield [sorted[i], sorted[j]];
    }
  }
}

/** Distance of two solids in mm; when they overlap, minus the mean depth of the overlap. */
function distanceBetween(a: ReferenceRegion, b: ReferenceRegion): { distance: number; at: Point } {
  const nearest = a.boundaryDistance(b);
  if (!a.holdsVertexOf(b) && !b.holdsVertexOf(a) && nearest.distance > 0) return nearest;
  return { distance: -meanDepth(a.shared(b)), at: nearest.at };
}

/** Width of a thin piece: area over half its boundary. */
function meanDepth(piece: { area: number; boundaryLength: number }): number {
  return piece.boundaryLength > 0 ? piece.area / (piece.boundaryLength / 2) : 0;
}

/** What the part may lie in: the usable board, without its edge margin along the bottom for parts that stand there. */
function roomOf(
  layout: Layout,
  board: LaidBoard,
  placement: Placement,
  usable: ReferenceRegion,
): ReferenceRegion {
  const content = layout.setContents.find(
    ({ part, layer }) => part === placement.part && layer === placement.layer,
  );
  if (content?.restEdge !== true || layout.edgeMargin === 0) return usable;
  const { outline, openings } = board.usable;
  const edge = Math.max(...outline.map(([, y]) => y));
  const lowered = outline.map(([x, y]): Point => [x, y === edge ? y + layout.edgeMargin : y]);
  return referenceRegion({ outline: lowered, openings });
}

function checkInside(
  layout: Layout,
  board: LaidBoard,
  placement: Placement,
  region: ReferenceRegion,
  usable: ReferenceRegion,
  breaches: Issue[],
): number {
  const nearest = usable.boundaryDistance(region);
  // Boundaries apart and one vertex inside: the whole part is inside.
  const isInside = nearest.distance > 0 && usable.holdsVertexOf(region);
  const sticksOut = isInside ? 0 : meanDepth(region.outside(usable));
  const distance = sticksOut === 0 ? nearest.distance : -sticksOut;
  if (!(distance >= layout.edgeMargin - DISTANCE_TOLERANCE)) {
    breaches.push({
      kind: 'outside-usable-board',
      severity: 'error',
      message: 'a part comes too near the edge of the usable board or a defect, or lies outside',
      expected: `at least ${layout.edgeMargin} mm`,
      received: `${distance.toFixed(4)} mm`,
      where: { ...placeOf(board, placement), at: nearest.at },
    });
  }
  return distance;
}

/** On a board that is cross-cut to sections a part lies within one of them, by the edge margin. */
function checkSection(
  layout: Layout,
  { sections = [], ...board }: LaidBoard,
  placement: Placement,
  { box: [minX, , maxX] }: ReferenceRegion,
  breaches: Issue[],
): void {
  const margin = layout.edgeMargin - DISTANCE_TOLERANCE;
  const holds = ({ from, to }: Section) => minX - from >= margin && to - maxX >= margin;
  if (sections.length === 0 || sections.some(holds)) return;
  breaches.push({
    kind: 'across-sections',
    severity: 'error',
    message: 'a part lies across the line between two sections, or too near it',
    expected: `${layout.edgeMargin} mm from the ends of its section`,
    received: `${minX.toFixed(4)} to ${maxX.toFixed(4)} mm along the board`,
    where: placeOf(board, placement),
  });
}

function checkRules(
  contents: readonly SetContent[],
  board: LaidBoard,
  placement: Placement,
  breaches: Issue[],
): void {
  const content = contents.find(({ part, layer }) => part === placement.part && layer === placement.layer);
  const where = placeOf(board, placement);
  if (content === undefined) {
    breaches.push({ kind: 'unknown-part', severity: 'error', message: 'the part belongs to no set', where });
    return;
  }
  if (placement.turnedOver && !content.turnOver) {
    breaches.push({
      kind: 'turned-over',
      severity: 'error',
      message: 'the part may not be turned over but is',
      where,
    });
  }
  if (content.grain === 'free') return;
  const direction = content.grain === 'along' ? 0 : 90;
  const turned = (((placement.rotation - direction) % 180) + 180) % 180;
  const off = Math.min(turned, 180 - turned);
  if (off > content.grainTolerance + ANGLE_TOLERANCE) {
    breaches.push({
      kind: 'grain-rule',
      severity: 'error',
      message: 'the part is turned off its grain direction',
      expected: `grain ${content.grain}, within ${content.grainTolerance} degrees`,
      received: `${off} degrees off`,
      where,
    });
  }
}

/** The part moved back to the drawing has to be the same for every copy. */
function checkShape(
  shapes: Map<string, Region>,
  board: LaidBoard,
  placement: Placement,
  breaches: Issue[],
): void {
  const key = JSON.stringify([placement.layer, placement.part]);
  const drawn = movedBack(placement);
  const first = shapes.get(key);
  if (first === undefined) {
    shapes.set(key, drawn);
    return;
  }
  if (sameVertices(first, drawn) || sameSolid(referenceRegion(first), referenceRegion(drawn))) return;
  breaches.push({
    kind: 'shape-changed',
    severity: 'error',
    message: 'the placed shape is not the part moved by its placement',
    where: placeOf(board, placement),
  });
}

/** The quick way to see that two regions are the same: the same vertices in the same order. */
function sameVertices(a: Region, b: Region): boolean {
  const ringsOfA = [a.outline, ...a.openings];
  const ringsOfB = [b.outline, ...b.openings];
  return (
    ringsOfA.length === ringsOfB.length &&
    ringsOfA.every(
      (ring, i) =>
        ring.length === ringsOfB[i].length &&
        ring.every(
          ([x, y], j) => Math.hypot(x - ringsOfB[i][j][0], y - ringsOfB[i][j][1]) <= DISTANCE_TOLERANCE,
        ),
    )
  );
}

function sameSolid(a: ReferenceRegion, b: ReferenceRegion): boolean {
  const error = meanDepth({ area: a.outside(b).area + b.outside(a).area, boundaryLength: a.boundaryLength });
  return (
    error <= DISTANCE_TOLERANCE && a.box.every((side, i) => Math.abs(side - b.box[i]) <= DISTANCE_TOLERANCE)
  );
}

function movedBack({ region, x, y, rotation, turnedOver }: Placement): Region {
  const angle = (-rotation * Math.PI) / 180;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const back = ([px, py]: Point): Point => {
    const dx = px - x;
    const dy = py - y;
    const backX = cos * dx - sin * dy;
    return [turnedOver ? -backX : backX, sin * dx + cos * dy];
  };
  return { outline: region.outline.map(back), openings: region.openings.map((opening) => opening.map(back)) };
}

/** Counts the copies of every part: placed and unplaced together make the sets asked for. */
function checkSets(layout: Layout, breaches: Issue[]): void {
  let completeSets = layout.sets;
  for (const { part, layer, copiesPerSet } of layout.setContents) {
    const isPart = (other: { part: string; layer: string }) => other.part === part && other.layer === layer;
    const placed = layout.boards.reduce(
      (count, board) => count + board.copies * board.placements.filter(isPart).length,
      0,
    );
    const unplaced = layout.unplaced.filter(isPart).length;
    completeSets = Math.min(completeSets, Math.floor(placed / copiesPerSet));
    if (placed + unplaced < copiesPerSet * layout.sets) {
      breaches.push({
        kind: 'copies-missing',
        severity: 'error',
        message: 'copies are neither placed nor listed as unplaced',
        expected: `${copiesPerSet * layout.sets}`,
        received: `${placed} placed and ${unplaced} unplaced`,
        where: { layer, part },
      });
    }
  }
  compareFigure('completeSets', completeSets, layout.figures.completeSets, 0, breaches);
}

/** Relative error of a stated figure that still passes: flattening and rounding of the file. */
const FIGURE_TOLERANCE = 1e-6;

function checkFigures(layout: Layout, breaches: Issue[]): void {
  let partArea = 0;
  let boardArea = 0;
  let boards = 0;
  for (const board of layout.boards) {
    if (board.placements.length === 0) continue;
    boards += board.copies;
    boardArea += board.copies * referenceRegion(board.usable).area;
    for (const { region } of board.placements) partArea += board.copies * referenceRegion(region).area;
  }
  const { figures } = layout;
  compareFigure('boards', boards, figures.boards, 0, breaches);
  compareFigure('partArea', partArea, figures.partArea, FIGURE_TOLERANCE * partArea, breaches);
  compareFigure('boardArea', boardArea, figures.boardArea, FIGURE_TOLERANCE * boardArea, breaches);
  compareFigure('yield', boardArea > 0 ? partArea / boardArea : 0, figures.yield, FIGURE_TOLERANCE, breaches);
}

function compareFigure(
  name: string,
  found: number,
  stated: number,
  tolerance: number,
  breaches: Issue[],
): void {
  if (Math.abs(found - stated) <= tolerance) return;
  breaches.push({
    kind: 'figure-wrong',
    severity: 'error',
    message: `the layout states a wrong figure`,
    expected: `${found}`,
    received: `${stated}`,
    where: { field: `figures.${name}` },
  });
}

function checkedRegion(
  region: Region,
  what: string,
  where: Issue['where'],
  breaches: Issue[],
): ReferenceRegion | undefined {
  const broken = (fault: string): undefined => {
    breaches.push({
      kind: 'invalid-region',
      severity: 'error',
      message: `${what} is not a valid region: ${fault}`,
      where,
    });
  };
  if ([region.outline, ...region.openings].some((ring) => ring.length < 3))
    return broken('a ring has under 3 points');
  const checked = referenceRegion(region);
  return checked.fault === undefined ? checked : broken(checked.fault);
}

function tooClose(
  board: LaidBoard,
  a: Placement,
  b: Placement,
  gap: number,
  distance: number,
  at: Point,
): Issue {
  return {
    kind: 'parts-too-close',
    severity: 'error',
    message: `too close to part "${b.part}" of layer "${b.layer}", set ${b.set}`,
    expected: `at least ${gap} mm`,
    received: `${distance.toFixed(4)} mm`,
    where: { ...placeOf(board, a), at },
  };
}

function placeOf(board: Pick<LaidBoard, 'id'>, placement: Placement): NonNullable<Issue['where']> {
  return { board: board.id, layer: placement.layer, part: `${placement.part}, set ${placement.set}` };
}
