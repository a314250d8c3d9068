import { describe, expect, it } from 'vitest';
import { jointMovement } from '../../src/sawing/joint-movement.ts';
import { movementAcross, movementByCoefficient, movementByShrinkage } from '../../src/sawing/movement.ts';
import { density, hardnessOf, WOODS, woodFacts } from '../../src/sawing/wood-facts.ts';
import { rectangle } from './boards.ts';

const KG_PER_M3 = 16.018463; // one pound a cubic foot
const facts = (name: string) => {
  const wood = woodFacts(name);
  if (wood === undefined) throw new Error(name);
  return wood;
};

describe('density', () => {
  it('is 448 kg/m3 = 27.968 lb/ft3 for gravity 0.40 at 12 % (Larsen, quoting Wood Handbook ch. 4)', () => {
    expect(density(0.4)).toBeCloseTo(448, 9);
    expect(density(0.4) / KG_PER_M3).toBeCloseTo(27.968, 2);
  });

  it('is 678 kg/m3 for white ash of 0.605 at 12 % (Wood Handbook ch. 4, method 3), within 0.3 %', () => {
    expect(Math.abs(density(0.605) / 678 - 1)).toBeLessThan(0.003);
  });

  it('gives the pounds a board foot of the trade: 3.67 for sugar maple, 3.20 for walnut, 2.16 for basswood', () => {
    const poundsPerBoardFoot = (name: string) => density(facts(name).specificGravity) / KG_PER_M3 / 12;
    expect(poundsPerBoardFoot('sugar maple')).toBeCloseTo(3.67, 2);
    expect(poundsPerBoardFoot('walnut')).toBeCloseTo(3.2, 2);
    expect(poundsPerBoardFoot('basswood')).toBeCloseTo(2.16, 2);
  });
});

describe('hardness and shrinkage', () => {
  it('are those of the handbook and the trade, lbf and percent', () => {
    expect(
      ['hard maple', 'Red Oak', 'white oak', 'black walnut', 'Cherry', 'basswood', 'Yellow-Poplar'].map(
        hardnessOf,
      ),
    ).toEqual([1450, 1290, 1360, 1010, 950, 410, 540]);
    // Wood Handbook Tables 4-3 and 4-4, radial and tangential.
    expect(facts('white oak').shrinkage).toEqual([5.6, 10.5]);
    expect(facts('black walnut').shrinkage).toEqual([5.5, 7.8]);
    expect(facts('black cherry').shrinkage).toEqual([3.7, 7.1]);
    expect(facts('true mahogany').shrinkage).toEqual([3.0, 4.1]);
    expect(facts('khaya').shrinkage).toEqual([2.5, 4.5]);
    expect(hardnessOf('zebrano')).toBe(1000);
  });

  it('name a source in every row, and no name stands for two woods', () => {
    for (const { source } of WOODS) expect(source).toMatch(/WH|S|m/);
    const names = WOODS.flatMap(({ name, alsoCalled }) => [name, ...alsoCalled]);
    expect(new Set(names).size).toBe(names.length);
  });
});

describe('movement across the grain', () => {
  it('is 0.1248 in for 8 in of red alder over 6 % (WOOD magazine, Sept 2021)', () => {
    expect(movementByCoefficient(8, 0.0026, 6)).toBeCloseTo(0.1248, 9);
  });

  it('is 0.01935 in for 5 in at 0.00129 over 3 %, and 0.706 in for 25 in of maple from 16 to 8 %', () => {
    expect(movementByCoefficient(5, 0.00129, 3)).toBeCloseTo(0.01935, 9);
    expect(movementAcross(facts('sugar maple'), 25, -8)?.change).toBeCloseTo(0.706, 9);
  });

  it('is 9, 10, 11 and 12 sixty-fourths for 12 in over 5 % of cherry, walnut, red oak and maple, within one', () => {
    const expected = { cherry: 9, walnut: 10, 'red oak': 11, maple: 12 };
    for (const [name, sixtyFourths] of Object.entries(expected)) {
      const { shrinkage = [0, 0] } = facts(name);
      expect(Math.abs(movementByShrinkage(12, shrinkage[1], 5, 30) * 64 - sixtyFourths)).toBeLessThan(1);
    }
  });

  it('differs by a fifth between the methods for 12 in of red oak over 6 %: 0.2657 and 0.2211 in; the method is named', () => {
    const oak = facts('red oak');
    expect(movementAcross(oak, 12, 6)).toEqual({ change: expect.closeTo(0.2657, 4), method: 'coefficient' });
    expect(movementByShrinkage(12, 8.6, 6)).toBeCloseTo(0.2211, 4);
    expect(movementAcross(facts('sapele'), 12, 6)?.method).toBe('shrinkage');
    expect(movementAcross(facts('ponderosa pine'), 12, 6)).toBeUndefined();
  });

  it('stays under a twentieth of the width for any wood over 12 %: more is an error of input', () => {
    for (const wood of WOODS) {
      const { change } = movementAcross(wood, 1, 12) ?? { change: 0 };
      expect(change).toBeLessThan(0.05);
    }
  });

  it('in a joint: 3 in of maple crossed over 4 % move 0.042 in apart, parallel on red oak 0.002 (Table 13-5)', () => {
    const contact = [{ outline: rectangle(0, 0, 76.2, 76.2), openings: [] }];
    const maple = { species: 'sugar maple', grain: 'along' } as const;
    const crossed = jointMovement({ ...maple, grain: 'across' }, maple, contact, 4);
    // The wood under it moves along its grain, by 0.0006 in.
    expect(crossed).toMatchObject({ crossed: true, method: 'coefficient' });
    expect(crossed.movement / 25.4).toBeCloseTo(0.04236 - 3 * 0.00005 * 4, 5);
    const parallel = jointMovement({ species: 'red oak', grain: 'along' }, maple, contact, 4);
    expect(parallel.crossed).toBe(false);
    expect(parallel.movement / 25.4).toBeCloseTo(0.00192, 5);
  });
});
