/// <reference path="./clipper-lib.d.ts" />
import ClipperLib, {
  type Edge,
  type IntPoint,
  type LocalMinimum,
  type OutPoint,
  type OutRecord,
} from 'clipper-lib';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';

/** Of so many walks along outlines the points of one are counted. */
const WALKS_PER_COUNT = 16;

/**
 * Most points gone along while outlines are joined, parted and sorted by which lies in which: some seconds. No layout goes
 * along a thousandth of them; teeth of a hundredth of a millimetre that touch do, and their time grows with the cube.
 */
const MOST_WALKED = 1e9;

/** In so many levels between heights of points the edges of one are counted. */
const LEVELS_PER_COUNT = 16;

/**
 * Most edges met while the heights of all points are gone up, at each of them all edges that reach across: some fifteen
 * seconds. Four thousand discs strewn over one another take a third of it, a spiral of 200,000 points more.
 */
const MOST_SCANNED = 2e8;

/**
 * clipper-lib's clipping with its list of minima sorted once. The library walks along a linked list to put each minimum
 * and each scan line in its place, which for the thousands of pieces of a lattice takes the square of their number: half a
 * minute where the clipping itself takes a second. Where its strictly simple output parts outlines, it compares each
 * point with all others of its outline; here only points that come twice are. Where it asks which outline lies around
 * another, it walks through all that have become part of it; here that chain is shortened. Order and results are the same
 * to the last bit.
 */
export class SortedClipper extends ClipperLib.Clipper {
  /** In the order in which the library found them. */
  #minima: LocalMinimum[] = [];
  readonly #mostWalked: number;
  #walks = 0;
  /** Points of outlines gone along. */
  #walked = 0;
  readonly #mostScanned: number;
  #levels = 0;
  /** Edges met at the heights of points. */
  #scanned = 0;

  /**
   * @param mostWalked points gone along outlines before it gives up with a FretlayError
   * @param mostScanned edges met at the heights of points before it does
   */
  constructor(options?: number, mostWalked = MOST_WALKED, mostScanned = MOST_SCANNED) {
    super(options);
    this.#mostWalked = mostWalked;
    this.#mostScanned = mostScanned;
  }

  override InsertLocalMinima(minimum: LocalMinimum): void {
    this.#minima.push(minimum);
  }

  override Reset(): void {
    // Least Y first, as both lists are built from their ends; of minima as high the library has the last one found in front.
    const rising = this.#minima.toSorted((a, b) => a.Y - b.Y);
    this.m_MinimaList = null;
    this.m_Scanbeam = null;
    for (const minimum of rising) {
      minimum.Next = this.m_MinimaList;
      this.m_MinimaList = minimum;
      this.InsertScanbeam(minimum.Y);
      for (const edge of [minimum.LeftBound, minimum.RightBound]) {
        if (edge === null) continue;
        edge.Curr.X = edge.Bot.X;
        edge.Curr.Y = edge.Bot.Y;
        edge.OutIdx = ClipperLib.ClipperBase.Unassigned;
      }
    }
    this.m_CurrentLM = this.m_MinimaList;
    this.m_ActiveEdges = null;
  }

  override DisposeLocalMinimaList(): void {
    this.#minima = [];
    this.m_MinimaList = null;
    this.m_CurrentLM = null;
  }

  /** Asked for once at the height of every point. */
  override ProcessIntersections(height: number): boolean {
    if (this.#levels++ % LEVELS_PER_COUNT === 0) {
      let count = 0;
      for (let edge = this.m_ActiveEdges; edge !== null; edge = edge.NextInAEL) count++;
      this.#scanned += LEVELS_PER_COUNT * count;
      if (this.#scanned > this.#mostScanned) throw new FretlayError([TOO_TANGLED]);
    }
    return super.ProcessIntersections(height);
  }

  override AppendPolygon(edge: Edge, other: Edge): void {
    if (this.#isCounted()) {
      for (const { OutIdx } of [edge, other]) this.#countWalk(this.m_PolyOuts[OutIdx].Pts);
    }
    super.AppendPolygon(edge, other);
  }

  /** Asked for one point after the other while they lie on the outline. */
  override PointInPolygon(point: IntPoint, outline: OutPoint): number {
    if (this.#isCounted()) this.#countWalk(outline);
    return super.PointInPolygon(point, outline);
  }

  /** Whether the points of the next walk are counted. */
  #isCounted(): boolean {
    return this.#walks++ % WALKS_PER_COUNT === 0;
  }

  #countWalk(outline: OutPoint | null): void {
    this.#walked += WALKS_PER_COUNT * pointsOf(outline);
    if (this.#walked > this.#mostWalked) throw new FretlayError([TOO_TANGLED]);
  }

  override OutRec1RightOfOutRec2(outline: OutRecord, other: OutRecord): boolean {
    let around = living(outline.FirstLeft);
    while (around !== null && around !== other) around = living(around.FirstLeft);
    return around !== null;
  }

  override FixupFirstLefts1(outline: OutRecord, made: OutRecord): void {
    this.#shortenChains();
    super.FixupFirstLefts1(outline, made);
  }

  override FixupFirstLefts2(inner: OutRecord, outer: OutRecord): void {
    this.#shortenChains();
    super.FixupFirstLefts2(inner, outer);
  }

  #shortenChains(): void {
    for (const { Pts, FirstLeft } of this.m_PolyOuts) if (Pts !== null) living(FirstLeft);
  }

  override DoSimplePolygons(): void {
    // Parting adds outlines at the end, which are gone through in their turn.
    for (let i = 0; i < this.m_PolyOuts.length; i++) {
      const outline = this.m_PolyOuts[i];
      if (outline.Pts === null || outline.IsOpen) continue;
      const isTwice = pointsThatComeTwice(outline.Pts);
      let point = outline.Pts;
      do {
        if (isTwice.has(keyOf(point.Pt))) this.#partWherePointComesAgain(outline, point);
        point = point.Next;
      } while (point !== outline.Pts);
    }
  }

  #partWherePointComesAgain(outline: OutRecord, point: OutPoint): void {
    let other = point.Next;
    while (other !== outline.Pts) {
      const isSame = point.Pt.X === other.Pt.X && point.Pt.Y === other.Pt.Y;
      if (isSame && other.Next !== point && other.Prev !== point) {
        const [before, beforeOther] = [point.Prev, other.Prev];
        point.Prev = beforeOther;
        beforeOther.Next = point;
        other.Prev = before;
        before.Next = other;
        outline.Pts = point;
        this.#giveOutline(outline, other);
        other = point;
      }
      other = other.Next;
    }
  }

  /** Makes an outline of its own of the ring parted off at a point, and says which of the two lies in the other. */
  #giveOutline(outline: OutRecord, partedOff: OutPoint): void {
    const made = this.CreateOutRec();
    made.Pts = partedOff;
    this.UpdateOutPtIdxs(made);
    if (this.Poly2ContainsPoly1(made.Pts, outline.Pts)) {
      made.IsHole = !outline.IsHole;
      made.FirstLeft = outline;
      this.FixupFirstLefts2(made, outline);
    } else if (this.Poly2ContainsPoly1(outline.Pts, made.Pts)) {
      made.IsHole = outline.IsHole;
      outline.IsHole = !made.IsHole;
      made.FirstLeft = outline.FirstLeft;
      outline.FirstLeft = made;
      this.FixupFirstLefts2(outline, made);
    } else {
      made.IsHole = outline.IsHole;
      made.FirstLeft = outline.FirstLeft;
      this.FixupFirstLefts1(outline, made);
    }
  }
}

function pointsOf(first: OutPoint | null): number {
  if (first === null) return 0;
  let count = 1;
  for (let point = first.Next; point !== first; point = point.Next) count++;
  return count;
}

/**
 * The outline that an outline around another has become part of, itself if it still has points. All on the way there
 * point to it afterwards, as in the union of disjoint sets (Tarjan 1975), or each look goes the way of all merging again.
 */
function living(outline: OutRecord | null): OutRecord | null {
  let found = outline;
  while (found !== null && found.Pts === null) found = found.FirstLeft;
  let passed = outline;
  while (passed !== null && passed !== found) {
    const next: OutRecord | null = passed.FirstLeft;
    passed.FirstLeft = found;
    passed = next;
  }
  return found;
}

/** Points, by their keys, that come more than once along an outline. */
function pointsThatComeTwice(first: OutPoint): ReadonlySet<string> {
  const seen = new Set<string>();
  const twice = new Set<string>();
  let point = first;
  do {
    const key = keyOf(point.Pt);
    if (seen.has(key)) twice.add(key);
    seen.add(key);
    point = point.Next;
  } while (point !== first);
  return twice;
}

function keyOf({ X, Y }: IntPoint): string {
  return `${X},${Y}`;
}

const TOO_TANGLED: Issue = {
  kind: 'shape-too-tangled',
  severity: 'error',
  message:
    'has so many lines, or touches and crosses itself in so many places, so close together, that what it fills cannot be told in good time',
  remedy: 'Draw it again, or trace it with fewer points.',
};
