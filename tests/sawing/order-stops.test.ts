import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/shapes.ts';
import { orderStops } from '../../src/sawing/order/order-stops.ts';
import { type Stop, travelOf, type Visit } from '../../src/sawing/order/stops.ts';
import { Tour } from '../../src/sawing/order/tour.ts';
import { outsideCheck } from '../outside-check.ts';
import { seeded } from '../seeded.ts';

/** Holes with one gate, veins with two, outlines with several. */
function randomStops(count: number, random: () => number): Stop[] {
  const point = (x: number, y: number, reach: number): Point => [x + reach * random(), y + reach * random()];
  return Array.from({ length: count }, () => {
    const [x, y] = [1000 * random(), 200 * random()];
    const kind = random();
    if (kind < 0.4) {
      const at = point(x, y, 1);
      return { gates: [{ from: at, to: at, reverse: 0 }] };
    }
    if (kind < 0.7) {
      const [a, b] = [point(x, y, 1), point(x, y, 60)];
      return {
        gates: [
          { from: a, to: b, reverse: 1 },
          { from: b, to: a, reverse: 0 },
        ],
      };
    }
    return {
      gates: [0, 1, 2, 3].map((reverse) => {
        const at = point(x, y, 50);
        return { from: at, to: at, reverse };
      }),
    };
  });
}

const START: Point = [0, 200];

/** Two instances of TSPLIB (Reinelt 1991), x and y of one city after the other. */
const BERLIN52 =
  '565 575 25 185 345 750 945 685 845 655 880 660 25 230 525 1000 580 1175 650 1130 1605 620 1220 580 1465 200 1530 5 845 680 725 370 145 665 415 635 510 875 560 365 300 465 520 585 480 415 835 625 975 580 1215 245 1320 315 1250 400 660 180 410 250 420 555 575 665 1150 1160 700 580 685 595 685 610 770 610 795 645 720 635 760 650 475 960 95 260 875 920 700 500 555 815 830 485 1170 65 830 610 605 625 595 360 1340 725 1740 245';
const EIL51 =
  '37 52 49 49 52 64 20 26 40 30 21 47 17 63 31 62 52 33 51 21 42 41 31 32 5 25 12 42 36 16 52 41 27 23 17 33 13 13 57 58 62 42 42 57 16 57 8 52 7 38 27 68 30 48 43 67 58 48 58 27 37 69 38 46 46 10 61 33 62 63 63 69 32 22 45 35 59 15 5 6 10 17 21 10 5 64 30 15 39 10 32 39 25 32 25 55 48 28 56 37 30 40';

/**
 * Length of the round trip that our order makes through the cities, by the rule of TSPLIB: every leg rounded to a
 * whole number. It starts in the first city; a stop there that leads far away is bound to be the last, so that the
 * open order becomes a closed one.
 */
function roundTrip(coordinates: string): number {
  const numbers = coordinates.split(' ').map(Number);
  const cities = numbers.flatMap((x, i): Point[] => (i % 2 === 0 ? [[x, numbers[i + 1]]] : []));
  const [first, ...others] = cities;
  const stops = others.map((at): Stop => ({ gates: [{ from: at, to: at, reverse: 0 }] }));
  const away: Point = [1e7, 1e7];
  const home: Stop = {
    gates: [
      { from: first, to: away, reverse: 1 },
      { from: away, to: first, reverse: 0 },
    ],
  };
  const visits = orderStops([...stops, home], first);
  expect(visits.at(-1)).toEqual({ stop: stops.length, gate: 0 });
  const trip = [first, ...visits.map(({ stop }) => others[stop] ?? first)];
  return trip
    .slice(1)
    .reduce((sum, [x, y], i) => sum + Math.round(Math.hypot(x - trip[i][0], y - trip[i][1])), 0);
}

/** The shortest of all orders and gates, by trying every one. */
function enumerated(stops: readonly Stop[]): number {
  let best = Number.POSITIVE_INFINITY;
  const visit = (left: readonly number[], [x, y]: Point, length: number): void => {
    if (length >= best) return;
    if (left.length === 0) best = length;
    for (const stop of left) {
      for (const { from, to } of stops[stop].gates)
        visit(
          left.filter((other) => other !== stop),
          to,
          length + Math.hypot(from[0] - x, from[1] - y),
        );
    }
  };
  visit(
    stops.map((_, i) => i),
    START,
    0,
  );
  return best;
}

/** Simulated annealing with a slow schedule: long, plain, and no relation of the search under test. */
function annealed(stops: readonly Stop[], random: () => number, steps: number): number {
  let order: Visit[] = stops.map((_, stop) => ({ stop, gate: 0 }));
  let length = travelOf(stops, order, START);
  let best = length;
  for (let step = 0; step < steps; step++) {
    const temperature = 150 * 1e-3 ** (step / steps);
    const i = Math.floor(random() * stops.length);
    const k = i + Math.floor(random() * (stops.length - i));
    const kind = random();
    let next: Visit[];
    if (kind < 0.5) {
      const turned = order
        .slice(i, k + 1)
        .reverse()
        .map(({ stop, gate }) => ({ stop, gate: stops[stop].gates[gate].reverse }));
      next = [...order.slice(0, i), ...turned, ...order.slice(k + 1)];
    } else if (kind < 0.8) {
      const rest = order.filter((_, j) => j !== i);
      const to = Math.floor(random() * stops.length);
      next = [...rest.slice(0, to), order[i], ...rest.slice(to)];
    } else {
      next = order.map((visit, j) =>
        j === i ? { stop: visit.stop, gate: Math.floor(random() * stops[visit.stop].gates.length) } : visit,
      );
    }
    const after = travelOf(stops, next, START);
    if (after > length && random() >= Math.exp((length - after) / temperature)) continue;
    order = next;
    length = after;
    best = Math.min(best, length);
  }
  return best;
}

function checked(stops: readonly Stop[]): number {
  const visits = orderStops(stops, START);
  expect(visits.map(({ stop }) => stop).sort((a, b) => a - b)).toEqual(stops.map((_, i) => i));
  return travelOf(stops, visits, START);
}

describe('the order of stops', () => {
  it('is the shortest there is for up to nine, by trying every order', () => {
    const random = seeded(7);
    for (const count of [1, 2, 3, 4, 5, 6, 7, 7, 8, 8]) {
      const stops = randomStops(count, random);
      expect(checked(stops)).toBeCloseTo(enumerated(stops), 9);
    }
  });

  it('leaves no reversed or moved run that would be shorter, wherever on the board, by trying every one', () => {
    const stops = randomStops(500, seeded(5));
    const tour = new Tour(stops, START);
    tour.nearestNeighbour();
    tour.improve();
    const gates = tour.visits().map(({ stop, gate }) => stops[stop].gates[gate]);
    const count = gates.length;
    // Where the blade comes from and goes to at each place; place 0 is the start, and nothing comes after the last.
    const leave = [START, ...gates.map(({ to }) => to)];
    const enter = [START, ...gates.map(({ from }) => from)];
    const joint = (from: Point, to: Point | undefined) =>
      to === undefined ? 0 : Math.hypot(from[0] - to[0], from[1] - to[1]);
    let most = 0;
    for (let i = 1; i <= count; i++)
      for (let last = i; last <= count; last++) {
        const ends = joint(leave[i - 1], enter[i]) + joint(leave[last], enter[last + 1]);
        most = Math.max(most, ends - joint(leave[i - 1], leave[last]) - joint(enter[i], enter[last + 1]));
        if (last > i + 2) continue;
        const saved = ends - joint(leave[i - 1], enter[last + 1]);
        for (let j = 0; j <= count; j++) {
          if (j >= i - 1 && j <= last) continue;
          const open = joint(leave[j], enter[j + 1]);
          const plain = joint(leave[j], enter[i]) + joint(leave[last], enter[j + 1]) - open;
          const turned = joint(leave[j], leave[last]) + joint(enter[i], enter[j + 1]) - open;
          most = Math.max(most, saved - Math.min(plain, turned));
        }
      }
    expect(most).toBeLessThan(1e-6);
  });

  it('is the shortest found by anyone, within 5 %, for more', () => {
    const random = seeded(11);
    const worst = [12, 20, 35, 60].map((count) => {
      const stops = randomStops(count, random);
      const ours = checked(stops);
      const theirs = Math.min(...[1, 2].map((seed) => annealed(stops, seeded(seed), 60_000)));
      return ours / Math.min(ours, theirs);
    });
    console.info(`Travel against the best found: ${worst.map((ratio) => ratio.toFixed(4)).join(', ')}`);
    expect(Math.max(...worst)).toBeLessThanOrEqual(1.05);
  });

  it('is within 5 % of the best round trips known of two published instances', () => {
    for (const [name, coordinates, best] of [
      ['berlin52', BERLIN52, 7542],
      ['eil51', EIL51, 426],
    ] as const)
      outsideCheck({
        what: `Length of the round trip of TSPLIB instance ${name}, legs rounded, at most 5 % over the best known`,
        source: 'TSPLIB (Reinelt 1991), best known and proved optimal',
        expected: best,
        found: roundTrip(coordinates),
        tolerance: 0.05 * best,
      });
  });

  it('follows a line of holes from end to end, forward and back, whatever their order', () => {
    const holes = [5, 2, 11, 8, 1, 9, 3, 12, 7, 4, 10, 6].map((x): Stop => {
      const at: Point = [100 * x, 200];
      return { gates: [{ from: at, to: at, reverse: 0 }] };
    });
    expect(checked(holes)).toBeCloseTo(1200, 9);
  });

  it('handles hundreds of cuts and the empty board', () => {
    expect(orderStops([], START)).toEqual([]);
    expect(checked(randomStops(300, seeded(3)))).toBeGreaterThan(0);
  });
});
