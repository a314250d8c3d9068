import { heightsWithin } from '../../geometry/heights-within.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Layout, Placement, SetContent } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { breach, isUpright, type MeasuredPlacement, placeOf, told } from './places.ts';
import { ANGLE_TOLERANCE, DISTANCE_TOLERANCE } from './tolerances.ts';

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
        expected: `grain ${content.grain}, within ${told(content.grainTolerance)} degrees`,
        received: `${told(off)} degrees off`,
      }),
    );
  }
  if (content.restEdge === true && !standsOnEdge(measured)) {
    breaches.push(
      breach('rest-edge', 'the part does not stand on the straight edge of the board', where, {
        expected: measured.board.straightTopEdge
          ? 'rotation 0, its lowest edge on the lower edge of the board, or 180 and on the top edge'
          : 'rotation 0, its lowest edge on the lower edge of the board',
        received: `rotation ${told(placement.rotation)}, from ${region.box[1].toFixed(4)} to ${region.box[3].toFixed(4)} mm`,
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

/** A layout does not tell trims of less than this, mm: a twentieth, and rounding. */
const UNTOLD_TRIM = 0.06;

function standsOnEdge({ board, placement, region }: MeasuredPlacement): boolean {
  const { outline = board.usable.outline, trimmed, straightTopEdge = false } = board;
  const { minX, maxX, minY, maxY } = boundsOf(board.usable.outline);
  // What is cross-cut off the ends may have reached farther.
  const [top, bottom] = heightsWithin(outline, minX, maxX);
  // A defect all along an edge is no edge to stand on.
  if (isUpright(placement))
    return (
      Math.abs(maxY - region.box[3]) <= DISTANCE_TOLERANCE &&
      maxY >= bottom - (trimmed?.straightEdge ?? 0) - UNTOLD_TRIM
    );
  const isHeadDown = Math.abs(Math.abs(placement.rotation % 360) - 180) <= ANGLE_TOLERANCE;
  return (
    straightTopEdge &&
    isHeadDown &&
    Math.abs(minY - region.box[1]) <= DISTANCE_TOLERANCE &&
    minY <= top + (trimmed?.topEdge ?? 0) + UNTOLD_TRIM
  );
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
        expected: `${told(edgeMargin)} mm from the ends of its section`,
        received: `${minX.toFixed(4)} to ${maxX.toFixed(4)} mm along the board`,
      },
    ),
  );
}
