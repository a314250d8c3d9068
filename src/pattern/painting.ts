import { combineRegions, uniteRegions } from '../geometry/clipper.ts';
import { regionBounds } from '../geometry/ring.ts';
import { type Box, boxesMeet, type Region } from '../geometry/shapes.ts';
import { mayMeet } from './meeting-regions.ts';

/** A shape that is added to what is there, or cut out of it. */
interface Stroke {
  readonly region: Region;
  readonly box: Box;
  readonly isCut: boolean;
}

/**
 * What is painted so far, kept as strokes: of these only the ones near a shape are carried out to tell what it lies on, and all of
 * them, many at a time, at the end. Done one by one on the whole, hundreds took many seconds.
 */
export class Painting {
  private readonly strokes: Stroke[] = [];
  /** What was carried out last: the next shape often lies on the same, and one more. */
  private last: { readonly strokes: readonly Stroke[]; readonly regions: readonly Region[] } = {
    strokes: [],
    regions: [],
  };

  /** Regions that may reach a shape; they may overlap one another. */
  near(region: Region): readonly Region[] {
    const box = regionBounds(region);
    const painted = this.carriedOut(this.strokes.filter((stroke) => boxesMeet(stroke.box, box)));
    return painted.filter((each) => mayMeet(each, region));
  }

  add(region: Region): void {
    this.strokes.push({ region, box: regionBounds(region), isCut: false });
  }

  cutOut(region: Region): void {
    this.strokes.push({ region, box: regionBounds(region), isCut: true });
  }

  regions(): Region[] {
    return uniteRegions(this.carriedOut(this.strokes));
  }

  private carriedOut(strokes: readonly Stroke[]): readonly Region[] {
    const isMore = this.last.strokes.every((stroke, i) => stroke === strokes[i]);
    let regions = isMore ? this.last.regions : [];
    for (const round of rounds(isMore ? strokes.slice(this.last.strokes.length) : strokes)) {
      const [cuts, added] = [true, false].map((isCut) =>
        round.filter((stroke) => stroke.isCut === isCut).map((stroke) => stroke.region),
      );
      regions = withoutCuts([...regions, ...added], cuts);
    }
    this.last = { strokes, regions };
    return regions;
  }
}

/** Regions less the cuts; those that no cut reaches are left as they are, for clipping grows with all that it is given. */
function withoutCuts(regions: readonly Region[], cuts: readonly Region[]): Region[] {
  const isReached = (region: Region) => cuts.some((cut) => mayMeet(region, cut));
  const reached = new Set(regions.filter(isReached));
  const apart = regions.filter((region) => !reached.has(region));
  return reached.size === 0 ? apart : [...apart, ...combineRegions('difference', [...reached], cuts)];
}

/** Strokes in as few rounds as do: of one round any may come first, for an addition and a cut that meet are not in it. */
function rounds(strokes: readonly Stroke[]): Stroke[][] {
  const all: Stroke[][] = [];
  const roundOf = new Map<Stroke, number>();
  for (const stroke of strokes) {
    let own = 0;
    for (const [earlier, round] of roundOf)
      if (boxesMeet(earlier.box, stroke.box))
        own = Math.max(own, round + (earlier.isCut === stroke.isCut ? 0 : 1));
    roundOf.set(stroke, own);
    all[own] ??= [];
    all[own].push(stroke);
  }
  return all;
}
