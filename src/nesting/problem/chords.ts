import { signedArea } from '../../geometry/ring.ts';
import type { Region, Ring } from '../../geometry/shapes.ts';

/**
 * How much of a line across some regions lies in them, as the line moves along: one stretch after the other, in each of
 * which that length changes evenly. Three numbers a stretch: its width, the length where it begins, and where it ends, mm.
 */
export type Chords = Float64Array;

/** Numbers a stretch. */
const EACH = 3;

/** Stretches narrower than this are left out, mm: they are nothing but rounding. */
const NARROW = 1e-9;

/** The chords of lines across, x = constant, from the left end of the regions to the right one. */
export function chordsAcross(regions: readonly Region[]): Chords {
  return chordsOf(regions, 0);
}

/** The chords of lines along, y = constant, from the upper end of the regions to the lower one. */
export function chordsAlong(regions: readonly Region[]): Chords {
  return chordsOf(regions, 1);
}

/** @param along coordinate along which the line moves */
function chordsOf(regions: readonly Region[], along: 0 | 1): Chords {
  const changes = regions.flatMap(({ outline, openings }) => [
    ...changesOf(outline, along, 1),
    ...openings.flatMap((opening) => changesOf(opening, along, -1)),
  ]);
  changes.sort((a, b) => a.at - b.at);
  const stretches: number[] = [];
  let slope = 0;
  let height = 0;
  for (let i = 0; i < changes.length; i++) {
    slope += changes[i].slope;
    height += changes[i].height;
    const from = changes[i].at;
    const to = i + 1 < changes.length ? changes[i + 1].at : from;
    if (to - from > NARROW)
      stretches.push(to - from, Math.max(0, slope * from + height), Math.max(0, slope * to + height));
  }
  return Float64Array.from(stretches);
}

/** From a place on, the length of the chord as a straight line over the place changes by this much. */
interface Change {
  readonly at: number;
  readonly slope: number;
  readonly height: number;
}

/**
 * Every edge adds what lies below it or takes it away, by the way it runs: the length of a chord is what its upper ends
 * add less what its lower ends take.
 */
function changesOf(ring: Ring, along: 0 | 1, sign: 1 | -1): Change[] {
  const across = 1 - along;
  // Exchanging the coordinates turns the ring round.
  const turns = (signedArea(ring) > 0 ? 1 : -1) * (along === 0 ? 1 : -1);
  return ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length];
    const run = b[along] - a[along];
    if (run === 0) return [];
    const weight = run < 0 ? sign * turns : -sign * turns;
    const slope = weight * ((b[across] - a[across]) / run);
    const height = weight * a[across] - slope * a[along];
    const [from, to] = run > 0 ? [a[along], b[along]] : [b[along], a[along]];
    return [
      { at: from, slope, height },
      { at: to, slope: -slope, height: -height },
    ];
  });
}

/** On how much of the way the chord is longer than `least` mm: mm. */
export function widthAbove(chords: Chords, least: number): number {
  let sum = 0;
  for (let i = 0; i < chords.length; i += EACH)
    sum += chords[i] * shareAbove(chords[i + 1], chords[i + 2], least);
  return sum;
}

/** Area of the regions where the chord is longer than `least` mm: mm2. */
export function areaAbove(chords: Chords, least: number): number {
  let sum = 0;
  for (let i = 0; i < chords.length; i += EACH) {
    const [width, a, b] = [chords[i], chords[i + 1], chords[i + 2]];
    const longest = Math.max(a, b);
    const shortest = Math.max(Math.min(a, b), Math.min(longest, least));
    sum += width * shareAbove(a, b, least) * ((longest + shortest) / 2);
  }
  return sum;
}

/** Share of a stretch on which the chord is longer than `least` mm. */
function shareAbove(a: number, b: number, least: number): number {
  const longest = Math.max(a, b);
  const shortest = Math.min(a, b);
  if (shortest > least) return 1;
  return longest <= least ? 0 : (longest - least) / (longest - shortest);
}

/** Shortest chord within `slack` mm of a place that lies `from` mm before the end of the regions, mm; 0 beyond them. */
export function chordBeforeEnd(chords: Chords, from: number, slack: number): number {
  let end = 0;
  let shortest = Number.POSITIVE_INFINITY;
  for (let i = chords.length - EACH; i >= 0; i -= EACH) {
    const begin = end + chords[i];
    if (begin >= from - slack && end <= from + slack)
      shortest = Math.min(shortest, chords[i + 1], chords[i + 2]);
    end = begin;
  }
  return end < from + slack || shortest === Number.POSITIVE_INFINITY ? 0 : shortest;
}
