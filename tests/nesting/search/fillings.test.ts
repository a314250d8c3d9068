import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { changeOfFilling } from '../../../src/nesting/search/change-of-filling.ts';
import { FillingChoices } from '../../../src/nesting/search/filling-choices.ts';
import { Fillings } from '../../../src/nesting/search/fillings.ts';
import { rectangle } from '../../rectangle.ts';

const region = (length: number) => ({ outline: rectangle(length, 20), openings: [] });

/** Three long and three short bars on three boards of one length and one of another; two boards are filled. */
function twoFilled() {
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [50, 30].map((length) => {
    return { region: region(length), lies, onEdge: false, copies: 3, perSet: 1 };
  });
  const containers = [
    containerFrom(region(85), 10, 85),
    containerFrom(region(85), 10, 85),
    containerFrom(region(40), 6, 40),
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
  expect(fillings.all).toMatchObject([
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
  const choices = new FillingChoices(fillings, new Random(1));
  await choices.putTogether(30.5, run);
  // Three boards of a long and a short bar each hold all.
  expect(choices.nearest()).toMatchObject({ cost: 30, surplus: Int32Array.of(0, 0) });
  await choices.putTogether(30, run);
  const choice = choices.nearest()!;
  expect(choice).toMatchObject({ cost: 26, surplus: Int32Array.of(-1, 0) });
  // Two long bars on one of its boards, or one on the shorter, are more than these hold.
  const experience = { fillings, tried: new Map(), usualOverlap: 1 };
  expect(changeOfFilling(choice, experience, new Random(1))).toBeUndefined();
  await choices.putTogether(6, run);
  expect(choices.nearest()).toBeUndefined();
  expect(run.budget.done).toBeGreaterThan(0);
});

test('a filling that is known is taken before one that would have to be found', async () => {
  const { fillings } = twoFilled();
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(1000) };
  const one = fillings.add({ kind: 0, counts: Int32Array.of(1, 0) }, new Arrangement(1));
  const two = fillings.add({ kind: 0, counts: Int32Array.of(0, 1) }, new Arrangement(1));
  const choices = new FillingChoices(fillings, new Random(1));
  await choices.putTogether(11, run);
  const choice = { fillings: [two], cost: two.cost, surplus: Int32Array.of(-3, -2) };
  const experience = { fillings, tried: new Map(), usualOverlap: 1 };
  const change = changeOfFilling(choice, experience, new Random(1))!;
  expect(change.place).toBe(0);
  expect(fillings.find(change.wanted)).toBeDefined();
  expect(one.area).toBe(1000);
});
