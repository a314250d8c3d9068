import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { changeOfFilling } from '../../../src/nesting/search/change-of-filling.ts';
import { FillingChoices } from '../../../src/nesting/search/filling-choices.ts';
import { Fillings, keyOf } from '../../../src/nesting/search/fillings.ts';
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
  // Two long bars are more than one of its boards holds, and the short board has the area of one, but not the length.
  const experience = { fillings, tried: new Map(), usualOverlap: 1 };
  expect(changeOfFilling(choice, experience, new Random(1))).toBeUndefined();
  await choices.putTogether(6, run);
  expect(choices.nearest()).toBeUndefined();
  expect(run.budget.done).toBeGreaterThan(0);
});

test('a filling that is known is taken before one that would have to be found', () => {
  const { fillings } = twoFilled();
  const short = fillings.add({ kind: 0, counts: Int32Array.of(0, 1) }, new Arrangement(1));
  // Were it not known, nobody would try it once more.
  const known = { kind: 0, counts: Int32Array.of(1, 1) };
  const tried = new Map([[keyOf(known), { times: 50, overlap: 10, nearest: undefined }]]);
  const experience = { fillings, tried, usualOverlap: 1 };
  const choice = { fillings: [short], cost: short.cost, surplus: Int32Array.of(-3, -2) };
  const drawn = Array.from({ length: 20 }, (_, seed) => {
    return changeOfFilling(choice, experience, new Random(seed))!.wanted;
  });
  expect(drawn.map(keyOf)).toEqual(drawn.map(() => keyOf(known)));
});

test('only shapes that a board can hold are put on it', () => {
  const { fillings } = twoFilled();
  expect([0, 1].map((shape) => fillings.mayLie(shape, 0))).toEqual([true, true]);
  // The shorter boards, of 40 mm, hold no bar of 50 mm.
  expect([0, 1].map((shape) => fillings.mayLie(shape, 1))).toEqual([false, true]);
});
