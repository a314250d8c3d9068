import { describe, expect, it } from 'vitest';
import type { StockKind, StockPiece } from '../../../src/nesting/groups/group.ts';
import { straightEdgesOf } from '../../../src/nesting/groups/straight-edges.ts';
import { firstPieces } from '../../../src/nesting/laid/first-pieces.ts';
import { unitName, unitsOf } from '../../../src/stock/units.ts';
import { rectangle } from '../../rectangle.ts';

/** The pieces of two boards, ripped into strips or resawn into slices; what is pinned is pinned to the second one. */
function pieces(id: string, strips: number, slices: number, pinned = false): StockPiece[] {
  const outline = rectangle(600, 100);
  const usable = { outline, openings: [] };
  const more = strips === 1 ? {} : { strips };
  const board = {
    id,
    species: 'oak',
    thickness: 20,
    outline,
    defects: [],
    quantity: 2 * strips,
    price: 1,
    ...more,
  };
  const fit = slices === 1 ? ({ work: 'none' } as const) : ({ work: 'resaw', slices } as const);
  const edges = straightEdgesOf(board, usable);
  const kind: StockKind = { board, fit, usable, edges, sections: [], partings: [[]] };
  return unitsOf(board, slices === 1 ? undefined : slices, new Set()).map((unit, i) => ({
    kind,
    board,
    units: [unit],
    section: undefined,
    sections: [],
    usable,
    pinned: pinned && i === 1 ? [{} as StockPiece['pinned'][number]] : [],
  }));
}

const given = (all: readonly StockPiece[], used: readonly string[]) =>
  used.map((name) => {
    const units = firstPieces(all, used).get(name);
    return units === undefined
      ? name
      : unitName(all.find(({ units: own }) => own === units)!.board, units[0]);
  });

describe('firstPieces', () => {
  it('begins no more boards than have to be ripped or resawn', () => {
    const strips = pieces('Sheet', 3, 1);
    expect(given(strips, ['Sheet-1c', 'Sheet-2b'])).toEqual(['Sheet-1a', 'Sheet-1b']);
    expect(given(strips, ['Sheet-2a', 'Sheet-1a', 'Sheet-2c', 'Sheet-2b'])).toEqual([
      'Sheet-1a',
      'Sheet-1b',
      'Sheet-1c',
      'Sheet-2a',
    ]);
    expect(given(pieces('Thick', 1, 2), ['Thick-2b'])).toEqual(['Thick-1a']);
  });

  it('numbers whole boards from 1, whichever of them the search took', () => {
    expect(given(pieces('Oak', 1, 1), ['Oak-2'])).toEqual(['Oak-1']);
  });

  it('leaves what is pinned where it is', () => {
    expect(given(pieces('Oak', 1, 1, true), ['Oak-2'])).toEqual(['Oak-2']);
    expect(given(pieces('Sheet', 3, 1, true), ['Sheet-1b', 'Sheet-2c'])).toEqual(['Sheet-1b', 'Sheet-1a']);
  });

  it('tells the kinds of boards apart', () => {
    const both = [...pieces('Sheet', 3, 1), ...pieces('Thick', 1, 2)];
    expect(given(both, ['Thick-2a', 'Sheet-2c'])).toEqual(['Thick-1a', 'Sheet-1a']);
  });
});
