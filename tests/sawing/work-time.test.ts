import { describe, expect, it } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { AssemblyPlan } from '../../src/model/assembly.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import { planAssembly } from '../../src/sawing/assembly/plan-assembly.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { paceMetres } from '../../src/sawing/time/blade-life.ts';
import { calibrate, type LoggedWork } from '../../src/sawing/time/calibrate.ts';
import { preparingAmounts } from '../../src/sawing/time/preparing-amounts.ts';
import { solveSymmetric } from '../../src/sawing/time/solve-symmetric.ts';
import { COMMON_TIMES, TIME_NAMES, timeConstants } from '../../src/sawing/time/time-constants.ts';
import { amountsOf, forPieces, type WorkAmounts, workTime } from '../../src/sawing/time/work-time.ts';

import { board, layoutOf, part, rectangle } from './boards.ts';

describe('the time model', () => {
  it('names every constant with its unit and a range around the likely value', () => {
    for (const name of TIME_NAMES) {
      const { minutes, unit, what } = COMMON_TIMES[name];
      expect(minutes.low).toBeLessThan(minutes.likely);
      expect(minutes.likely).toBeLessThan(minutes.high);
      expect(`${unit}${what}`).not.toBe('');
    }
  });

  it('saws 3/4 in maple at 2.9 in a minute, walnut at 3.5, 1/4 in maple at 8.7, basswood at 5.5 (common practice)', () => {
    const inchesPerMinute = (inches: number, hardness: number) =>
      1000 / 25.4 / (paceMetres(1000, inches * 25.4, hardness) * (1000 / 25.4 / 3.5));
    expect(inchesPerMinute(0.75, 1450)).toBeCloseTo(2.91, 2);
    expect(inchesPerMinute(0.75, 1010)).toBeCloseTo(3.48, 2);
    expect(inchesPerMinute(0.25, 1450)).toBeCloseTo(8.72, 2);
    expect(inchesPerMinute(0.75, 410)).toBeCloseTo(5.47, 2);
  });

  it('multiplies amounts by constants and adds up, with the maker’s own in place of the common ones', () => {
    const own = { drilling: { low: 1, likely: 2, high: 3 } };
    const { lines, total } = workTime({ drilling: 10, threading: 3 }, timeConstants(own));
    expect(lines.map(({ constant, minutes }) => [constant, minutes.likely])).toEqual([
      ['drilling', 20],
      ['threading', 2],
    ]);
    expect(total).toEqual({ low: 11, likely: 22, high: 33 });
  });
});

describe('the glue-up', () => {
  it('counts the joints that have room for glue, and those without where nothing else holds the part', () => {
    const layer = (name: string, parts: Record<string, Ring>) => ({
      name,
      parts: Object.entries(parts).map(([each, outline]) => ({
        ...{ name: each, layer: name, element: '<path>', veins: [] },
        region: { outline, openings: [] },
      })),
    });
    // Glue is kept 3 mm from the edges: where the duck touches the hill by 4 mm none finds room.
    const maple = { species: 'sugar maple', thickness: 6, grain: 'along' } as const;
    const counted = (front: Record<string, Ring>) => {
      const back = { bank: rectangle(0, 0, 100, 50), hill: rectangle(101, 0, 100, 50) };
      const layers = [layer('Back', back), layer('Front', front)];
      const pattern = { file: 'drawn.svg', scale: 1, tolerance: 0.05, layers };
      const assembly = planAssembly(pattern, { layers: { Back: maple, Front: maple } });
      return [assembly.joints.length, amountsOf(planCuts(layoutOf()), assembly, 3).gluing];
    };
    const duck = rectangle(60, 10, 45, 30);
    expect(counted({ duck })).toEqual([2, 6]);
    // The goose holds the hill.
    expect(counted({ duck, goose: rectangle(130, 10, 50, 30) })).toEqual([3, 6]);
  });
});

describe('the work at the saw and after it', () => {
  it('is counted from the plan and the glue-up of one piece, by hand', () => {
    // Two of each board: a plate of 100 x 75 mm, 10 mm from the left end and 15 mm wide of the nearest edge above.
    const one = board(
      [part('plate', rectangle(10, 15, 100, 75)), part('plate', rectangle(200, 15, 100, 75))],
      {
        copies: 2,
      },
    );
    const plan = planCuts(layoutOf(one));
    const assembly: AssemblyPlan = {
      ...{ parts: [], joints: [], width: 0, height: 0, depth: 0, restPlane: undefined },
      ...{ glueGrams: [0, 0], weight: undefined, faces: 40_000, surface: 50_000, issues: [] },
    };
    const amounts = amountsOf({ ...plan, sharpTurns: 16, bladeChangesGrouped: 1 }, assembly, 3);
    // Lines of 2 x 350 mm on either board, and their lead-ins; walnut of 1010 lbf and 19.05 mm.
    const metres = 2 * 0.7 + plan.leadInLength / 1000;
    expect(amounts).toEqual({
      sawing: expect.closeTo(metres * Math.sqrt(1.01), 9),
      ...{ turning: 16, positioning: 4, drilling: 0, threading: 0, peeling: 4, sticking: 2 },
      bladeChange: expect.closeTo(1 + plan.blades[0].worn.likely, 9),
      edgeSanding: expect.closeTo(1.4, 9),
      // Three pieces of 40,000 and 50,000 mm2.
      ...{ faceSanding: 0.12, finishing: expect.closeTo(0.15, 9), gluing: 0, setUp: 1 },
    });
  });
});

describe('the work on boards before the paper goes on', () => {
  const plate = part('plate', rectangle(20, 20, 60, 60));
  const amounts = (...boards: readonly LaidBoard[]) => preparingAmounts(layoutOf(...boards));

  it('is none on boards that are sawn as they are, and on those that carry nothing', () => {
    const none = { ripping: 0, resawing: 0, planing: 0, crosscutting: 0 };
    expect(amounts(board([plate]))).toEqual(none);
    expect(amounts(board([], { planeTo: 6, slices: 2, strips: 3 }))).toEqual(none);
  });

  it('is a cut fewer than there are strips, slices and sections, for whole boards once', () => {
    const sections = [
      { number: 1, from: 0, to: 300 },
      { number: 2, from: 303, to: 600 },
    ];
    const slice = { stock: 'B', slices: 3, strips: 2, planeTo: 5, sections };
    // Two of the three slices of the first strip, and one of the second: one board, both of its strips resawn.
    const made = ['B-1aa', 'B-1ab', 'B-1ba'].map((id) => board([plate], { ...slice, id }));
    expect(amounts(...made)).toEqual({ ripping: 1, resawing: 4, planing: 3, crosscutting: 3 });
    // Two strips in three lengths each, of which one carries parts: all cuts of the board are made.
    expect(amounts(board([plate], { stock: 'C', id: 'C-1b', strips: 2, lengths: 3 }))).toEqual({
      ...{ ripping: 1, resawing: 0, planing: 0, crosscutting: 4 },
    });
    expect(COMMON_TIMES.crosscutting.what).toContain('lengths');
    // A board as wide as it was, in three lengths.
    expect(amounts(board([plate], { stock: 'D', id: 'D-1c', lengths: 3 }))).toEqual({
      ...{ ripping: 0, resawing: 0, planing: 0, crosscutting: 2 },
    });
    // A stack of three whole boards, each with its surplus resawn off, and an end that falls away.
    const pieces = ['A-1', 'A-2', 'A-3'];
    const stack = { pieces, copies: 3, slices: 1, planeTo: 5, sections: [{ number: 1, from: 0, to: 300 }] };
    expect(amounts(board([plate], stack))).toEqual({ ripping: 0, resawing: 3, planing: 3, crosscutting: 3 });
  });

  it('counts trimmed edges and ends of a board, once for all its slices', () => {
    const trimmed = { topEdge: 6, straightEdge: 6, leftEnd: 12, rightEnd: 0 };
    const made = ['A-1a', 'A-1b'].map((id) => board([plate], { trimmed, slices: 2, planeTo: 5, id }));
    expect(amounts(...made)).toEqual({ ripping: 2, resawing: 1, planing: 2, crosscutting: 1 });
  });

  it('counts the straight cuts that free keepers, those for two of them once, on every board of a stack', () => {
    const cuts = [
      [
        [300, 0],
        [300, 150],
      ],
      [
        [300, 70],
        [600, 70],
      ],
    ] as const;
    const keeper = (n: number) => ({
      ...{ id: `A-1 keeper ${n}`, lines: cuts, area: 1 },
      region: { outline: rectangle(302, 0, 600, 69), openings: [] },
      rectangle: { minX: 302, minY: 0, maxX: 600, maxY: 69 },
    });
    const stack = { pieces: ['A-1', 'A-2'], copies: 2, offcuts: [keeper(1), keeper(2)] };
    expect(amounts(board([plate], stack))).toEqual({ ripping: 2, resawing: 0, planing: 0, crosscutting: 2 });
  });
});

describe('the work on a batch of another size', () => {
  const own: WorkAmounts = {
    ...{ sawing: 10, turning: 100, positioning: 20, drilling: 5, threading: 6, bladeChange: 7 },
    ...{ sticking: 3, peeling: 12, edgeSanding: 4, gluing: 8, setUp: 1, ripping: 2, crosscutting: 7 },
  };
  const larger = {
    times: 2,
    cuts: 3,
    worn: 4,
    stuck: 5,
    changes: 2,
    preparing: { ripping: 1, crosscutting: 6 },
  };

  it('grows with its pieces, cuts and boards, each by its own; it is set up once, and blades are changed as often', () => {
    expect(forPieces(own, larger)).toEqual({
      ...{ sawing: 20, edgeSanding: 8, gluing: 16, ripping: 1 },
      ...{ turning: 300, positioning: 60, drilling: 15, threading: 18, peeling: 36 },
      ...{ sticking: 5, crosscutting: 6, setUp: 1 },
      // Five of the seven blades were worn out: four times as many, and the two changes between blades.
      bladeChange: 22,
    });
  });

  it('wears out no blades where none were', () => {
    expect(forPieces({ ...own, bladeChange: 2 }, larger).bladeChange).toBe(2);
    expect(forPieces({ ...own, bladeChange: 2.5 }, larger).bladeChange).toBe(4);
  });
});

describe('calibration', () => {
  const truth: WorkAmounts = { sawing: 14, drilling: 0.4, threading: 0.9, setUp: 30 };
  const log = [
    { sawing: 2, drilling: 10, threading: 10, setUp: 1 },
    { sawing: 5, drilling: 4, threading: 6, setUp: 1 },
    { sawing: 1, drilling: 40, threading: 12, setUp: 1 },
    { sawing: 7, drilling: 0, threading: 30, setUp: 1 },
    { sawing: 3, drilling: 22, threading: 0, setUp: 1 },
    { sawing: 4, drilling: 15, threading: 25, setUp: 2 },
  ].map((amounts): LoggedWork => {
    const minutes = Object.entries(amounts).reduce(
      (sum, [name, amount]) => sum + amount * (truth[name as 'sawing'] ?? 0),
      0,
    );
    return { amounts, minutes };
  });

  it('finds the constants of an exact log when nothing holds them', () => {
    const { constants, error, fitted } = calibrate(log, timeConstants(), 0);
    expect([...fitted].sort()).toEqual(['drilling', 'sawing', 'setUp', 'threading']);
    for (const name of fitted) expect(constants[name].likely).toBeCloseTo(truth[name] ?? 0, 6);
    expect(error).toBeLessThan(1e-6);
  });

  it('reports the error before and after, and comes near with the common values holding on', () => {
    const { constants, error, errorBefore, worst } = calibrate(log);
    expect(errorBefore).toBeGreaterThan(20);
    expect(error).toBeLessThan(0.1 * errorBefore);
    expect(worst).toBeLessThan(0.1);
    expect(Math.abs(constants.sawing.likely / 14 - 1)).toBeLessThan(0.1);
  });

  it('moves only what one line of log is about, and keeps the rest', () => {
    const { constants, error } = calibrate([{ amounts: { sawing: 3, turning: 100 }, minutes: 60 }]);
    // Within the tenth that a log is taken to be right to.
    expect(error).toBeLessThan(6);
    expect(constants.sawing.likely).toBeGreaterThan(COMMON_TIMES.sawing.minutes.likely);
    expect(constants.drilling).toEqual(COMMON_TIMES.drilling.minutes);
  });

  it('gives a range as wide as the lines of the log differ, and that of a log at least', () => {
    const range = (...minutes: number[]) => {
      const { constants } = calibrate(minutes.map((each) => ({ amounts: { sawing: 10 }, minutes: each })));
      const { low, likely, high } = constants.sawing;
      return [low / likely, high / likely];
    };
    expect(range(110, 112, 108)).toEqual([expect.closeTo(0.8, 9), expect.closeTo(1.2, 9)]);
    // The model comes to 120 min for either: root((0.5^2 + 0.5^2) / 2) = 0.5.
    expect(range(60, 180)).toEqual([expect.closeTo(1 / 1.5, 2), expect.closeTo(1.5, 2)]);
  });

  it('takes the mean of lines that differ for the same work, not the quick one', () => {
    const minutes = (...logged: number[]) => {
      const log = logged.map((each) => ({ amounts: { sawing: 10 }, minutes: each }));
      return 10 * calibrate(log, timeConstants(), 0).constants.sawing.likely;
    };
    expect(minutes(60, 180)).toBeCloseTo(120, 6);
    expect(minutes(60, 600)).toBeCloseTo(330, 6);
    expect(minutes(90, 100, 110)).toBeCloseTo(100, 6);
  });

  it('weighs lines by the time that the fit itself has for them, not that of a fit on the way', () => {
    const log = [
      { amounts: { sawing: 10, drilling: 5 }, minutes: 60 },
      { amounts: { sawing: 10, drilling: 5 }, minutes: 140 },
      { amounts: { sawing: 4, drilling: 20 }, minutes: 50 },
      { amounts: { sawing: 8, drilling: 12 }, minutes: 110 },
    ];
    const { sawing, drilling } = calibrate(log, timeConstants(), 0).constants;
    // Where differences over squares of the fitted times add up to 0 for each work, no other constants do better.
    const slope = (of: 'sawing' | 'drilling') =>
      log.reduce((sum, { amounts, minutes }) => {
        const fitted = amounts.sawing * sawing.likely + amounts.drilling * drilling.likely;
        return sum + (amounts[of] * (minutes - fitted)) / fitted ** 2;
      }, 0);
    expect([slope('sawing'), slope('drilling')]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
  });

  it('widens the range of the work whose lines differ, and not for a line with hardly any of it', () => {
    const sawn = [100, 102].map((minutes) => ({ amounts: { sawing: 10 }, minutes }));
    const drilled = [4, 16].map((minutes) => ({ amounts: { drilling: 10 }, minutes }));
    const { sawing, drilling } = calibrate([...sawn, ...drilled]).constants;
    expect([sawing.low / sawing.likely, sawing.high / sawing.likely]).toEqual([
      expect.closeTo(0.8, 9),
      expect.closeTo(1.2, 9),
    ]);
    expect(drilling.high / drilling.likely).toBeGreaterThan(1.5);
    // Five minutes for a cut of 5 cm: ten times as long as the others say, and half a minute of 200.
    const short = calibrate([...sawn, { amounts: { sawing: 0.05 }, minutes: 5 }]).constants.sawing;
    expect(short.high / short.likely).toBeLessThan(2);
  });

  it('never makes a constant negative, and stands an empty log', () => {
    const odd = [
      { amounts: { sawing: 1, turning: 100 }, minutes: 5 },
      { amounts: { sawing: 1, turning: 0 }, minutes: 20 },
    ];
    const { constants } = calibrate(odd, timeConstants(), 1e-6);
    for (const name of TIME_NAMES) expect(constants[name].likely).toBeGreaterThanOrEqual(0);
    expect(calibrate([])).toMatchObject({ error: 0, worst: 0, fitted: [] });
  });
});

describe('the solver', () => {
  it('solves a system by hand and leaves out what the matrix says nothing about', () => {
    expect(
      solveSymmetric(
        [
          [4, 2],
          [2, 3],
        ],
        [10, 9],
      ),
    ).toEqual([expect.closeTo(1.5, 12), expect.closeTo(2, 12)]);
    expect(
      solveSymmetric(
        [
          [2, 0],
          [0, 0],
        ],
        [4, 0],
      ),
    ).toEqual([expect.closeTo(2, 12), 0]);
  });
});

describe('amounts and times that make no sense', () => {
  const hour: LoggedWork = { amounts: { sawing: 5 }, minutes: 60 };
  const wrong = (value: number) => ({ low: 1, likely: value, high: 3 });
  const own = (likely: number) => ({ ...timeConstants(), drilling: wrong(likely) });
  it.each([
    ['amounts.drilling', () => workTime({ drilling: Number.NaN })],
    ['amounts', () => workTime(null as never)],
    ['constants.drilling.likely', () => workTime({ drilling: 1 }, own(-1))],
    ['constants.drilling', () => workTime({ drilling: 1 }, own(9))],
    ['own.drilling.likely', () => timeConstants({ drilling: wrong(-1) })],
    ['pieces', () => amountsOf({} as never, {} as never, Number.NaN)],
    ['pieces', () => amountsOf({} as never, {} as never, -1)],
    ['log[1].minutes', () => calibrate([hour, { ...hour, minutes: 0 }])],
    ['log[0].amounts.sawing', () => calibrate([{ ...hour, amounts: { sawing: -5 } }])],
    ['hold', () => calibrate([hour], timeConstants(), Number.NaN)],
  ])('are refused and named: %s', (field, run) => {
    expect(run).toThrow(FretlayError);
    expect(run).toThrow(new RegExp(`^${field.replace(/[[\]]/g, '\\$&')}: `));
  });
});
