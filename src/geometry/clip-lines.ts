import { edgeEnds } from './edge-ends.ts';
import { type InCells, inCells } from './in-cells.ts';
import { fromGrid, toGrid, UNITS_PER_MM } from './integer-grid.ts';
import { distanceToSegment, verticesOf } from './ring.ts';
import { type Line, type Point, pointBetween, type Region } from './shapes.ts';

/**
 * Open lines cut off at the edges of regions. Not by clipper-lib: version 6.4.2 puts the points of an open line out of
 * order where it begins level and then has a highest and a lowest point, and the blade would follow that.
 */

/** A point nearer to an edge than this, mm, lies on it. */
const TOUCHING = 1 / UNITS_PER_MM;

/** The least piece of a line, mm: both of its ends are different points of the grid. */
const LEAST_PIECE = 2 / UNITS_PER_MM;

/**
 * The pieces of open lines that lie inside regions, mm, in the order and direction of the lines, their points on the integer
 * grid. What runs along an edge lies inside.
 *
 * @throws FretlayError for coordinates out of range of the grid
 */
export function clipLines(lines: readonly Line[], regions: readonly Region[]): Line[] {
  return lines.flatMap(lineClipper(regions));
}

/** As {@link clipLines}, for many lines one after another: the edges of the regions are put in order once. */
export function lineClipper(regions: readonly Region[]): (line: Line) => Line[] {
  const edges = new EdgeBands(regions);
  return (line) => {
    const pieces: Point[][] = [];
    let piece: Point[] | undefined;
    const points = onGrid(line);
    for (let i = 1; i < points.length; i++) {
      const [from, to] = [points[i - 1], points[i]];
      const cuts = edges.cutsOf(from, to);
      for (let k = 1; k < cuts.length; k++) {
        if (!edges.hold(pointBetween(from, to, (cuts[k - 1] + cuts[k]) / 2))) {
          // It ended where the cut before this one is, unless that is the corner it has been led to.
          if (piece !== undefined && k > 1) piece.push(cutPoint(from, to, cuts[k - 1]));
          piece = undefined;
        } else if (piece === undefined) {
          piece = [cutPoint(from, to, cuts[k - 1])];
          pieces.push(piece);
        }
      }
      piece?.push(to);
    }
    return pieces;
  };
}

function onGrid(line: Line): Point[] {
  const points: Point[] = [];
  for (const [x, y] of line) {
    const point: Point = [fromGrid(toGrid(x)), fromGrid(toGrid(y))];
    const last = points[points.length - 1];
    if (last === undefined || last[0] !== point[0] || last[1] !== point[1]) points.push(point);
  }
  return points;
}

function cutPoint(from: Point, to: Point, share: number): Point {
  const [x, y] = pointBetween(from, to, share);
  return share === 0 ? from : [fromGrid(toGrid(x)), fromGrid(toGrid(y))];
}

/** The edges of regions in level bands: a short line, and a ray to the side, meet the edges of few of them. */
class EdgeBands {
  /** Ends of every edge, [ax, ay, bx, by] one after the other. */
  private readonly ends: Float64Array;
  /** Region that every edge belongs to. */
  private readonly regionOf: Int32Array;
  private readonly top: number;
  private readonly height: number;
  private readonly bands: number;
  private readonly edges: InCells;

  constructor(regions: readonly Region[]) {
    this.ends = edgeEnds(regions.flatMap(({ outline, openings }) => [outline, ...openings]));
    this.regionOf = Int32Array.from(
      regions.flatMap((region, number) => new Array<number>(verticesOf(region)).fill(number)),
    );
    let top = Number.POSITIVE_INFINITY;
    let bottom = Number.NEGATIVE_INFINITY;
    for (let i = 1; i < this.ends.length; i += 2) {
      top = Math.min(top, this.ends[i]);
      bottom = Math.max(bottom, this.ends[i]);
    }
    this.top = top;
    // The root: of a comb, whose edges stand in every band, no more are listed than its edges times that.
    this.bands = Math.max(1, Math.ceil(Math.sqrt(this.regionOf.length)));
    this.height = Math.max((bottom - top) / this.bands, TOUCHING);
    this.edges = inCells(this.bands, (visit) => this.forEachBand(visit));
  }

  /**
   * Where a straight line meets edges, as shares of its length in order, 0 and 1 among them. Between two of them it lies in a
   * region as a whole or not at all.
   */
  cutsOf([ax, ay]: Point, [bx, by]: Point): number[] {
    const [dx, dy] = [bx - ax, by - ay];
    const length = Math.hypot(dx, dy);
    const met: number[] = [];
    const shareAt = (x: number, y: number) => ((x - ax) * dx + (y - ay) * dy) / (length * length);
    const left = Math.min(ax, bx) - TOUCHING;
    const right = Math.max(ax, bx) + TOUCHING;
    this.forEachEdge(Math.min(ay, by), Math.max(ay, by), (px, py, qx, qy) => {
      if ((px < left && qx < left) || (px > right && qx > right)) return;
      // How far the ends of the edge lie from the line, with a sign.
      const p = (dx * (py - ay) - dy * (px - ax)) / length;
      const q = (dx * (qy - ay) - dy * (qx - ax)) / length;
      if (Math.abs(p) <= TOUCHING) met.push(shareAt(px, py));
      if (Math.abs(q) <= TOUCHING) met.push(shareAt(qx, qy));
      if (p * q < 0) {
        const share = p / (p - q);
        met.push(shareAt(px + share * (qx - px), py + share * (qy - py)));
      }
    });
    const least = LEAST_PIECE / length;
    const cuts = [0];
    for (const share of met.sort((a, b) => a - b)) {
      if (share - cuts[cuts.length - 1] >= least && 1 - share >= least) cuts.push(share);
    }
    cuts.push(1);
    return cuts;
  }

  /** True for a point in a region or on its edge. */
  hold([x, y]: Point): boolean {
    let isOnEdge = false;
    // Crossing parity (Shimrat 1962), half-open in y so that a vertex counts once; regions may overlap.
    const odd = new Set<number>();
    this.forEachEdge(y, y, (px, py, qx, qy, region) => {
      if (Math.min(px, qx) > x + TOUCHING) return;
      if (distanceToSegment(x, y, px, py, qx, qy) <= TOUCHING) isOnEdge = true;
      else if (py > y !== qy > y && x > ((qx - px) * (y - py)) / (qy - py) + px && !odd.delete(region))
        odd.add(region);
    });
    return isOnEdge || odd.size > 0;
  }

  /** Visits the edges that come within touch of a height between two, some of them several times where these are apart. */
  private forEachEdge(
    from: number,
    to: number,
    visit: (px: number, py: number, qx: number, qy: number, region: number) => void,
  ): void {
    const { ends, regionOf } = this;
    const { first, members } = this.edges;
    const last = this.bandAt(to);
    for (let band = this.bandAt(from); band <= last; band++) {
      for (let m = first[band]; m < first[band + 1]; m++) {
        const i = 4 * members[m];
        const [py, qy] = [ends[i + 1], ends[i + 3]];
        if (Math.min(py, qy) > to + TOUCHING || Math.max(py, qy) < from - TOUCHING) continue;
        visit(ends[i], py, ends[i + 2], qy, regionOf[members[m]]);
      }
    }
  }

  private forEachBand(visit: (band: number, edge: number) => void): void {
    const { ends } = this;
    for (let edge = 0; edge < this.regionOf.length; edge++) {
      const [py, qy] = [ends[4 * edge + 1], ends[4 * edge + 3]];
      const last = this.bandAt(Math.max(py, qy) + TOUCHING);
      for (let band = this.bandAt(Math.min(py, qy) - TOUCHING); band <= last; band++) visit(band, edge);
    }
  }

  /** The band at a height; of heights above or below all bands the outermost one. */
  private bandAt(y: number): number {
    return Math.max(0, Math.min(this.bands - 1, Math.floor((y - this.top) / this.height)));
  }
}
