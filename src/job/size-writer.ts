import { areCrossingFree } from '../geometry/crossing-free.ts';
import { isBox, ringArea } from '../geometry/ring.ts';
import { boundsOf, type Point, type Ring } from '../geometry/shapes.ts';
import { faultOf } from '../geometry/sound-region.ts';
import { withoutSpikes } from '../geometry/spikes.ts';
import type { Trim } from '../model/stock.ts';
import { type DisplayUnit, MM_PER_UNIT } from '../units/length.ts';
import type { RawEntry } from './rack.ts';

/** As fine as a person can measure: steps of a mm, and with them of a mm2. */
export const STEPS_PER_MM = 100;

/** Steps to which lengths are written: about as fine in both units. */
const STEPS = { mm: STEPS_PER_MM, in: 1000 } as const;

/** So much finer is a thickness: 3/8 in is 9.525 mm, and 13/16 in is 0.8125 in. */
const THICKNESS_FINER = 10;

/** How fine outlines are written: those that rounding would spoil finer than others. */
const FINENESS = [1, 10, 100, 1000] as const;
const FINEST = 1000;

/** Writes the sizes of new entries of a rack, in the unit the maker reads and writes. */
export class SizeWriter {
  readonly #unit: DisplayUnit;

  constructor(unit: DisplayUnit) {
    this.#unit = unit;
  }

  /** A length as it stands in the file: a number of mm, or a text that names inches. */
  length(mm: number): number | string {
    return this.#text(this.#inUnit(mm, 1));
  }

  /** A thickness as it stands in the file, finer than other lengths. */
  thickness(mm: number): number | string {
    return this.#text(this.#inUnit(mm, THICKNESS_FINER));
  }

  /** Length and width of an upright rectangle; the outline of anything else, moved to the origin. */
  size(outline: Ring): RawEntry {
    // Rounded first: a side that is bent by less than a person can measure is straight.
    const ring = this.#readable(outline);
    const { maxX, maxY } = boundsOf(ring);
    return isBox(ring)
      ? { length: this.#text(maxX), width: this.#text(maxY) }
      : { outline: ring.map(([x, y]) => [this.#text(x), this.#text(y)]) };
  }

  /** Holes, knots and the like of a new entry, if there are any: as the outline, they are told from its own corner. */
  defects(outline: Ring, rings: readonly Ring[]): RawEntry {
    const moved = rings.map((ring) => this.#movedTo(outline, ring, 1));
    // What rounding leaves nothing of is none, and would be refused.
    const left = moved.filter((ring) => ringArea(ring) * STEPS[this.#unit] ** 2 >= 1);
    if (left.length === 0) return {};
    return {
      defects: left.map((ring) => ({ outline: ring.map(([x, y]) => [this.#text(x), this.#text(y)]) })),
    };
  }

  /** What is still to be taken off the sides of a new entry, if there is anything. */
  trim(trim: Trim | undefined): RawEntry {
    const sides = Object.entries(trim ?? {}).filter(([, width]) => width !== 0);
    if (sides.length === 0) return {};
    return {
      trim: Object.fromEntries(
        sides.map(([side, width]) => [side, width === 'clean' ? width : this.length(width)]),
      ),
    };
  }

  /**
   * An outline moved to the origin that can be read again: where sides lie nearer to one another than a person can measure,
   * rounding may lay them on top of one another or across, and they are written finer.
   */
  #readable(outline: Ring): Ring {
    const mm = MM_PER_UNIT[this.#unit];
    const written = (fine: number): Ring =>
      withoutSpikes([{ outline: this.#movedTo(outline, outline, fine), openings: [] }])[0].outline;
    const inMm = (fine: number): Ring => written(fine).map(([x, y]) => [x * mm, y * mm]);
    return written(
      // Told to the last crossing: what is read again with less care than that cannot be checked once it is laid out on.
      FINENESS.find((fine) => areCrossingFree([inMm(fine)])) ??
        // Of many short sides beside one another, as at a jagged end, that is certain at no fineness.
        FINENESS.find((fine) => faultOf({ outline: inMm(fine), openings: [] }) === undefined) ??
        FINEST,
    );
  }

  /** A ring with the box of `outline` at the origin, in the unit, so many times as fine as lengths are written. */
  #movedTo(outline: Ring, ring: Ring, finer: number): Point[] {
    const { minX, minY } = boundsOf(outline);
    return ring.map(([x, y]) => [this.#inUnit(x - minX, finer), this.#inUnit(y - minY, finer)]);
  }

  #inUnit(mm: number, finer: number): number {
    const steps = STEPS[this.#unit] * finer;
    return Math.round((mm / MM_PER_UNIT[this.#unit]) * steps) / steps;
  }

  #text(value: number): number | string {
    return this.#unit === 'mm' ? value : `${value} in`;
  }
}

/** An area in mm2, as fine as lengths in mm are written. */
export function roundedArea(area: number): number {
  return Math.round(area * STEPS_PER_MM) / STEPS_PER_MM;
}
