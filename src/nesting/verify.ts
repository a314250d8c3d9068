import { boundsOf, type Point, type Region } from '../geometry/shapes.ts';
import type { Issue, IssuePlace } from '../issues/issue.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { isSamePart } from '../model/same-part.ts';
import { checkFigures, checkSets, checkSettings, type MeasuredPlacement } from './verify/counts.ts';
import { breach, placeOf } from './verify/places.ts';
import { type ReferenceRegion, referenceRegion } from './verify/reference-geometry.ts';
import { checkRules, checkSection } from './verify/rules.ts';
import { checkShape, checkVeins } from './verify/shape.ts';
import { checkTogether } from './verify/together.ts';
import { DISTANCE_TOLERANCE } from './verify/tolerances.ts';

/**
 * The independent check of a layout: it reads only the layout file and measures with a reference geometry library
 * that the search never uses. Comparisons are written so that a measure that failed (NaN) is a breach.
 */

/** How far beyond the distance asked for neighbours are measured, mm, so that the least distance can be told. */
const LOOK_AROUND = 2;

/** What the verifier found. */
export interface Verification {
  /** True when there is no breach. */
  readonly ok: boolean;
  /**
   * Least distance found between two placements, mm; negative when they overlap; undefined when no two are
   * within 2 mm more than the distance asked for.
   */
  readonly leastDistance: number | undefined;
  /** Least distance found from a placement to the edge of the usable board or a defect, mm. */
  readonly leastEdgeDistance: number | undefined;
  /** Number of pairs of placements whose distance was measured. */
  readonly pairsMeasured: number;
  /** Every breach, none left out. */
  readonly breaches: readonly Issue[];
}

/**
 * Checks a layout: every two placements at least kerf + clearance apart (a part inside another's opening too),
 * every placement inside the usable board by the edge margin and off every defect, every placement the drawn part
 * moved, rotation, turning over and rest edge as the rules ask, sections kept, sets complete as claimed, figures
 * true.
 */
export function verifyLayout(layout: Layout): Verification {
  const breaches: Issue[] = [];
  const measured: MeasuredPlacement[] = [];
  const usableArea = new Map<LaidBoard, number>();
  const drawn = new Map<string, Region>();
  const least = { distance: Number.POSITIVE_INFINITY, edge: Number.POSITIVE_INFINITY, pairs: 0 };
  checkSettings(layout, breaches);
  for (const board of layout.boards) {
    const usable = checkedRegion(board.usable, 'the usable board', { board: board.id }, breaches);
    usableArea.set(board, usable?.area ?? Number.NaN);
    const pieces: MeasuredPlacement[] = [];
    for (const placement of board.placements) {
      const region = checkedRegion(placement.region, 'the part', placeOf(board, placement), breaches);
      if (region === undefined || usable === undefined) continue;
      pieces.push({ board, placement, region });
      const room = roomOf(layout, board, placement, usable);
      least.edge = Math.min(least.edge, checkInside(layout, board, placement, region, room, breaches));
      checkRules(layout, board, placement, region, breaches);
      checkSection(layout, board, placement, region, breaches);
      checkShape(drawn, layout.setContents, board, placement, breaches);
      checkVeins(board, placement, region, breaches);
    }
    checkDistances(layout, pieces, least, breaches);
    measured.push(...pieces);
  }
  checkSets(layout, breaches);
  checkTogether(layout, breaches);
  checkFigures(layout, measured, usableArea, breaches);
  return {
    ok: breaches.length === 0,
    leastDistance: finite(least.distance),
    leastEdgeDistance: finite(least.edge),
    pairsMeasured: least.pairs,
    breaches,
  };
}

function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}

function checkDistances(
  layout: Layout,
  pieces: readonly MeasuredPlacement[],
  least: { distance: number; pairs: number },
  breaches: Issue[],
): void {
  const gap = layout.kerf + layout.clearance;
  for (const [a, b] of closePairs(pieces, Math.max(0, gap) + LOOK_AROUND)) {
    const { distance, at } = distanceBetween(a.region, b.region);
    least.pairs++;
    least.distance = Math.min(least.distance, distance);
    if (distance >= gap - DISTANCE_TOLERANCE) continue;
    const other = `part "${b.placement.part}" of layer "${b.placement.layer}", set ${b.placement.set}`;
    breaches.push(
      breach(
        'parts-too-close',
        `too close to ${other}`,
        { ...placeOf(a.board, a.placement), at },
        {
          expected: `at least ${gap} mm`,
          received: `${distance.toFixed(4)} mm`,
        },
      ),
    );
  }
}

/** Pairs whose boxes come within `reach` mm of each other, by a sweep along x. */
function* closePairs(
  pieces: readonly MeasuredPlacement[],
  reach: number,
): Generator<[MeasuredPlacement, MeasuredPlacement]> {
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
  return piece.boundaryLength > 0 ? piece.area / (piece.boundaryLength / 2) : piece.boundaryLength;
}

/** What a part may lie in: the usable board, without its margin along level bottom edges for parts that stand there. */
function roomOf(
  layout: Layout,
  board: LaidBoard,
  placement: Placement,
  usable: ReferenceRegion,
): ReferenceRegion {
  const content = layout.setContents.find((each) => isSamePart(each, placement));
  if (content?.restEdge !== true || layout.edgeMargin === 0) return usable;
  const { outline, openings } = board.usable;
  const edge = boundsOf(outline).maxY;
  const isLevel = (i: number) => outline[(i + outline.length) % outline.length][1] === edge;
  const lowered = outline.map(([x, y], i): Point => {
    const standsHere = isLevel(i) && (isLevel(i - 1) || isLevel(i + 1));
    return [x, standsHere ? y + layout.edgeMargin : y];
  });
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
  // Boundaries apart, the outline inside, and no defect swallowed by the part: only then it is inside.
  const isInside = nearest.distance > 0 && usable.holdsOutlineOf(region) && !region.holdsVertexOf(usable);
  const sticksOut = isInside ? 0 : meanDepth(region.outside(usable));
  const distance = sticksOut === 0 ? nearest.distance : -sticksOut;
  if (!(distance >= layout.edgeMargin - DISTANCE_TOLERANCE)) {
    breaches.push(
      breach(
        'outside-usable-board',
        'a part comes too near the edge of the usable board or a defect, or lies outside',
        { ...placeOf(board, placement), at: nearest.at },
        { expected: `at least ${layout.edgeMargin} mm`, received: `${distance.toFixed(4)} mm` },
      ),
    );
  }
  return distance;
}

function checkedRegion(
  region: Region,
  what: string,
  where: IssuePlace,
  breaches: Issue[],
): ReferenceRegion | undefined {
  const isDrawn = [region.outline, ...region.openings].every((ring) => ring.length >= 3);
  const checked = isDrawn ? referenceRegion(region) : undefined;
  if (checked !== undefined && checked.fault === undefined) return checked;
  const fault = checked?.fault ?? 'a ring has under 3 points';
  breaches.push(breach('invalid-region', `${what} is not a valid region: ${fault}`, where));
  return undefined;
}
