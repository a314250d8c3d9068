import type { Arrangement } from '../arrangement/arrangement.ts';
import { FULLEST } from '../problem/board-choices.ts';
import type { Random } from '../running/random.ts';
import type { FillingChoice } from './filling-choices.ts';
import { type Filling, type Fillings, keyOf, type Wanted } from './fillings.ts';

/** Which board of a choice to fill otherwise: some of its copies taken off, and some of those that lack put on. */

/** Changes looked at, of which the most hopeful is tried. */
const DRAWN = 24;

/** Copies taken off a board at most, and put on it. */
const MOST_TAKEN_OFF = 3;
const MOST_PUT_ON = 8;

/** Share of a board by which every change is taken to fill it more: an easy one is not sure to come out. */
const MORE_AT_LEAST = 0.02;

/** A smaller gain, as a share of the board, is one of rounding. */
const LEAST_GAIN = 1e-9;

/** What came of the tries of a filling so far. */
export interface TriedFilling {
  readonly times: number;
  /** Overlap left by the try that came nearest, mm. */
  readonly overlap: number;
  /** The copies as that try left them. */
  readonly nearest: Arrangement | undefined;
}

/** What is known of fillings that came out, and of others that did not. */
export interface Experience {
  readonly fillings: Fillings;
  /** By {@link keyOf}. */
  readonly tried: ReadonlyMap<string, TriedFilling>;
  /** Overlap that first tries leave on average, mm. */
  readonly usualOverlap: number;
}

/** A change of one filling of a choice. */
export interface Change {
  readonly place: number;
  readonly wanted: Wanted;
}

/**
 * The most hopeful of some changes that leave less area without a place; undefined when none is found. What is known to fit comes
 * first, then what gives a place to much area and fills its board little more than it is, or was nearly set apart before.
 */
export function changeOfFilling(
  { fillings: chosen, surplus }: FillingChoice,
  { fillings, tried, usualOverlap }: Experience,
  random: Random,
): Change | undefined {
  let found: Change | undefined;
  let most = 0;
  for (let drawn = 0; drawn < DRAWN; drawn++) {
    const place = random.below(chosen.length);
    const before = chosen[place];
    const { gain, area, counts } = drawnChange(before, surplus, fillings, random);
    if (gain === 0) continue;
    const wanted = { kind: before.kind, counts };
    if (fillings.find(wanted) !== undefined) return { place, wanted };
    const more = Math.max(0, area - before.area) / fillings.kinds[before.kind][0].area;
    const known = tried.get(keyOf(wanted));
    const doubt = known === undefined ? 2 : (1 + known.overlap / usualOverlap) * known.times;
    const hope = gain / (MORE_AT_LEAST + more) / doubt;
    if (hope <= most) continue;
    most = hope;
    found = { place, wanted };
  }
  return found;
}

/** A change at random: what is too much goes, then some copies, and those that lack come until less area lacks than before. */
function drawnChange(
  before: Filling,
  surplus: Int32Array,
  fillings: Fillings,
  random: Random,
): { readonly counts: Int32Array; readonly area: number; readonly gain: number } {
  const { shapes } = fillings.problem;
  const counts = before.counts.slice();
  const over = surplus.slice();
  const room = FULLEST * fillings.kinds[before.kind][0].area;
  let { area } = before;
  let gain = 0;
  const takeOff = (s: number) => {
    counts[s]--;
    area -= shapes[s].area;
    if (--over[s] < 0) gain -= shapes[s].area;
  };
  for (const s of counts.keys()) while (counts[s] > 0 && over[s] > 0) takeOff(s);
  const off = random.below(MOST_TAKEN_OFF + 1);
  for (let n = 0; n < off; n++) {
    const lying = [...counts.keys()].filter((s) => counts[s] > 0);
    if (lying.length > 0) takeOff(lying[random.below(lying.length)]);
  }
  for (let n = 0; n < MOST_PUT_ON && gain <= LEAST_GAIN * room; n++) {
    const lacking = [...counts.keys()].filter(
      (s) => over[s] < 0 && area + shapes[s].area <= room && fillings.mayLie(s, before.kind),
    );
    if (lacking.length === 0) break;
    const s = lacking[random.below(lacking.length)];
    counts[s]++;
    area += shapes[s].area;
    over[s]++;
    gain += shapes[s].area;
  }
  return { counts, area, gain: gain > LEAST_GAIN * room ? gain : 0 };
}
