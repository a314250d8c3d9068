import { lineLength, ringPerimeter } from '../geometry/ring.ts';
import type { Line, Point, Ring } from '../geometry/shapes.ts';

/** An outline keeps no tab that is more than this share of it: there would be little left to saw before. */
const GREATEST_SHARE = 0.2;

/** An outline in two: what is sawn first, and the tab that holds the part until the last. */
export interface TabbedOutline {
  readonly sawn: Line;
  readonly tab: Line;
}

/**
 * Leaves a tab in the middle of the longest straight side of an outline, where it is cleaned up most easily; where
 * no side is that long, over whole sides from there on. Undefined when the outline is too short for it.
 *
 * @param width length of the tab along the outline, mm
 */
export function leaveTab(outline: Ring, width: number): TabbedOutline | undefined {
  if (width > GREATEST_SHARE * ringPerimeter(outline)) return undefined;
  const side = longestSide(outline);
  const walk = [...outline.slice(side), ...outline.slice(0, side)];
  const length = lineLength(walk.slice(0, 2));
  if (length > width) {
    const [from, to] = [(length - width) / 2, (length + width) / 2].map((along) =>
      between(walk, along / length),
    );
    return { sawn: [to, ...walk.slice(1), walk[0], from], tab: [from, to] };
  }
  // The longest side is too short: the tab takes whole sides, so that no vertex is made where the drawing has none.
  let last = 1;
  while (lineLength(walk.slice(0, last + 1)) < width) last++;
  return { sawn: [...walk.slice(last), walk[0]], tab: walk.slice(0, last + 1) };
}

function longestSide(outline: Ring): number {
  let longest = 0;
  let most = 0;
  // No list spread into Math.max: an outline may have more points than a call takes arguments.
  outline.forEach((point, i) => {
    const length = lineLength([point, outline[(i + 1) % outline.length]]);
    if (length > most) {
      most = length;
      longest = i;
    }
  });
  return longest;
}

/** A point of the first side of a walk. */
function between([[ax, ay], [bx, by]]: Line, t: number): Point {
  return [ax + t * (bx - ax), ay + t * (by - ay)];
}
