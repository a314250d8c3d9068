import { lineLength, ringPerimeter } from '../geometry/ring.ts';
import { type Line, pointBetween, type Ring } from '../geometry/shapes.ts';

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
      pointBetween(walk[0], walk[1], along / length),
    );
    return { sawn: [to, ...walk.slice(1), walk[0], from], tab: [from, to] };
  }
  // The longest side is too short: the tab takes whole sides, so that no vertex is made where the drawing has none.
  let last = 1;
  while (lineLength(walk.slice(0, last + 1)) < width) last++;
  return { sawn: [...walk.slice(last), walk[0]], tab: walk.slice(0, last + 1) };
}

/** A line in three: what is sawn from either end, each from its end on, and the tab between them. */
export interface TabbedLine {
  readonly sawn: readonly [Line, Line];
  readonly tab: Line;
}

/**
 * Leaves a tab in a piece of outline that ends on the edge of the board at both ends: in the middle of its longest straight
 * side, or where no side is that long, over whole sides in its middle. Undefined when the piece is too short for it.
 *
 * @param width length of the tab along the line, mm
 */
export function leaveTabInLine(line: Line, width: number): TabbedLine | undefined {
  const whole = lineLength(line);
  if (width > GREATEST_SHARE * whole) return undefined;
  const side = longestSide(line, false);
  const length = lineLength(line.slice(side, side + 2));
  if (length > width) {
    const [from, to] = [(length - width) / 2, (length + width) / 2].map((along) =>
      pointBetween(line[side], line[side + 1], along / length),
    );
    return {
      sawn: [[...line.slice(0, side + 1), from], [to, ...line.slice(side + 1)].reverse()],
      tab: [from, to],
    };
  }
  const first = pointAt(line, 0, (whole - width) / 2) - 1;
  const last = pointAt(line, first, width);
  return { sawn: [line.slice(0, first + 1), line.slice(last).reverse()], tab: line.slice(first, last + 1) };
}

/** Index of the first point of a line that lies so many mm along it, or farther, from the point it is counted from. */
function pointAt(line: Line, from: number, along: number): number {
  let index = from;
  for (let left = along; left > 0; index++) left -= lineLength(line.slice(index, index + 2));
  return index;
}

function longestSide(outline: Line, closed = true): number {
  let longest = 0;
  let most = 0;
  // No list spread into Math.max: an outline may have more points than a call takes arguments.
  outline.forEach((point, i) => {
    if (!closed && i + 1 === outline.length) return;
    const length = lineLength([point, outline[(i + 1) % outline.length]]);
    if (length > most) {
      most = length;
      longest = i;
    }
  });
  return longest;
}
