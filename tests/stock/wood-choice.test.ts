import { describe, expect, it } from 'vitest';
import type { Board } from '../../src/model/stock.ts';
import { candidatesFor } from '../../src/stock/wood-choice.ts';
import { rectangle } from '../rectangle.ts';

function board(id: string, thickness: number, species = 'cherry'): Board {
  const outline = rectangle(500, 100);
  return { id, species, thickness, outline, defects: [], quantity: 1, price: undefined };
}

describe('the boards that give a wood', () => {
  const found = (boards: readonly Board[], tolerance = 0.2) =>
    candidatesFor(boards, 'cherry', 12, tolerance).map(({ board: { id }, fit }) => [id, fit.work]);

  it('are those of the species, however it is spelled', () => {
    expect(found([board('A', 12, 'Cherry'), board('B', 12, 'basswood'), board('C', 12)])).toEqual([
      ['A', 'none'],
      ['C', 'none'],
    ]);
  });

  it('are thinned only when none has the thickness, and resawn only when none can be planed', () => {
    const [thin, right, near, thick] = [
      board('thin', 9),
      board('right', 12.1),
      board('near', 15),
      board('thick', 40),
    ];
    expect(found([thick, near, right, thin])).toEqual([['right', 'none']]);
    expect(found([thick, near, thin])).toEqual([['near', 'plane']]);
    expect(found([thick, thin])).toEqual([['thick', 'resaw']]);
    expect(found([thin])).toEqual([]);
    // Sheets are neither planed nor resawn.
    expect(
      found([
        { ...near, sheet: true },
        { ...thick, sheet: true },
      ]),
    ).toEqual([]);
    expect(found([{ ...near, sheet: true }, { ...right, sheet: true }, thick])).toEqual([['right', 'none']]);
    // At a tolerance of nothing, a tenth too much is planed off.
    expect(found([right, thick], 0)).toEqual([['right', 'plane']]);
  });
});
