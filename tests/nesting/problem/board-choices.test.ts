import { expect, test } from 'vitest';
import { boardChoices } from '../../../src/nesting/problem/board-choices.ts';

/** Boards of one kind, as many as `count`, named by the kind. */
const kind = (name: string, count: number, cost: number, room: number) => ({
  members: Array.from({ length: count }, () => name),
  cost,
  room,
});

test('of a large stock the choices that hold most for their cost are looked at, whichever kind comes first', () => {
  // 21 to the power of 7: far more choices than there is time for. Twelve of the last kind are the only ones for 24.
  const dear = ['a', 'b', 'c', 'd', 'e', 'f'].map((name, i) => kind(name, 20, 3 + i, 10));
  const choices = boardChoices([...dear, kind('best', 20, 2, 10)], 25, 120);
  expect(choices).toEqual([{ members: Array.from({ length: 12 }, () => 'best'), cost: 24, room: 120 }]);
});

test('every choice is found where there is time for all, and none that costs as much as the present one', () => {
  const kinds = [kind('free', 1, 0, 5), kind('empty', 2, 1, 0), kind('board', 2, 4, 10)];
  const found = boardChoices(kinds, 6, 10).map(({ members }) => members.join(' '));
  expect(found.sort()).toEqual(['board', 'board empty', 'free board', 'free board empty']);
});

test('the boards of a choice are listed when they are asked for, not of all choices at once', () => {
  let listed = 0;
  const members = Object.assign(['a', 'a', 'a'], {
    slice(from: number, to: number) {
      listed++;
      return ['a', 'a', 'a'].filter((_, n) => n >= from && n < to);
    },
  });
  const choices = boardChoices([{ members, cost: 1, room: 1 }], 10, 1);
  expect(choices.map(({ room }) => room).sort()).toEqual([1, 2, 3]);
  expect(listed).toBe(0);
  expect(choices.map((choice) => choice.members.length).sort()).toEqual([1, 2, 3]);
});
