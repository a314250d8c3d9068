import { describe, expect, it } from 'vitest';
import { jointMovement } from '../../src/sawing/assembly/joint-movement.ts';
import {
  movementAcross,
  movementByCoefficient,
  movementByShrinkage,
} from '../../src/sawing/assembly/movement.ts';
import { density, hardnessOf, WOODS, woodFacts } from '../../src/sawing/wood-facts.ts';
import { outsideCheck } from '../outside-check.ts';
import { rectangle } from './boards.ts';

const KG_PER_M3 = 16.018463; // one pound a cubic foot
/** Exact: the pound of 1959 times standard gravity. */
const NEWTONS_PER_POUND_FORCE = 4.4482216152605;
const facts = (name: string) => {
  const wood = woodFacts(name);
  if (wood === undefined) throw new Error(name);
  return wood;
};

describe('density', () => {
  it('is 448 kg/m3 = 27.968 lb/ft3 for gravity 0.40 at 12 % (Larsen, quoting Wood Handbook ch. 4)', () => {
    outsideCheck({
      what: 'Density at 12 % moisture for a specific gravity of 0.40: kg/m3, lb/ft3',
      source: 'Larsen, quoting Wood Handbook (Forest Products Laboratory), chapter 4',
      expected: [448, 27.968],
      found: [density(0.4), density(0.4) / KG_PER_M3],
      tolerance: 5e-3,
    });
  });

  it('is 678 kg/m3 for white ash of 0.605 at 12 % (Wood Handbook ch. 4, method 3), within 0.3 %', () => {
    outsideCheck({
      what: 'Density of white ash at 12 % moisture, kg/m3',
      source: 'Wood Handbook (Forest Products Laboratory), chapter 4, method 3',
      expected: 678,
      found: density(0.605),
      tolerance: 0.003 * 678,
    });
  });

  it('gives the pounds a board foot of the trade: 3.67 for sugar maple, 3.20 for walnut, 2.16 for basswood', () => {
    const poundsPerBoardFoot = (name: string) => density(facts(name).specificGravity) / KG_PER_M3 / 12;
    outsideCheck({
      what: 'Pounds in a board foot of sugar maple, walnut, basswood',
      source: 'Figures of the trade (common practice, no source)',
      expected: [3.67, 3.2, 2.16],
      found: ['sugar maple', 'walnut', 'basswood'].map(poundsPerBoardFoot),
      tolerance: 5e-3,
    });
  });
});

describe('hardness and shrinkage', () => {
  it('are those of the handbook and the trade, lbf and percent', () => {
    outsideCheck({
      what: 'Side hardness of hard maple, red oak, white oak, black walnut, cherry, basswood, yellow-poplar, white ash, beech, sycamore, lbf',
      source: 'Janka ball test on the side: two or more pages of the trade that agree',
      expected: [1450, 1290, 1360, 1010, 950, 410, 540, 1320, 1300, 770],
      found: [
        'hard maple',
        'Red Oak',
        'white oak',
        'black walnut',
        'Cherry',
        'basswood',
        'Yellow-Poplar',
        'White ash',
        'beech',
        'sycamore',
      ].map((name) => hardnessOf(name) ?? 0),
    });
    // Wood Handbook Tables 4-3 and 4-4, radial and tangential.
    const published: Readonly<Record<string, readonly number[]>> = {
      basswood: [6.6, 9.3],
      'yellow poplar': [4.6, 8.2],
      'white oak': [5.6, 10.5],
      'black walnut': [5.5, 7.8],
      'black cherry': [3.7, 7.1],
      'true mahogany': [3.0, 4.1],
      khaya: [2.5, 4.5],
      ash: [4.9, 7.8],
      beech: [5.5, 11.9],
      sycamore: [5.0, 8.4],
      willow: [3.3, 8.7],
    };
    for (const [name, expected] of Object.entries(published)) {
      outsideCheck({
        what: `Shrinkage of ${name} from green to dry, radial and tangential, %`,
        source: 'Wood Handbook (Forest Products Laboratory), tables 4-3 and 4-4',
        expected,
        found: facts(name).shrinkage ?? [],
      });
    }
    expect(hardnessOf('zebrano')).toBe(1000);
  });

  it('are those the Forest Products Laboratory has published, where its pages were read', () => {
    const alden = 'Alden, Hardwoods of North America, FPL-GTR-83 (1995)';
    outsideCheck({
      what: 'Side hardness of black walnut at 12 %, newtons',
      source: alden,
      expected: 4492,
      found: hardnessOf('black walnut') * NEWTONS_PER_POUND_FORCE,
      tolerance: 1,
    });
    outsideCheck({
      what: 'Specific gravity of black walnut at 12 %',
      source: alden,
      expected: 0.55,
      found: facts('black walnut').specificGravity,
    });
    outsideCheck({
      what: 'Specific gravity of hard maple, red oak, white oak, white ash and beech at 12 %',
      source: 'Wood Handbook (Agriculture Handbook 72), as quoted by Wengert, FDMC',
      expected: [0.63, 0.63, 0.68, 0.6, 0.64],
      found: ['hard maple', 'red oak', 'white oak', 'white ash', 'beech'].map(
        (name) => facts(name).specificGravity,
      ),
    });
    const coefficients = {
      'sugar maple': [0.00165, 0.00353],
      'red oak': [0.00158, 0.00369],
      'white oak': [0.0018, 0.00365],
      'black walnut': [0.0019, 0.00274],
      'black cherry': [0.00126, 0.00248],
      basswood: [0.0023, 0.0033],
      'white ash': [0.00169, 0.00274],
      'american beech': [0.0019, 0.00431],
      'american sycamore': [0.00172, 0.00296],
    };
    outsideCheck({
      what: `Change per 1 % of moisture, radial and tangential: ${Object.keys(coefficients).join(', ')}`,
      source: 'Wood Handbook FPL-GTR-190 (2010), table 13-5',
      expected: Object.values(coefficients).flat(),
      found: Object.keys(coefficients).flatMap((name) => facts(name).changePerPercent ?? []),
    });
    outsideCheck({
      what: 'Specific gravity of American sycamore and black willow at 12 %',
      source: 'Forest Products Laboratory, technical sheets on Platanus occidentalis and Salix nigra',
      expected: [0.49, 0.39],
      found: ['sycamore', 'willow'].map((name) => facts(name).specificGravity),
    });
    outsideCheck({
      what: 'Weight of American sycamore at 12 % moisture, kg/m3',
      source: 'Forest Products Laboratory, technical sheet on Platanus occidentalis',
      expected: 545,
      found: density(facts('sycamore').specificGravity),
      // From 34 lb a cubic foot in whole pounds.
      tolerance: 8,
    });
    outsideCheck({
      what: 'Radial change of black willow per 1 % of moisture',
      source: 'Wood Handbook FPL-GTR-190 (2010), table 13-5',
      expected: 0.00112,
      found: facts('willow').changePerPercent?.[0] ?? Number.NaN,
    });
    outsideCheck({
      what: 'Tangential change of black willow per 1 % of moisture',
      source: 'Wood Handbook FPL-GTR-190 (2010), table 13-5, as a public table of coefficients quotes it',
      expected: 0.00308,
      found: facts('willow').changePerPercent?.[1] ?? Number.NaN,
    });
  });

  it('name a source in every row, and no name stands for two woods', () => {
    for (const { source } of WOODS) expect(source.split(' / ')).toHaveLength(4);
    const names = WOODS.flatMap(({ name, alsoCalled }) => [name, ...alsoCalled]);
    expect(new Set(names).size).toBe(names.length);
  });
});

describe('movement across the grain', () => {
  it('is 0.1248 in for 8 in of red alder over 6 % (WOOD magazine, Sept 2021)', () => {
    outsideCheck({
      what: 'Movement of 8 in of red alder over 6 % of moisture, in',
      source: 'WOOD magazine, September 2021',
      expected: 0.1248,
      found: movementByCoefficient(8, 0.0026, 6),
      tolerance: 1e-9,
    });
  });

  it('is 0.01935 in for 5 in at 0.00129 over 3 %, and 0.706 in for 25 in of maple from 16 to 8 %', () => {
    outsideCheck({
      what: 'Movement of 5 in at 0.00129 over 3 %, and of 25 in of sugar maple from 16 to 8 %, in',
      source: 'Worked examples on pages of the trade, with coefficients of Wood Handbook table 13-5',
      expected: [0.01935, 0.706],
      found: [
        movementByCoefficient(5, 0.00129, 3),
        movementAcross(facts('sugar maple'), 25, -8)?.change ?? 0,
      ],
      tolerance: 1e-9,
    });
  });

  it('is 9, 10, 11 and 12 sixty-fourths for 12 in over 5 % of cherry, walnut, red oak and maple, within two', () => {
    const told = { cherry: 9, walnut: 10, 'red oak': 11, maple: 12 };
    for (const [name, expected] of Object.entries(told)) {
      const { shrinkage = [0, 0] } = facts(name);
      outsideCheck({
        what: `Movement of 12 in of ${name} over 5 % of moisture, sixty-fourths of an inch`,
        source: 'Rules of the trade for flat-sawn boards (common practice)',
        expected,
        found: movementByShrinkage(12, shrinkage[1], 5) * 64,
        tolerance: 2,
      });
    }
  });

  it('differs by a fifth between the methods for 12 in of red oak over 6 %: 0.2657 and 0.2211 in; the method is named', () => {
    const oak = facts('red oak');
    expect(movementAcross(oak, 12, 6)).toEqual({ change: expect.closeTo(0.2657, 4), method: 'coefficient' });
    expect(movementByShrinkage(12, 8.6, 6)).toBeCloseTo(0.2211, 4);
    expect(movementAcross(facts('sapele'), 12, 6)?.method).toBe('shrinkage');
    expect(movementAcross(facts('ponderosa pine'), 12, 6)).toBeUndefined();
  });

  it('stays under a twentieth of the width for any wood from 6 to 14 %, which the coefficients hold for: more is an error of input', () => {
    for (const wood of WOODS) {
      const { change } = movementAcross(wood, 1, 8) ?? { change: 0 };
      expect(change).toBeLessThan(0.05);
    }
  });

  it('in a joint: 3 in of maple crossed over 4 % move 0.042 in apart, parallel on red oak 0.002 (Table 13-5)', () => {
    const contact = [{ outline: rectangle(0, 0, 76.2, 76.2), openings: [] }];
    const maple = { species: 'sugar maple', grain: 'along' } as const;
    const crossed = jointMovement({ ...maple, grain: 'across' }, maple, contact, 4);
    // The wood under it moves along its grain, by 0.0006 in.
    expect(crossed).toMatchObject({ grains: 'crossed', method: 'coefficient' });
    expect((crossed.movement ?? Number.NaN) / 25.4).toBeCloseTo(0.04236 - 3 * 0.00005 * 4, 5);
    const parallel = jointMovement({ species: 'red oak', grain: 'along' }, maple, contact, 4);
    expect(parallel.grains).toBe('alike');
    expect((parallel.movement ?? Number.NaN) / 25.4).toBeCloseTo(0.00192, 5);
    // Of free grain a copy may lie crossed: what moves most counts, whichever of the two it is.
    for (const [behind, front] of [
      [maple, { ...maple, grain: 'free' }],
      [{ ...maple, grain: 'free' }, maple],
    ] as const)
      expect(jointMovement(behind, front, contact, 4)).toEqual({ ...crossed, grains: 'any way' });
  });
});
