import type { Point } from '../../geometry/shapes.ts';
import type { Stop, Visit } from './stops.ts';

/** Longest run of stops that Or-opt moves elsewhere. */
const LONGEST_RUN = 3;
/** A gain below this is rounding, mm. */
const LEAST_GAIN = 1e-9;
/**
 * Places of the order that are looked at, or passed over, together. What follows one another lies together on the board,
 * so most blocks are too far away to gain anything; fewer places in one are more boxes to ask, more are larger boxes.
 */
const BLOCK = 32;

/**
 * An order of stops under change: every stop goes in by one gate and out by the same. All gates lie one after the
 * other in flat arrays; place 0 of the order is the fixed start, whose gate is the last one.
 *
 * An order is held as gates, not as stops: a gate says which cut it is and which way it is sawn, and reversing a run of
 * the order means the reverse of each gate in it. That keeps both moves below exact for cuts with two ends, whose way in
 * and way out lie apart, where moves made for points would price them wrongly.
 *
 * Both moves look at every pair of places, and on a board of thousands of cuts that takes minutes. No pair gains whose
 * new joint is longer than the two joints it replaces; for a whole block of places that is told by its box and its
 * longest joint. What is passed over would have been refused one by one, so the order found is the same.
 */
export class Tour {
  private readonly count: number;
  private readonly firstGate: Int32Array;
  private readonly coordinates: Float64Array;
  private readonly reverse: Int32Array;
  private readonly stopOf: Int32Array;
  /** Gate at each place of the order, from place 1. */
  private readonly at: Int32Array;
  private readonly scratch: Int32Array;
  /** Length of the joint from each place to the next, mm; 0 after the last place. Kept by {@link measure}. */
  private readonly joint: Float64Array;
  /** Of each block: box of where its gates leave (least x, least y, greatest x, greatest y), and its longest joint, mm. */
  private readonly boxes: Float64Array;
  private readonly longest: Float64Array;

  constructor(stops: readonly Stop[], start: Point) {
    this.count = stops.length;
    this.firstGate = new Int32Array(stops.length + 1);
    stops.forEach(({ gates }, i) => {
      this.firstGate[i + 1] = this.firstGate[i] + gates.length;
    });
    const gates = this.firstGate[stops.length];
    this.coordinates = new Float64Array(4 * (gates + 1));
    this.reverse = new Int32Array(gates + 1);
    this.stopOf = new Int32Array(gates + 1).fill(-1);
    stops.forEach((stop, i) => {
      stop.gates.forEach(({ from, to, reverse }, k) => {
        const gate = this.firstGate[i] + k;
        this.coordinates.set([from[0], from[1], to[0], to[1]], 4 * gate);
        this.reverse[gate] = this.firstGate[i] + reverse;
        this.stopOf[gate] = i;
      });
    });
    this.coordinates.set([start[0], start[1], start[0], start[1]], 4 * gates);
    this.reverse[gates] = gates;
    this.at = new Int32Array(this.count + 1);
    this.at[0] = gates;
    this.scratch = new Int32Array(this.count + 1);
    const blocks = Math.floor(this.count / BLOCK) + 1;
    this.joint = new Float64Array(this.count + 1);
    this.boxes = new Float64Array(4 * blocks);
    this.longest = new Float64Array(blocks);
  }

  /** The order as it stands. */
  visits(): Visit[] {
    return Array.from(this.at.subarray(1), (gate) => {
      const stop = this.stopOf[gate];
      return { stop, gate: gate - this.firstGate[stop] };
    });
  }

  /** Takes over an order. */
  set(visits: readonly Visit[]): void {
    visits.forEach(({ stop, gate }, i) => {
      this.at[i + 1] = this.firstGate[stop] + gate;
    });
  }

  /** Always on to the nearest gate of a stop not yet visited. */
  nearestNeighbour(): void {
    const done = new Uint8Array(this.count);
    const gates = this.firstGate[this.count];
    for (let place = 1; place <= this.count; place++) {
      let nearest = -1;
      let least = Number.POSITIVE_INFINITY;
      for (let gate = 0; gate < gates; gate++) {
        if (done[this.stopOf[gate]] === 1) continue;
        const distance = this.between(this.at[place - 1], gate);
        if (distance >= least) continue;
        least = distance;
        nearest = gate;
      }
      this.at[place] = nearest;
      done[this.stopOf[nearest]] = 1;
    }
  }

  /** Changes the order until no reversal, no moved run and no other gates make it shorter. */
  improve(): void {
    do {
      this.measure(0, this.count);
      while (this.reverseRuns() || this.moveRuns());
    } while (this.chooseGates());
  }

  /**
   * Exchanges the two middle pieces of four and enters some of their stops by other gates, and so leaves a minimum
   * that neither reversals nor other gates alone can leave.
   */
  exchangePieces(random: (below: number) => number): void {
    const { at, firstGate, stopOf } = this;
    const [a, b, c] = [0, 1, 2].map(() => 1 + random(this.count + 1)).sort((one, two) => one - two);
    at.set([...at.subarray(b, c), ...at.subarray(a, b)], a);
    for (let place = a; place < c; place++) {
      const stop = stopOf[at[place]];
      if (random(2) === 1) at[place] = firstGate[stop] + random(firstGate[stop + 1] - firstGate[stop]);
    }
  }

  /** Distance from where gate a leaves to where gate b enters. */
  private between(a: number, b: number): number {
    const p = this.coordinates;
    const dx = p[4 * b] - p[4 * a + 2];
    const dy = p[4 * b + 1] - p[4 * a + 3];
    return Math.sqrt(dx * dx + dy * dy);
  }

  /** Measures joints and blocks again after the places from `first` to `last` have changed. */
  private measure(first: number, last: number): void {
    const { at, boxes, coordinates: p, count, joint, longest } = this;
    // The joint into the first of them has changed too.
    const from = Math.max(0, first - 1);
    for (let place = from; place <= last; place++)
      joint[place] = place < count ? this.between(at[place], at[place + 1]) : 0;
    for (let block = Math.floor(from / BLOCK); block * BLOCK <= last; block++) {
      let minX = Number.POSITIVE_INFINITY;
      let minY = Number.POSITIVE_INFINITY;
      let maxX = Number.NEGATIVE_INFINITY;
      let maxY = Number.NEGATIVE_INFINITY;
      let most = 0;
      const end = Math.min(count, (block + 1) * BLOCK - 1);
      for (let place = block * BLOCK; place <= end; place++) {
        const x = p[4 * at[place] + 2];
        const y = p[4 * at[place] + 3];
        if (x < minX) minX = x;
        if (x > maxX) maxX = x;
        if (y < minY) minY = y;
        if (y > maxY) maxY = y;
        if (joint[place] > most) most = joint[place];
      }
      boxes[4 * block] = minX;
      boxes[4 * block + 1] = minY;
      boxes[4 * block + 2] = maxX;
      boxes[4 * block + 3] = maxY;
      longest[block] = most;
    }
  }

  /**
   * True when no joint between (x, y) and where a gate of the block leaves is shorter than `spare`, mm, and the joint
   * after that gate together.
   */
  private isBeyond(block: number, x: number, y: number, spare: number): boolean {
    const { boxes } = this;
    const dx = Math.max(0, boxes[4 * block] - x, x - boxes[4 * block + 2]);
    const dy = Math.max(0, boxes[4 * block + 1] - y, y - boxes[4 * block + 3]);
    const reach = spare + this.longest[block];
    return dx * dx + dy * dy >= reach * reach;
  }

  /**
   * 2-opt (Croes 1958): reverses places i to k when that is shorter. Only the two joints at the ends change their length:
   * inside the run each way is gone the other way round. The end of the order is free, so the last joint may be missing.
   */
  private reverseRuns(): boolean {
    const { at, coordinates: p, count, joint, reverse } = this;
    let improved = false;
    for (let i = 1; i < count; i++) {
      for (let k = i + 1; k <= count; k++) {
        // A gate that is sawn the other way is entered where it would have left.
        const before = 4 * at[i - 1] + 2;
        const block = Math.floor(k / BLOCK);
        if (
          (k % BLOCK === 0 || k === i + 1) &&
          this.isBeyond(block, p[before], p[before + 1], joint[i - 1])
        ) {
          k = (block + 1) * BLOCK - 1;
          continue;
        }
        let gain = this.between(at[i - 1], at[i]) - this.between(at[i - 1], reverse[at[k]]);
        if (k < count) gain += this.between(at[k], at[k + 1]) - this.between(reverse[at[i]], at[k + 1]);
        if (gain <= LEAST_GAIN) continue;
        this.turn(i, k);
        this.measure(i, k);
        improved = true;
      }
    }
    return improved;
  }

  /** Reverses places i to k, each cut sawn the other way; the one in the middle of an odd run is turned in its place. */
  private turn(i: number, k: number): void {
    const { at, reverse } = this;
    for (let low = i, high = k; low <= high; low++, high--) {
      const swapped = reverse[at[low]];
      at[low] = reverse[at[high]];
      at[high] = swapped;
    }
  }

  /**
   * Or-opt (Or 1976): moves a run of up to three stops to where it costs less, either way round. The first place found is
   * taken, not the best: the passes are repeated until no place is left that gains.
   */
  private moveRuns(): boolean {
    const { count } = this;
    let improved = false;
    for (let length = 1; length <= LONGEST_RUN; length++) {
      for (let i = 1; i + length - 1 <= count; i++) {
        if (this.moveRun(i, length)) improved = true;
      }
    }
    return improved;
  }

  private moveRun(i: number, length: number): boolean {
    const { at, coordinates: p, count, joint, reverse } = this;
    const last = i + length - 1;
    const head = at[i];
    const tail = at[last];
    let saved = this.between(at[i - 1], head);
    if (last < count) saved += this.between(tail, at[last + 1]) - this.between(at[i - 1], at[last + 1]);
    const [ahead, behind] = [4 * head, 4 * reverse[tail]];
    for (let j = 0; j <= count; j++) {
      const block = Math.floor(j / BLOCK);
      if (
        j % BLOCK === 0 &&
        this.isBeyond(block, p[ahead], p[ahead + 1], saved) &&
        this.isBeyond(block, p[behind], p[behind + 1], saved)
      ) {
        j += BLOCK - 1;
        continue;
      }
      // Between place j and the next, which must not be inside the run or beside it.
      if (j >= i - 1 && j <= last) continue;
      const open = joint[j];
      const plain = this.between(at[j], head) + (j < count ? this.between(tail, at[j + 1]) : 0) - open;
      const turned =
        this.between(at[j], reverse[tail]) + (j < count ? this.between(reverse[head], at[j + 1]) : 0) - open;
      if (saved - Math.min(plain, turned) <= LEAST_GAIN) continue;
      if (turned < plain) this.turn(i, last);
      this.shift(i, length, j);
      this.measure(Math.min(i, j + 1), Math.max(last, j));
      return true;
    }
    return false;
  }

  /** Takes the run out and sets it in after what stands at place j. */
  private shift(i: number, length: number, j: number): void {
    const { at, scratch } = this;
    scratch.set(at.subarray(i, i + length));
    if (j < i) {
      at.copyWithin(j + 1 + length, j + 1, i);
      at.set(scratch.subarray(0, length), j + 1);
    } else {
      at.copyWithin(i, i + length, j + 1);
      at.set(scratch.subarray(0, length), j + 1 - length);
    }
  }

  /**
   * The best gates for the order as it stands, by a shortest path through them, place by place; true when that is
   * shorter. `cost` needs no clearing between stops: a stop stands in the order once, so each gate is written once.
   */
  private chooseGates(): boolean {
    const { at, count, firstGate, stopOf } = this;
    const cost = new Float64Array(firstGate[count]);
    const before = new Int32Array(firstGate[count]);
    let present = 0;
    for (let place = 1; place <= count; place++) {
      present += this.between(at[place - 1], at[place]);
      const stop = stopOf[at[place]];
      for (let gate = firstGate[stop]; gate < firstGate[stop + 1]; gate++) {
        cost[gate] = Number.POSITIVE_INFINITY;
        const last = place === 1 ? -1 : stopOf[at[place - 1]];
        const from = last < 0 ? at[0] : firstGate[last];
        const to = last < 0 ? at[0] + 1 : firstGate[last + 1];
        for (let earlier = from; earlier < to; earlier++) {
          const sum = (last < 0 ? 0 : cost[earlier]) + this.between(earlier, gate);
          if (sum >= cost[gate]) continue;
          cost[gate] = sum;
          before[gate] = earlier;
        }
      }
    }
    const lastStop = stopOf[at[count]];
    let gate = firstGate[lastStop];
    for (let g = gate + 1; g < firstGate[lastStop + 1]; g++) if (cost[g] < cost[gate]) gate = g;
    if (present - cost[gate] <= LEAST_GAIN) return false;
    for (let place = count; place >= 1; place--) {
      at[place] = gate;
      gate = before[gate];
    }
    return true;
  }
}
