/// <reference path="./clipper-lib.d.ts" />
import ClipperLib, { type IntPoint, type OutPt, type OutRec } from 'clipper-lib';

/**
 * clipper-lib's clipping, with one of its questions answered sooner. For each ring that strictly simple output parts off, it
 * asks of every other ring whether that lies in it, point by point against all its edges: seconds for a thousand lines that
 * cross. Here the edges lie in level bands. The answers are the library's own to the last.
 */
export class QuickClipper extends ClipperLib.Clipper {
  /** How often each ring was asked, then its edges; only while the library changes no ring. */
  private asked: Map<OutPt, number | LevelBands> | undefined;

  protected override FixupFirstLefts1(old: OutRec, fresh: OutRec): void {
    this.asked = new Map();
    super.FixupFirstLefts1(old, fresh);
    this.asked = undefined;
  }

  protected override FixupFirstLefts2(inner: OutRec, outer: OutRec): void {
    this.asked = new Map();
    super.FixupFirstLefts2(inner, outer);
    this.asked = undefined;
  }

  protected override PointInPolygon(point: IntPoint, ring: OutPt): number {
    const known = this.asked?.get(ring) ?? 0;
    if (this.asked === undefined) return super.PointInPolygon(point, ring);
    if (typeof known !== 'number') return known.locate(point.X, point.Y);
    this.asked.set(ring, known < FEW ? known + 1 : new LevelBands(ring));
    return super.PointInPolygon(point, ring);
  }
}

/** Times a ring is asked before its edges are put in bands. */
const FEW = 6;

/** The edges of a ring by their heights. */
class LevelBands {
  private readonly x: Float64Array;
  private readonly y: Float64Array;
  private readonly top: number;
  private readonly height: number;
  private readonly bands: number;
  /** Edges of band k, each by the number of its end: `members` from `first[k]` to `first[k + 1]`. */
  private readonly first: Int32Array;
  private readonly members: Int32Array;

  constructor(start: OutPt) {
    const points: OutPt['Pt'][] = [];
    let at = start;
    do {
      points.push(at.Pt);
      at = at.Next;
    } while (at !== start);
    this.x = Float64Array.from(points, ({ X }) => X);
    this.y = Float64Array.from(points, ({ Y }) => Y);
    this.top = this.y.reduce((least, y) => Math.min(least, y));
    const bottom = this.y.reduce((most, y) => Math.max(most, y));
    const climb = this.y.reduce(
      (sum, y, i) => sum + Math.abs(y - this.y[i === 0 ? points.length - 1 : i - 1]),
      0,
    );
    // As many as list each edge four times, taken all together.
    const most = (4 * points.length * (bottom - this.top)) / Math.max(climb, 1);
    this.bands = Math.max(1, Math.ceil(most));
    this.height = Math.max(1, (bottom - this.top) / this.bands);
    this.first = new Int32Array(this.bands + 1);
    // Counted first and filled after: the members of all bands lie in one array without a gap.
    this.forEachBand((band) => this.first[band + 1]++);
    for (let k = 0; k < this.bands; k++) this.first[k + 1] += this.first[k];
    this.members = new Int32Array(this.first[this.bands]);
    const next = this.first.slice();
    this.forEachBand((band, edge) => {
      this.members[next[band]++] = edge;
    });
  }

  /** 1 for a point inside, 0 outside, -1 on the ring, as the library has it (Hormann, Agathos 2001). */
  locate(px: number, py: number): number {
    const { x, y, first, members, top, height, bands } = this;
    const band = Math.floor((py - top) / height);
    if (band < 0 || band > bands) return 0;
    const k = Math.min(band, bands - 1);
    let inside = 0;
    for (let m = first[k]; m < first[k + 1]; m++) {
      const b = members[m];
      const a = b === 0 ? x.length - 1 : b - 1;
      if (y[b] === py && (x[b] === px || (y[a] === py && x[b] > px === x[a] < px))) return -1;
      if (y[a] < py === y[b] < py || (x[a] < px && x[b] <= px)) continue;
      if (x[a] >= px && x[b] > px) {
        inside = 1 - inside;
        continue;
      }
      const side = (x[a] - px) * (y[b] - py) - (x[b] - px) * (y[a] - py);
      if (side === 0) return -1;
      if (side > 0 === y[b] > y[a]) inside = 1 - inside;
    }
    return inside;
  }

  private forEachBand(visit: (band: number, edge: number) => void): void {
    const { y, top, height, bands } = this;
    const bandAt = (level: number) => Math.min(bands - 1, Math.floor((level - top) / height));
    for (let b = 0; b < y.length; b++) {
      const a = b === 0 ? y.length - 1 : b - 1;
      const last = bandAt(Math.max(y[a], y[b]));
      for (let band = bandAt(Math.min(y[a], y[b])); band <= last; band++) visit(band, b);
    }
  }
}
