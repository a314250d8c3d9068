import type { TurnedOutline } from './turned-outline.ts';

/**
 * Where two boundaries come near each other: corners of one against edges of the other, and corner against corner.
 * Each contact is a line that may part the two: the corner lies wholly on one side of it (else two shapes whose sides
 * are in line would pass through each other, no corner of either inside the other), the edge's solid on the other.
 */

/** Contacts kept of one pair of boundaries in either direction, the nearest ones. */
const MOST = 8;

/** Numbers per contact: signed distance, the way out of the edge's solid (2), the corner (2), the foot on the edge (2). */
export const CONTACT = 7;

/** How far inside a corner its solid is asked for, mm. */
const NUDGE = 1e-3;

/** See the top of the file; the arrays serve one pair after another. */
export class VertexContacts {
  readonly values = new Float64Array(CONTACT * MOST);
  count = 0;

  /**
   * Finds the contacts of the corners of `points` with `solid` that are shorter than `reach` mm; negative lengths are
   * corners inside. Edges count up to `beyond` mm past their ends.
   */
  find(points: TurnedOutline, solid: TurnedOutline, reach: number, beyond: number): void {
    this.count = 0;
    const { x, y } = points;
    for (let k = 0; k < points.count; k++) {
      const px = x[k];
      const py = y[k];
      if (px < solid.minX - reach || px > solid.maxX + reach) continue;
      if (py < solid.minY - reach || py > solid.maxY + reach) continue;
      if (!points.sticksOut(k)) continue;
      if (isInside(points, k, solid)) this.fromInside(points, k, solid, beyond);
      else this.fromOutside(points, k, solid, reach, beyond);
    }
  }

  /** All edges that the corner lies in front of: in a hollow of the solid several hold it back. */
  private fromOutside(
    points: TurnedOutline,
    k: number,
    solid: TurnedOutline,
    reach: number,
    beyond: number,
  ): void {
    const px = points.x[k];
    const py = points.y[k];
    const { x, y, ux, uy, length, before } = solid;
    for (let e = 0; e < solid.count; e++) {
      const rx = px - x[e];
      const ry = py - y[e];
      const along = rx * ux[e] + ry * uy[e];
      const side = uy[e] * rx - ux[e] * ry;
      if (side < reach && side > -beyond && along > -beyond && along < length[e] + beyond) {
        if (length[e] === 0 || !points.isHeldBy(k, uy[e], -ux[e])) continue;
        if (this.isBetterHeld(points, k, solid, e, side, along, beyond)) continue;
        this.keep(side, uy[e], -ux[e], px, py);
      } else if (along <= 0) {
        const b = before[e];
        const past = rx * ux[b] + ry * uy[b] > 0;
        const squared = rx * rx + ry * ry;
        if (!past || squared >= reach * reach || !solid.sticksOut(e)) continue;
        const distance = Math.sqrt(squared);
        const nx = rx / distance;
        const ny = ry / distance;
        if (points.isHeldBy(k, nx, ny) && solid.isHeldBy(e, -nx, -ny)) this.keep(distance, nx, ny, px, py);
      }
    }
  }

  /** Around a corner of the solid that sticks out one of its edges is enough: the one that is farther away. */
  private isBetterHeld(
    points: TurnedOutline,
    k: number,
    solid: TurnedOutline,
    e: number,
    side: number,
    along: number,
    beyond: number,
  ): boolean {
    const { x, y, ux, uy, length, next, before } = solid;
    const atStart = along < solid.length[e] / 2;
    const corner = atStart ? e : next[e];
    if (!solid.sticksOut(corner)) return false;
    const other = atStart ? before[e] : next[e];
    const rx = points.x[k] - x[other];
    const ry = points.y[k] - y[other];
    const alongOther = rx * ux[other] + ry * uy[other];
    if (alongOther <= -beyond || alongOther >= length[other] + beyond) return false;
    const sideOther = uy[other] * rx - ux[other] * ry;
    if (!points.isHeldBy(k, uy[other], -ux[other])) return false;
    return sideOther > side || (sideOther === side && other < e);
  }

  /** The shortest way out over an edge that then holds the corner; in a hollow, over both of its sides. */
  private fromInside(points: TurnedOutline, k: number, solid: TurnedOutline, beyond: number): void {
    const px = points.x[k];
    const py = points.y[k];
    const { x, y, ux, uy, length } = solid;
    let best = Number.NEGATIVE_INFINITY;
    let edge = -1;
    for (let e = 0; e < solid.count; e++) {
      const rx = px - x[e];
      const ry = py - y[e];
      const along = rx * ux[e] + ry * uy[e];
      if (along < -beyond || along > length[e] + beyond || length[e] === 0) continue;
      const side = uy[e] * rx - ux[e] * ry;
      if (side > beyond || side <= best || !points.isHeldBy(k, uy[e], -ux[e])) continue;
      best = side;
      edge = e;
    }
    if (edge < 0) return;
    this.keep(best, uy[edge], -ux[edge], px, py);
    this.keepHollow(px, py, solid, edge);
  }

  /** The other side of a hollow corner near the foot of a way out. */
  private keepHollow(px: number, py: number, solid: TurnedOutline, edge: number): void {
    const { x, y, ux, uy, length, next, before } = solid;
    const along = (px - x[edge]) * ux[edge] + (py - y[edge]) * uy[edge];
    const atStart = along < length[edge] / 2;
    if (solid.sticksOut(atStart ? edge : next[edge])) return;
    const other = atStart ? before[edge] : next[edge];
    const side = uy[other] * (px - x[other]) - ux[other] * (py - y[other]);
    if (side < 0) this.keep(side, uy[other], -ux[other], px, py);
  }

  /** Sorts a contact in by its length; the longest falls out when there are too many. */
  private keep(distance: number, nx: number, ny: number, px: number, py: number): void {
    const { values } = this;
    let at = this.count;
    if (at === MOST) {
      if (distance >= values[CONTACT * (MOST - 1)]) return;
      at = MOST - 1;
    } else this.count++;
    for (; at > 0 && values[CONTACT * (at - 1)] > distance; at--)
      values.copyWithin(CONTACT * at, CONTACT * (at - 1), CONTACT * at);
    const start = CONTACT * at;
    values[start] = distance;
    values[start + 1] = nx;
    values[start + 2] = ny;
    values[start + 3] = px;
    values[start + 4] = py;
    values[start + 5] = px - distance * nx;
    values[start + 6] = py - distance * ny;
  }
}

/** True when the solid of a corner, a hair behind its tip, lies in another solid (crossing parity, Shimrat 1962). */
function isInside(points: TurnedOutline, k: number, solid: TurnedOutline): boolean {
  const b = points.before[k];
  // The normals of its two edges, turned inwards, lead into the solid from a corner that sticks out.
  const px = points.x[k] - NUDGE * (points.uy[k] + points.uy[b]);
  const py = points.y[k] + NUDGE * (points.ux[k] + points.ux[b]);
  const { x, y, next } = solid;
  let inside = solid.isFrame;
  for (let e = 0; e < solid.count; e++) {
    const ay = y[e];
    const by = y[next[e]];
    if (ay > py === by > py) continue;
    if (px < ((x[next[e]] - x[e]) * (py - ay)) / (by - ay) + x[e]) inside = !inside;
  }
  return inside;
}
