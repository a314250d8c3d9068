import { type InCells, inCells } from './in-cells.ts';
import { UNITS_PER_MM } from './integer-grid.ts';
import { locateInRing, signedArea } from './ring.ts';
import { boundsOf, boxHolds, type Point, type Region, type Ring } from './shapes.ts';

/**
 * The quick way for drawings as they should be: rings whose edges nowhere touch need no clipping, only nesting.
 * Where that is not certain, the slow and sure way through clipper-lib is taken.
 */

/**
 * Pairs of edges compared before the quick way is given up, in all or per edge, whichever is more: a second or two. Most are
 * told apart by their boxes, while the slow way takes longer the denser the teeth of an outline stand.
 */
const MOST_PAIRS = 1e8;
const MOST_PAIRS_PER_EDGE = 1000;

/** Points nearer to an edge than this, mm, count as touching it: two units of the integer grid. */
const TOUCHING = 2 / UNITS_PER_MM;

/**
 * True when it is certain that no two edges of the rings touch, but for neighbours at the vertex they share. Sweeps
 * along x over edges sorted by their left end, in bands about as high as they are. False is the safe answer: it only sends
 * the rings the slow way, so every doubt, of rounding as of time, ends in false. No rings touch nothing.
 */
export function areCrossingFree(rings: readonly Ring[]): boolean {
  const edges = new EdgeList(rings);
  return !anyPair(edges, (a, b) => edges.touch(a, b));
}

/**
 * True unless edges that touch, but for neighbours at the vertex they share, all cross clear of their ends: no sides and no
 * corners are shared. Every doubt ends in true.
 */
export function shareSidesOrCorners(rings: readonly Ring[]): boolean {
  const edges = new EdgeList(rings);
  return anyPair(edges, (a, b) => edges.touch(a, b) && !edges.cross(a, b));
}

/**
 * Where two edges of the rings cross, the ends of each clear of the line through the other; undefined when none do. Of so
 * many pairs that nobody would wait for it nothing is told.
 */
export function crossingPoint(rings: readonly Ring[]): Point | undefined {
  const edges = new EdgeList(rings);
  let found: Point | undefined;
  anyPair(edges, (a, b) => {
    if (!edges.cross(a, b)) return false;
    found = edges.crossingOf(a, b);
    return true;
  });
  return found;
}

/** True when a pair of edges whose boxes touch is found, or when that takes too many pairs to tell. */
function anyPair(edges: EdgeList, isFound: (a: number, b: number) => boolean): boolean {
  const { count, order, left, maxX, minY, maxY } = edges;
  if (count === 0) return false;
  const most = Math.max(MOST_PAIRS, MOST_PAIRS_PER_EDGE * count);
  const { first, members } = edges.inBands();
  let pairs = 0;
  for (let band = 0; band + 1 < first.length; band++) {
    for (let i = first[band]; i < first[band + 1]; i++) {
      const a = order[members[i]];
      const right = maxX[a] + TOUCHING;
      for (let j = i + 1; j < first[band + 1] && left[members[j]] <= right; j++) {
        const b = order[members[j]];
        if (++pairs > most) return true;
        const meet = minY[b] <= maxY[a] + TOUCHING && minY[a] <= maxY[b] + TOUCHING;
        if (meet && isFound(a, b)) return true;
      }
    }
  }
  return false;
}

/** Edges of rings in flat arrays, with their boxes and their order along x. */
class EdgeList {
  readonly count: number;
  /** Edges by their left ends, and those ends in the same order, mm: rounded down by at most a grid unit or so. */
  readonly order: Uint32Array;
  readonly left: Float64Array;
  readonly maxX: Float64Array;
  readonly minY: Float64Array;
  readonly maxY: Float64Array;
  private readonly ax: Float64Array;
  private readonly ay: Float64Array;
  /** Number of the edge that follows on the same ring. */
  private readonly next: Uint32Array;

  constructor(rings: readonly Ring[]) {
    this.count = rings.reduce((sum, ring) => sum + ring.length, 0);
    const array = () => new Float64Array(this.count);
    this.ax = array();
    this.ay = array();
    this.maxX = array();
    this.minY = array();
    this.maxY = array();
    this.next = new Uint32Array(this.count);
    const minX = array();
    let first = 0;
    for (const ring of rings) {
      const end = first + ring.length;
      for (let i = first; i < end; i++) {
        const point = ring[i - first];
        const isLast = i + 1 === end;
        const after = ring[isLast ? 0 : i + 1 - first];
        this.next[i] = isLast ? first : i + 1;
        this.ax[i] = point[0];
        this.ay[i] = point[1];
        minX[i] = Math.min(point[0], after[0]);
        this.maxX[i] = Math.max(point[0], after[0]);
        this.minY[i] = Math.min(point[1], after[1]);
        this.maxY[i] = Math.max(point[1], after[1]);
      }
      first = end;
    }
    this.order = new Uint32Array(this.count);
    this.left = minX;
    this.sortByLeft();
  }

  /**
   * Sorts by left end without a comparator, which is several times faster: each end becomes a whole number of steps
   * from the leftmost, the edge's number goes into the digits below, and both come out of the sorted keys again.
   */
  private sortByLeft(): void {
    const { count, left, order } = this;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      least = Math.min(least, left[i]);
      most = Math.max(most, left[i]);
    }
    // A step is a grid unit, or as much more as the 53 bits of a key ask for.
    const step = Math.max(1 / UNITS_PER_MM, ((most - least) * count) / 2 ** 52);
    // The keys overwrite the left ends, which come out of them again, rounded down to a whole step: an edge is then
    // met too early by the sweep, never too late.
    const keys = left;
    for (let i = 0; i < count; i++) keys[i] = Math.floor((left[i] - least) / step) * count + i;
    keys.sort();
    for (let i = 0; i < count; i++) {
      const steps = Math.floor(keys[i] / count);
      order[i] = keys[i] - steps * count;
      left[i] = least + steps * step;
    }
  }

  /**
   * Places of edges in their order along x, in bands as high as a mean edge, and no more bands than there are edges: so each
   * edge is in two or three on average.
   */
  inBands(): InCells {
    const { count, order, minY, maxY } = this;
    let bottom = Number.POSITIVE_INFINITY;
    let end = Number.NEGATIVE_INFINITY;
    let heights = 0;
    for (let i = 0; i < count; i++) {
      bottom = Math.min(bottom, minY[i]);
      end = Math.max(end, maxY[i]);
      heights += maxY[i] - minY[i];
    }
    const height = Math.max(heights / count, (end - bottom) / count, 2 * TOUCHING);
    const bands = Math.max(1, Math.ceil((end - bottom) / height));
    const bandOf = (y: number) => Math.min(bands - 1, Math.max(0, Math.floor((y - bottom) / height)));
    return inCells(bands, (visit) => {
      for (let place = 0; place < count; place++) {
        const edge = order[place];
        const last = bandOf(maxY[edge] + TOUCHING);
        for (let band = bandOf(minY[edge] - TOUCHING); band <= last; band++) visit(band, place);
      }
    });
  }

  /**
   * True unless the edges are certainly apart; neighbours are apart when they do not fold back on each other. Two
   * segments are apart when both ends of one lie clear on one side of the line through the other:
   *
   *     a-----------c        b and d on one side of a-c: apart, whatever b-d does
   *           b
   *            \
   *             d
   */
  touch(a: number, b: number): boolean {
    if (this.next[a] === b) return this.foldsBack(a, b);
    if (this.next[b] === a) return this.foldsBack(b, a);
    const c = this.next[a];
    const d = this.next[b];
    return !(this.sameSide(a, c, b, d) || this.sameSide(b, d, a, c));
  }

  /** True when two edges cross, the ends of each clear of the line through the other. */
  cross(a: number, b: number): boolean {
    const c = this.next[a];
    const d = this.next[b];
    return this.apartBy(a, c, b, d) && this.apartBy(b, d, a, c);
  }

  /** The point in which two edges cross that do. */
  crossingOf(a: number, b: number): Point {
    const { ax, ay, next } = this;
    const ux = ax[next[a]] - ax[a];
    const uy = ay[next[a]] - ay[a];
    const vx = ax[next[b]] - ax[b];
    const vy = ay[next[b]] - ay[b];
    const along = ((ax[b] - ax[a]) * vy - (ay[b] - ay[a]) * vx) / (ux * vy - uy * vx);
    return [ax[a] + along * ux, ay[a] + along * uy];
  }

  /** True when points r and s lie on one side of the line through p and q, clear of it. */
  private sameSide(p: number, q: number, r: number, s: number): boolean {
    const first = this.sideOf(p, q, r);
    return first !== 0 && this.sideOf(p, q, s) === first;
  }

  /** True when points r and s lie on either side of the line through p and q, clear of it. */
  private apartBy(p: number, q: number, r: number, s: number): boolean {
    const first = this.sideOf(p, q, r);
    return first !== 0 && this.sideOf(p, q, s) === -first;
  }

  /** On which side of the line through p and q a point lies, 1 or -1; 0 when it is not clear of it. */
  private sideOf(p: number, q: number, r: number): number {
    const { ax, ay } = this;
    const ux = ax[q] - ax[p];
    const uy = ay[q] - ay[p];
    const clear = TOUCHING * Math.sqrt(ux * ux + uy * uy);
    const side = ux * (ay[r] - ay[p]) - uy * (ax[r] - ax[p]);
    return side > clear ? 1 : side < -clear ? -1 : 0;
  }

  /** True when edge b, which follows a, runs back along it within the touching distance: a spike of no width. */
  private foldsBack(a: number, b: number): boolean {
    const { ax, ay, next } = this;
    const c = next[b];
    const ux = ax[b] - ax[a];
    const uy = ay[b] - ay[a];
    const vx = ax[c] - ax[b];
    const vy = ay[c] - ay[b];
    const longer = Math.sqrt(Math.max(ux * ux + uy * uy, vx * vx + vy * vy));
    return ux * vx + uy * vy < 0 && Math.abs(ux * vy - uy * vx) <= TOUCHING * longer;
  }
}

/**
 * Regions of crossing-free rings, mm, under a fill rule: each ring lies in or out of the others as a whole, and none so
 * near to another that one of its vertices could not tell which. On rings that do cross the answer is wrong without a
 * word: ask {@link areCrossingFree} first.
 */
export function nestedRegions(rings: readonly Ring[], rule: 'nonzero' | 'evenodd'): Region[] {
  const sorted = rings
    .map((ring) => ({ ring, area: signedArea(ring), box: boundsOf(ring) }))
    .sort((a, b) => Math.abs(b.area) - Math.abs(a.area));
  const regions: { outline: Ring; openings: Ring[] }[] = [];
  const winding: number[] = [];
  const regionOf: number[] = [];
  sorted.forEach(({ ring, area, box }, i) => {
    // Larger rings come first, and of those that hold this one the last is the smallest: the one directly around it.
    let parent = i - 1;
    while (
      parent >= 0 &&
      !(boxHolds(sorted[parent].box, box) && locateInRing(ring[0], sorted[parent].ring) === 1)
    ) {
      parent--;
    }
    const outside = parent < 0 ? 0 : winding[parent];
    const inside = rule === 'evenodd' ? 1 - outside : outside + Math.sign(area);
    winding.push(inside);
    // A ring makes an edge only where it parts filled from empty.
    if ((inside !== 0) === (outside !== 0)) {
      regionOf.push(parent < 0 ? -1 : regionOf[parent]);
    } else if (inside !== 0) {
      regions.push({ outline: ring, openings: [] });
      regionOf.push(regions.length - 1);
    } else {
      regions[regionOf[parent]].openings.push(ring);
      regionOf.push(-1);
    }
  });
  return regions;
}
