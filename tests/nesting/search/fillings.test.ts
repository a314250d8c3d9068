import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { changeOfFilling, type TriedFilling } from '../../../src/nesting/search/change-of-filling.ts';
import { FailedTries } from '../../../src/nesting/search/failed-tries.ts';
import { FillingChoices } from '../../../src/nesting/search/filling-choices.ts';
import { Fillings } from '../../../src/nesting/search/fillings.ts';
import { rectangle } from '../../rectangle.ts';

const region = (length: number) => ({ outline: rectangle(length, 20), openings: [] });

/** Three long and three short bars on three boards of one length and one of another; two boards are filled. */
function twoFilled() {
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [50, 30].map((length) => {
    return { region: region(length), lies, stands: false, copies: 3, perSet: 1 };
  });
  const containers = [
    containerFrom(region(85), 10, 85),
    containerFrom(region(85), 10, 85),
    containerFrom({ outline: rectangle(40, 40), openings: [] }, 6, 40),
    containerFrom(region(85), 10, 85),
  ];
  const problem = new ProblemBuilder().build({ shapes, containers, gap: 0, margin: 0 });
  const arrangement = new Arrangement(6);
  // A long bar and a short one on the second board, a short one on the third.
  arrangement.container.set([1, -1, -1, 1, 2, -1]);
  arrangement.x.set([25, 0, 0, 65, 15, 0]);
  arrangement.y.fill(10);
  const fillings = new Fillings(problem);
  fillings.addFrom(arrangement);
  return { problem, fillings };
}

test('what lies on a board is known of its kind, and lies on another with other copies', () => {
  const { problem, fillings } = twoFilled();
  expect(fillings.kinds.map(({ length }) => length)).toEqual([3, 1]);
  // Beside an empty board of every kind.
  expect(fillings.all.filter(({ area }) => area > 0)).toMatchObject([
    { kind: 0, cost: 10, area: 1600 },
    { kind: 1, cost: 6, area: 600 },
  ]);
  const both = fillings.find({ kind: 0, counts: Int32Array.of(1, 1) })!;
  expect(fillings.find({ kind: 1, counts: Int32Array.of(1, 1) })).toBeUndefined();
  const { container, x } = fillings.arranged([both, both, both]);
  // Containers 0, 1 and 3 are the boards of that kind.
  expect([...container]).toEqual([0, 1, 3, 0, 1, 3]);
  expect([...x]).toEqual([25, 25, 25, 65, 65, 65]);
  expect([...fillings.asProblem(both).shapeOf]).toEqual([0, 1]);
  expect(problem.shapeOf.length).toBe(6);
});

test('a copy more than there are is left out of its filling', () => {
  const { fillings } = twoFilled();
  const short = fillings.find({ kind: 1, counts: Int32Array.of(0, 1) })!;
  const both = fillings.find({ kind: 0, counts: Int32Array.of(1, 1) })!;
  const { container } = fillings.arranged([short, both, both, both]);
  expect([...container]).toEqual([0, 1, 3, 2, 0, 1]);
});

test('choices cost less than is said, and lack what has no place in them', async () => {
  const { fillings } = twoFilled();
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(1000) };
  const choices = new FillingChoices(fillings, Int32Array.of(3, 3), new Random(1));
  await choices.putTogether(30.5, run);
  // Three boards of a long and a short bar each hold all.
  expect(choices.all).toContainEqual(
    expect.objectContaining({ cost: 30, surplus: Int32Array.of(0, 0), lack: 0 }),
  );
  await choices.putTogether(30, run);
  expect(choices.all.every(({ cost, lack }) => cost < 30 && lack > 0)).toBe(true);
  const choice = choices.all.find(({ cost }) => cost === 26)!;
  expect(choice).toMatchObject({ surplus: Int32Array.of(-1, 0), lack: 50 * 20 });
  // Two long bars are more than one of its boards holds, and the short board has the area of one, but not the length.
  const experience = { fillings, tried: new Map(), usualOverlap: 1 };
  expect(changeOfFilling([choice], experience, new Random(1))).toBeUndefined();
  await choices.putTogether(6, run);
  expect(choices.all).toEqual([]);
  expect(run.budget.done).toBeGreaterThan(0);
});

test('a filling that is known is taken before one that would have to be found, also one that holds more', () => {
  const { fillings } = twoFilled();
  const short = fillings.add({ kind: 0, counts: Int32Array.of(0, 1) }, new Arrangement(1));
  const both = fillings.find({ kind: 0, counts: Int32Array.of(1, 1) });
  const experience = { fillings, tried: new Map(), usualOverlap: 1 };
  const choice = { fillings: [short], cost: short.cost, surplus: Int32Array.of(-3, -2), lack: 4200 };
  for (let seed = 0; seed < 20; seed++) {
    // Also where only the long bar was drawn: it lies on the board beside a short one.
    expect(changeOfFilling([choice], experience, new Random(seed))!.wanted).toBe(both);
  }
});

test('a filling that is of use on several boards goes on all of them', async () => {
  const { fillings } = twoFilled();
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(1000) };
  const choices = new FillingChoices(fillings, Int32Array.of(3, 3), new Random(1));
  const short = fillings.add({ kind: 0, counts: Int32Array.of(0, 1) }, new Arrangement(1));
  const both = fillings.find({ kind: 0, counts: Int32Array.of(1, 1) })!;
  await choices.putTogether(30, run);
  const shorts = { fillings: [short, short, short], cost: 30, surplus: Int32Array.of(-3, 0), lack: 3000 };
  expect(choices.refilled(shorts, both)).toBe(true);
  const complete = choices.all.filter(({ lack }) => lack === 0);
  expect(complete.map((choice) => choice.fillings)).toEqual([[both, both, both]]);
  // Now all that comes of it is known.
  expect(choices.refilled(shorts, both)).toBe(false);
});

test('a stop is heard between two boards of a choice, of which hundreds take their time', async () => {
  const { fillings } = twoFilled();
  const stop = new AbortController();
  let breaths = 0;
  // Told to stop after the first board.
  class Breathless extends Pulse {
    override get due(): boolean {
      return true;
    }
    override async breathe(): Promise<void> {
      if (++breaths === 2) stop.abort();
    }
  }
  const run = { pulse: new Breathless(stop.signal), budget: new MoveBudget(1000) };
  const choices = new FillingChoices(fillings, Int32Array.of(3, 3), new Random(1));
  await choices.putTogether(30.5, run);
  expect(breaths).toBe(2);
  expect(choices.all.map((choice) => choice.fillings.length)).toEqual([1]);
});

test('a filling that goes on many boards is counted board by board, not all boards anew for each', () => {
  const { fillings } = twoFilled();
  let asked = 0;
  const short = {
    kind: 0,
    cost: 10,
    area: 600,
    layout: new Arrangement(1),
    get counts(): Int32Array {
      asked++;
      return Int32Array.of(0, 1);
    },
  };
  const both = fillings.find({ kind: 0, counts: Int32Array.of(1, 1) })!;
  const choices = new FillingChoices(fillings, Int32Array.of(3, 3), new Random(1));
  const boards = Array.from({ length: 100 }, () => short);
  const choice = { fillings: boards, cost: 1000, surplus: Int32Array.of(-150, 97), lack: 150_000 };
  expect(choices.refilled(choice, both)).toBe(true);
  expect(Math.min(...choices.all.map(({ lack }) => lack))).toBe(50_000);
  expect(asked).toBe(100);
});

test('where some copies were tried in vain more of them are doubted as well', () => {
  const fillings = new Fillings(twoFilled().problem);
  const filled = (...counts: readonly number[]) => {
    const layout = new Arrangement(counts[0]);
    return { kind: 0, counts: Int32Array.from(counts), layout, cost: 10, area: counts[0] * 1000 };
  };
  // A long and a short bar lack; the short one may go on either board, the long one on the empty board.
  const chosen = [filled(0, 0), filled(1, 0)];
  const choice = { fillings: chosen, cost: 20, surplus: Int32Array.of(-1, -1), lack: 1600 };
  const drawn = (tried: ReadonlyMap<string, TriedFilling>) =>
    Array.from({ length: 30 }, (_, seed) => {
      const experience = { fillings, tried, usualOverlap: 1 };
      return changeOfFilling([choice], experience, new Random(seed))!.wanted.counts.join(' ');
    });
  const inVain = { wanted: filled(0, 1), times: 9, overlap: 10, failed: new FailedTries(), cameNearer: true };
  const both = new Map([['0: 1 0', { ...inVain, wanted: filled(1, 0) }]]);
  expect(drawn(both).every((counts) => counts === '0 1')).toBe(true);
  expect(drawn(new Map([['0: 0 1', inVain]])).every((counts) => counts === '1 0')).toBe(true);
  expect(drawn(new Map()).some((counts) => counts === '1 1')).toBe(true);
});

test('only shapes that a board can hold are put on it', () => {
  const { fillings } = twoFilled();
  expect([0, 1].map((shape) => fillings.mayLie(shape, 0))).toEqual([true, true]);
  // The shorter boards, of 40 mm, hold no bar of 50 mm.
  expect([0, 1].map((shape) => fillings.mayLie(shape, 1))).toEqual([false, true]);
});
