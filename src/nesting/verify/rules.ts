import { boundsOf, type Ring } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Layout, Placement, SetContent } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { breach, type MeasuredPlacement, placeOf } from './places.ts';
import { ANGLE_TOLERANCE, DISTANCE_TOLERANCE } from './tolerances.ts';

/**
 * Greatest distance in mm from a rounded bottom to the straight edge it stands on. It touches that edge in a point, wherever
 * the part lies; and where it has many vertices, it is laid out by a simpler outline around it, which is what touches.
 */
const ROUNDED_BOTTOM_TOLERANCE = 0.5;

/** Least share of a part's width that a straight bottom has: with less it is a rounded one, drawn in short straight lines. */
const LEAST_BOTTOM = 0.2;

/** How far the points of a straight bottom are from level, mm: ten times the grid of a layout. */
const LEVEL = 1e-3;

/** Checks turning over, grain and rest edge of one placement against the rules of its part. */
export function checkRules(layout: Layout, measured: MeasuredPlacement, breaches: Issue[]): void {
  const { placement, region } = measured;
  const where = placeOf(measured);
  const content = layout.setContents.find((each) => isSamePart(each, placement));
  if (content === undefined) {
    breaches.push(breach('unknown-part', 'the part belongs to no set', where));
    return;
  }
  if (placement.turnedOver && !content.turnOver) {
    breaches.push(breach('turned-over', 'the part may not be turned over but is', where));
  }
  const off = degreesOffGrain(placement, content);
  if (!(off <= content.grainTolerance + ANGLE_TOLERANCE)) {
    breaches.push(
      breach('grain-rule', 'the part is turned off its grain direction', where, {
        expected: `grain ${content.grain}, within ${content.grainTolerance} degrees`,
        received: `${off} degrees off`,
      }),
    );
  }
  if (content.restEdge === true && !standsOnEdge(measured)) {
    breaches.push(
      breach('rest-edge', 'the part does not stand on the straight edge of the board', where, {
        expected: 'rotation 0, its lowest edge on the lower edge of the board',
        received: `rotation ${placement.rotation}, lowest at ${region.box[3].toFixed(4)} mm`,
      }),
    );
  }
}

/** Degrees between the part's grain direction and the board's; 0 for free grain, not a number for a bad rotation. */
function degreesOffGrain({ rotation }: Placement, { grain }: SetContent): number {
  if (grain === 'free') return Number.isFinite(rotation) ? 0 : Number.NaN;
  const direction = grain === 'along' ? 0 : 90;
  const turned = (((rotation - direction) % 180) + 180) % 180;
  return Math.min(turned, 180 - turned);
}

function standsOnEdge({ board, placement, region }: MeasuredPlacement): boolean {
  const edge = boundsOf(board.usable.outline).maxY;
  const tolerance = hasStraightBottom(placement.region.outline)
    ? DISTANCE_TOLERANCE
    : ROUNDED_BOTTOM_TOLERANCE;
  return Math.abs(placement.rotation % 360) <= ANGLE_TOLERANCE && Math.abs(edge - region.box[3]) <= tolerance;
}

/** A part cut to stand has level edges at its lowest points; two feet have them too. */
function hasStraightBottom(outline: Ring): boolean {
  const { minX, maxX, maxY } = boundsOf(outline);
  let length = 0;
  outline.forEach(([x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length];
    if (maxY - y <= LEVEL && maxY - nextY <= LEVEL) length += Math.abs(nextX - x);
  });
  return length >= LEAST_BOTTOM * (maxX - minX);
}

/** On a board that is cross-cut to sections a part lies within one of them, by the edge margin. */
export function checkSection({ edgeMargin }: Layout, measured: MeasuredPlacement, breaches: Issue[]): void {
  const { sections = [] } = measured.board;
  const [minX, , maxX] = measured.region.box;
  const margin = edgeMargin - DISTANCE_TOLERANCE;
  const isWithin = sections.some(({ from, to }) => minX - from >= margin && to - maxX >= margin);
  if (sections.length === 0 || isWithin) return;
  breaches.push(
    breach(
      'across-sections',
      'a part lies across the line between two sections, or too near it',
      placeOf(measured),
      {
        expected: `${edgeMargin} mm from the ends of its section`,
        received: `${minX.toFixed(4)} to ${maxX.toFixed(4)} mm along the board`,
      },
    ),
  );
}
