import { describe, expect, it } from 'vitest';
import type { LaidBoard } from '../../src/model/layout.ts';
import { preparingWords } from '../../src/sheet/preparing-words.ts';
import { shortStackWords, stackWords } from '../../src/sheet/stack-words.ts';
import { box, handBoard } from './hand-layout.ts';

const told = (fields: Partial<LaidBoard>) =>
  preparingWords(handBoard(fields), 'mm').map((words) => words.join(' '));

describe('what is done to a board before its paper goes on', () => {
  it('is nothing for a board that is taken as it is', () => {
    expect(told({})).toEqual([]);
    expect(told({ strips: 1, lengths: 1 })).toEqual([]);
  });

  it('is told in the order it is done: ripped, cross-cut, planed, trimmed', () => {
    const trimmed = { topEdge: 6, straightEdge: 0, leftEnd: 12, rightEnd: 12 };
    const outline = box(0, 0, 300, 120);
    expect(told({ strips: 3, lengths: 2, planeTo: 15, trimmed, outline })).toEqual([
      'rip the whole board into 3 strips 120 mm wide',
      'cross-cut each into 2 lengths of 300 mm',
      'plane to 15 mm',
      'trim 6 mm off the top edge',
      'trim 12 mm off either end',
    ]);
    expect(told({ lengths: 2 })).toEqual(['cross-cut the whole board into 2 lengths of 300 mm']);
  });

  it('takes the surplus off slices that are too thick to be planed: more than 6.35 mm', () => {
    // 42 mm in two slices: (42 - 3.175) / 2 is 19.4 mm each; to 13 mm 6.4 mm are too much, to 14 mm 5.4 mm are planed off.
    expect(told({ thickness: 42, slices: 2, planeTo: 14 })).toEqual([
      'resaw into 2 slices, plane each to 14 mm',
    ]);
    expect(told({ thickness: 42, slices: 2, planeTo: 13 })).toEqual([
      'resaw into 2 slices, and the surplus off each',
      'plane each to 13 mm',
    ]);
    expect(told({ thickness: 20, slices: 1, planeTo: 13 })).toEqual([
      'resaw the surplus off, plane to 13 mm',
    ]);
  });

  it('is told of each end where they differ, and as the most where the board is no rectangle', () => {
    const ends = { topEdge: 0, straightEdge: 3, leftEnd: 12, rightEnd: 0 };
    expect(told({ trimmed: ends })).toEqual([
      'trim 3 mm off the straight edge',
      'trim 12 mm off the left end',
    ]);
    expect(told({ trimmed: ends, outline: box(-12, 0, 312, 123) })).toEqual([
      'trim 3 mm off the straight edge',
      'trim 12 mm off the left end',
    ]);
    const sloping = [
      [-12, 0],
      [300, 0],
      [300, 123],
      [-5, 123],
    ] as const;
    expect(told({ trimmed: ends, outline: sloping })).toEqual([
      'trim up to 3 mm off the straight edge',
      'trim up to 12 mm off the left end',
    ]);
  });
});

describe('how often a sheet is sawn', () => {
  const pieces = ['maple-1', 'maple-2'];

  it('is a stack where its boards have names of their own, else one board after the other', () => {
    expect([stackWords({ copies: 2, pieces }), shortStackWords({ copies: 2, pieces })]).toEqual([
      ', in a stack of 2 boards sawn at once',
      'stack of 2',
    ]);
    expect([stackWords({ copies: 3 }), shortStackWords({ copies: 3 })]).toEqual([
      ', saw 3 boards like this',
      'saw 3 alike',
    ]);
    expect([stackWords({ copies: 1 }), shortStackWords({ copies: 1 })]).toEqual(['', '']);
  });
});
