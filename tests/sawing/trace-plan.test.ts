import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { tracePlan } from '../../src/sawing/trace-plan.ts';
import { board, layoutOf, part, rectangle } from './boards.ts';

// A plate of 100 x 150 mm in a board of black walnut (1010 lbf) 40 mm thick: 500 mm of lines, and 10 mm of lead-in from the
// left end. The layout is sawn on three boards, one after the other.
const plate = board([part('plate', rectangle(10, 100, 100, 150))], {
  thickness: 40,
  copies: 3,
  usable: { outline: rectangle(0, 0, 600, 350), openings: [] },
});
const plan = planCuts(layoutOf(plate));

describe('the workings of a cut plan', () => {
  it('tell each board, sawn as often as it is there, and the sums', () => {
    // 0.51 x 40 / 19.05 x the root of 1.01 are 1.0762 m for one board, and 3.2286 m for three.
    const lines = tracePlan(plan, 'mm').split('\n');
    expect(Number(/ = ([\d.]+) m;/.exec(lines[1])?.[1])).toBeCloseTo(3.228621, 6);
    expect(lines.map((line) => line.replace(/ = [\d.]+ m;/, ' = so much;'))).toEqual([
      'Sawing, board by board: (lines + lead-ins) x thickness x the root of hardness, as metres in 19.05 mm wood of 1000 lbf',
      'A-1: (0.5 m + 0.01 m) x 40 / 19.05 x root(1010 / 1000) x 3 boards = so much; 1 cut, 0 holes',
      'all: 1.5 m of lines, 0.03 m of lead-ins, 0 holes, 0 sharp corners',
      expect.stringMatching(/^No\. \d+ saws 1\.53 m and .* wear out, between .* and /),
    ]);
  });

  it('tell feet and inches to a maker of inches', () => {
    // 500 mm are 1.6404 ft, 10 mm 0.0328 ft, 40 mm 1.5748 in, and 3.22862 m are 10.5926 ft.
    const [head, line, all] = tracePlan(plan, 'in').split('\n');
    expect(head).toContain('as feet in 3/4 in wood of 1000 lbf');
    const [, lines, leadIns, thickness, of, feet] =
      /\(([\d.]+) ft \+ ([\d.]+) ft\) x ([\d.]+) \/ ([\d.]+) x .* = ([\d.]+) ft;/.exec(line) ?? [];
    expect([lines, leadIns, thickness, of, feet].map(Number)).toEqual([
      expect.closeTo(1.6404, 3),
      expect.closeTo(0.0328, 3),
      expect.closeTo(1.5748, 3),
      0.75,
      expect.closeTo(10.5926, 3),
    ]);
    expect(all).toMatch(/^all: 4\.92\d* ft of lines, 0\.098\d* ft of lead-ins/);
  });
});
