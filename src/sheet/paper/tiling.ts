/**
 * Where the windows of pages begin along one direction. As few windows as cover the length; where they have
 * overlap to spare, they are shifted so that as few parts as possible are cut by a page's edge, then as few texts, and
 * then as few parts are parted from the cross-cut that they lie by.
 */

/** From where to where a part or a text reaches along the direction, mm. */
export interface Extent {
  readonly from: number;
  readonly to: number;
}

/** How large the windows are along the direction, and the least that neighbours share, mm. */
export interface WindowRule {
  readonly size: number;
  readonly overlap: number;
}

/** Free space wanted between a part and the edge of its page, mm: the saw line is not to lie on the edge. */
const PAD = 1;

/** Number of windows that cover `length` mm. */
export function windowCount(length: number, { size, overlap }: WindowRule): number {
  // A hair less before rounding up: a length of whole strides must not take one window more for its last digit.
  return length <= size ? 1 : 1 + Math.ceil((length - size) / (size - overlap) - 1e-9);
}

/**
 * What the windows are to cover: all of the drawing if that takes no more windows than what counts in it, else as
 * much of it as comes for nothing, the far end first (down a board that is the straight edge, from which it is
 * laid out).
 *
 * @param all of the drawing; `content` is the part of it that has to be seen, `named` that with what is worth seeing
 */
export function coverage(all: Extent, named: Extent, content: Extent, windows: WindowRule): Extent {
  const choices = [all, { from: named.from, to: all.to }, { from: all.from, to: named.to }, named];
  const count = ({ from, to }: Extent) => windowCount(to - from, windows);
  return choices.find((choice) => count(choice) === count(content)) ?? content;
}

/**
 * The starts of the windows that cover `whole`, in order. A single window is centred; of several the first begins where
 * the whole begins, and each of the others as late as its overlap allows or earlier for the sake of parts, and where none
 * of these is cut for it, of texts, and where neither is, of parts with the cross-cut beside them. In mm.
 */
export function windowStarts(
  whole: Extent,
  windows: WindowRule,
  parts: readonly Extent[],
  texts: readonly Extent[] = [],
  partsByCuts: readonly Extent[] = [],
): number[] {
  const { size } = windows;
  const kinds = [parts, texts, partsByCuts];
  const cut = (kind: readonly Extent[], starts: readonly number[]) =>
    kind.filter(({ from, to }) => !starts.some((at) => from >= at + PAD && to <= at + size - PAD)).length;
  let best = startsFor(whole, windows, [parts]);
  for (let heeded = 2; heeded <= kinds.length; heeded++) {
    if (kinds[heeded - 1].length === 0) continue;
    const heeding = startsFor(whole, windows, kinds.slice(0, heeded));
    // A window that is early for the sake of one kind leaves those after it less to shift by.
    const before = kinds.slice(0, heeded - 1);
    if (before.every((kind) => cut(kind, heeding) <= cut(kind, best))) best = heeding;
  }
  return best;
}

function startsFor(whole: Extent, windows: WindowRule, kinds: readonly (readonly Extent[])[]): number[] {
  const { size, overlap } = windows;
  const length = whole.to - whole.from;
  const count = windowCount(length, windows);
  if (count === 1) return [whole.from - (size - length) / 2];
  const starts = [whole.from];
  for (let next = 1; next < count; next++) {
    const previous = starts[next - 1];
    const latest = previous + size - overlap;
    // Earlier than this, the windows that are left could not reach the end.
    const earliest = whole.to - size - (count - 1 - next) * (size - overlap);
    starts.push(bestStart(previous, { from: Math.min(earliest, latest), to: latest }, size, kinds));
  }
  return starts;
}

/**
 * The latest start between two bounds that leaves the fewest of the first kind cut, and of these the fewest of the next; the
 * later, the more is left for the windows after it to shift by. Only starts just before one of them can be better than
 * others, so only those are tried. One is cut when it ends beyond the previous window, begins before the new one, and would
 * fit into a window.
 *
 * @param bounds earliest and latest start, mm
 */
function bestStart(
  previous: number,
  bounds: Extent,
  size: number,
  kinds: readonly (readonly Extent[])[],
): number {
  const { from: earliest, to: latest } = bounds;
  const seen = previous + size - PAD;
  const pending = kinds.map((kind) =>
    kind.filter(({ from, to }) => from > previous && to > seen && to - from <= size - 2 * PAD),
  );
  const cutBy = (start: number) =>
    pending.map((kind) => kind.filter(({ from }) => from < start + PAD).length);
  const candidates = pending
    .flat()
    .map(({ from }) => from - PAD)
    .filter((start) => start >= earliest && start < latest);
  let best = latest;
  let fewest = cutBy(latest);
  for (const start of [...new Set([...candidates, earliest])].sort((a, b) => b - a)) {
    const cut = cutBy(start);
    const decisive = cut.findIndex((count, i) => count !== fewest[i]);
    if (decisive >= 0 && cut[decisive] < fewest[decisive]) {
      fewest = cut;
      best = start;
    }
  }
  return best;
}
