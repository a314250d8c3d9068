import { FULLEST } from '../problem/board-choices.ts';
import type { Random } from '../running/random.ts';
import type { FailedTries } from './failed-tries.ts';
import type { FillingChoice } from './filling-choices.ts';
import { type Filling, type Fillings, holds, type Wanted } from './fillings.ts';

/** Which board of a choice to fill otherwise: some of its copies taken off, and some of those that lack put on. */

/** Changes looked at, of which the most hopeful is tried. */
const DRAWN = 24;

/** Copies taken off a board at most, and put on it. */
const MOST_TAKEN_OFF = 3;
const MOST_PUT_ON = 8;

/** Share of a board by which every change is taken to fill it more: an easy one is not sure to come out. */
const MORE_AT_LEAST = 0.02;

/** A smaller gain, as a share of the board or of what lacks, is one of rounding. */
const LEAST_GAIN = 1e-9;

/** What came of the tries of a filling so far. */
export interface TriedFilling {
  readonly wanted: Wanted;
  readonly times: number;
  /** Overlap left by the try that came nearest, mm. */
  readonly overlap: number;
  /** The copies as the tries left them. */
  readonly failed: FailedTries;
  /** Whether the last try came nearer than those before. */
  readonly cameNearer: boolean;
}

/** What is known of fillings that came out, and of others that did not. */
export interface Experience {
  readonly fillings: Fillings;
  /** By {@link keyOf}. */
  readonly tried: ReadonlyMap<string, TriedFilling>;
  /** Overlap that first tries leave on average, mm. */
  readonly usualOverlap: number;
}

/** A change of a filling of a choice. */
export interface Change {
  readonly choice: FillingChoice;
  readonly before: Filling;
  readonly wanted: Wanted;
}

/**
 * The most hopeful of some changes that leave less area without a place; undefined when none is found. What is known to fit comes
 * first, then what gives a place to much of the area that lacks and fills its board little more than it is, or was nearly set
 * apart before.
 */
export function changeOfFilling(
  choices: readonly FillingChoice[],
  { fillings, tried, usualOverlap }: Experience,
  random: Random,
): Change | undefined {
  let found: Change | undefined;
  let most = 0;
  for (let drawn = 0; drawn < DRAWN; drawn++) {
    const choice = nearerOfTwo(choices, random);
    const place = random.below(choice.fillings.length);
    const before = choice.fillings[place];
    const { area, counts } = drawnChange(before, choice.surplus, fillings, random);
    const gain = gainOf(choice, before.kind, counts, fillings);
    if (gain <= LEAST_GAIN * choice.lack) continue;
    const wanted = { kind: before.kind, counts };
    const holding = fillings.holding(wanted);
    if (holding !== undefined) return { choice, before, wanted: holding };
    const more = Math.max(0, area - before.area) / fillings.kinds[before.kind][0].area;
    const hope = gain / choice.lack / (MORE_AT_LEAST + more) / doubtOf(wanted, tried, usualOverlap);
    if (hope <= most) continue;
    most = hope;
    found = { choice, before, wanted };
  }
  return found;
}

/** How much is to be doubted that a filling comes out: what was tried in vain to hold some of its copies was tried for it too. */
function doubtOf(wanted: Wanted, tried: ReadonlyMap<string, TriedFilling>, usualOverlap: number): number {
  let times = 0;
  let overlap = 0;
  for (const known of tried.values()) {
    if (!holds(wanted, known.wanted)) continue;
    times += known.times;
    overlap = Math.max(overlap, known.overlap);
  }
  return times === 0 ? 2 : (1 + overlap / usualOverlap) * times;
}

/** Of two choices at random the one that lacks less. */
function nearerOfTwo(choices: readonly FillingChoice[], random: Random): FillingChoice {
  const one = choices[random.below(choices.length)];
  const other = choices[random.below(choices.length)];
  return one.lack < other.lack ? one : other;
}

/** Area that gets a place in a choice, mm2, when boards of a kind are filled otherwise, as many as it is of use to. */
function gainOf(
  { fillings: chosen, surplus }: FillingChoice,
  kind: number,
  counts: Int32Array,
  { problem }: Fillings,
): number {
  const now = surplus.slice();
  let sum = 0;
  for (const before of chosen) {
    if (before.kind !== kind) continue;
    let gain = 0;
    for (let s = 0; s < now.length; s++) {
      const after = now[s] + counts[s] - before.counts[s];
      gain += (Math.min(0, after) - Math.min(0, now[s])) * problem.shapes[s].area;
    }
    if (gain <= 0) continue;
    sum += gain;
    for (let s = 0; s < now.length; s++) now[s] += counts[s] - before.counts[s];
  }
  return sum;
}

/** A change at random: what is too much goes, then some copies, and those that lack come until less area lacks than before. */
function drawnChange(
  before: Filling,
  surplus: Int32Array,
  fillings: Fillings,
  random: Random,
): { readonly counts: Int32Array; readonly area: number } {
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
  return { counts, area };
}
