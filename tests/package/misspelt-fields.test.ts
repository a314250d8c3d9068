import { describe, expect, it } from 'vitest';
import * as fretlay from '../../src/index.ts';
import { randomBatch } from '../nesting/random-batch.ts';
import { handLayout } from '../sheet/hand-layout.ts';

/** A misspelt name says nothing to anyone: it is told with the one that was meant, and what is wider than ours passes. */

const batch = { ...randomBatch(5), demands: [...randomBatch(5).demands] };
const [demand] = batch.demands;
const [board] = batch.boards;
const layout = handLayout();
const title = { job: 'job', unit: 'mm', kerf: 1 } as const;
const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40"><path d="M0 0H40V40H0z"/></svg>';
const JOB = JSON.stringify({ pattern: 'p.svg', boards: [{ id: 'W', length: '90 mm', width: '60 mm' }] });

// What no compiler has seen: a compiler tells the slips that stand in place.
// biome-ignore lint/suspicious/noExplicitAny: the arguments are wrong on purpose
const lib = fretlay as any;
const layOut = (change: object, options = {}) =>
  lib.layOut({ ...batch, ...change }, { effort: 0, ...options });
const without = (record: object, name: string, instead: object) => ({
  ...record,
  [name]: undefined,
  ...instead,
});

/** Message of each issue with its field, of what is thrown now or later. */
async function told(run: () => unknown): Promise<string[]> {
  try {
    await run();
    return [];
  } catch (error) {
    if (!(error instanceof fretlay.FretlayError)) throw error;
    return error.issues.map(({ message, where }) => `${where?.field}: ${message}`);
  }
}

describe('a misspelt field', () => {
  it.each<[field: string, meant: string, run: () => unknown]>([
    ['batch.setsTogehter', 'setsTogether', () => layOut({ setsTogehter: true })],
    ['batch.keepp', 'keep', () => layOut({ keep: undefined, keepp: { length: 90, width: 40 } })],
    ['batch.clearence', 'clearance', () => layOut(without({}, 'clearance', { clearence: 1 }))],
    ['batch.reach.trhoat', 'throat', () => layOut({ reach: { trhoat: 400 } })],
    ['batch.demands[0].stcak', 'stack', () => layOut({ demands: [{ ...demand, stcak: 2 }] })],
    [
      'batch.demands[0].rules.grainTolerence',
      'grainTolerance',
      () =>
        layOut({
          demands: [{ ...demand, rules: without(demand.rules, 'grainTolerance', { grainTolerence: 5 }) }],
        }),
    ],
    [
      'batch.boards[0].thicknes',
      'thickness',
      () => layOut({ boards: [without(board, 'thickness', { thicknes: 19 })] }),
    ],
    [
      'batch.boards[0].trimm',
      'trim',
      () =>
        layOut({ boards: [{ ...board, trimm: { topEdge: 3, straightEdge: 0, leftEnd: 0, rightEnd: 0 } }] }),
    ],
    ['batch.boards[0].takenfirst', 'takenFirst', () => layOut({ boards: [{ ...board, takenfirst: true }] })],
    [
      'batch.pins[0].turnedover',
      'turnedOver',
      () =>
        layOut({
          pins: [{ layer: 'L', part: 'P', board: 'B', number: 1, x: 0, y: 0, rotation: 0, turnedover: true }],
        }),
    ],
    ['options.efort', 'effort', () => lib.layOut(batch, { efort: 0 })],
    [
      'offers[0].pirce',
      'price',
      () => lib.whatToBuy(batch, [without(board, 'price', { id: 'O', pirce: 5 })], { effort: 0 }),
    ],
    ['options.efort', 'effort', () => lib.runJob(fretlay.readJob(JOB), SVG, { efort: 0 })],
    ['options.throatt', 'throat', () => lib.planCuts(layout, { throatt: 400 })],
    ['options.neckAlon', 'neckAlong', () => lib.checkPattern(lib.readPattern(SVG).pattern, { neckAlon: 2 })],
    ['options.jionGap', 'joinGap', () => lib.readPattern(SVG, { jionGap: 1 })],
    ['options.pixelPerInch', 'pixelsPerInch', () => lib.readPattern(SVG, { pixelPerInch: 72 })],
    ['batch.sets_together', 'setsTogether', () => layOut({ sets_together: true })],
    ['options.papper', 'paper', () => lib.boardPages(layout, { ...title, papper: 'a3' })],
    [
      'options.clearence',
      'clearance',
      () => lib.drawPlacementSheets(layout.boards, { ...title, clearence: 1 }),
    ],
    ['own.sawwing', 'sawing', () => lib.timeConstants({ sawwing: { low: 1, likely: 2, high: 3 } })],
    ['amounts.drillin', 'drilling', () => lib.workTime({ drillin: 4 })],
    ['rates.laborPerHour', 'labourPerHour', () => lib.estimate({}, { laborPerHour: 25 })],
  ])('is told with the one that was meant: %s', async (field, meant, run) => {
    const all = await told(run);
    expect(all).toContain(`${field}: there is no such field; did you mean "${meant}"?`);
    // Once: the field that is missing for it is not told besides.
    expect(all.filter((each) => each.startsWith(`${field.replace(/[^.]*$/, meant)}:`))).toEqual([]);
  });

  it('is none where the name is that of another thing, or the value can be none of the field', async () => {
    class Stacked {
      readonly stcak = 2;
    }
    const wider = {
      boards: [{ ...board, shelf: 'left', supplier: { name: 'x' }, sheet: undefined, trimmed: undefined }],
      demands: [
        // A board of its own by id, where the field of a like name is a number.
        { ...demand, stock: 'W', name: 'hull', element: '<path>' },
        // Fields of a class are its own.
        Object.assign(new Stacked(), { ...demand, part: 'other' }),
      ],
      keeps: 'nothing',
      pins: undefined,
    };
    expect(await told(() => layOut(wider, { file: 'job.json', files: {} }))).toEqual([]);
  });

  it.each<[name: string, run: () => unknown]>([
    [
      'what a shop knows of its stock, pins, boards and saw besides',
      () =>
        layOut(
          {
            demands: [{ ...demand, stock: 3 }],
            boards: [without(board, 'price', { sheets: true, prime: 3, strip: 2 })],
            pin: [],
            bins: [],
            kept: { length: 90, width: 40 },
          },
          { speed: 3, feed: 2, worker: 1, seed: undefined },
        ),
    ],
    ['the data and the fill of a drawing', () => lib.readPattern(SVG, { data: 'x', fill: 'none' })],
    ['the saws of a shop', () => lib.checkPattern(lib.readPattern(SVG).pattern, { saws: {} })],
    [
      'the designer of a design, the data of a program',
      () => lib.boardPages(layout, { ...title, designer: 'a name', data: 'x', number: true }),
    ],
    ['minutes of burning with a pen', () => lib.workTime({ burning: 4, spreading: 2 })],
  ])('is none where it is a word of its own: %s', async (_, run) => {
    expect(await told(run)).toEqual([]);
  });

  it('is none in what the library hands out', async () => {
    const job = fretlay.readJob(JOB);
    const result = await fretlay.runJob(job, SVG, { effort: 0, file: 'job.json', files: {} });
    // The facts of the pages for a single sheet: the plans of all boards are not a misspelt plan of one.
    const plans = new Map([['W-1', (await fretlay.planWork(job, result)).cutPlan.boards[0]]]);
    expect(
      await told(() => lib.drawPlacementSheets(result.layout.boards, { ...title, plans }, plans)),
    ).toEqual([]);
    // The whole result where its parts are asked for, options of one step for another.
    expect(await told(() => fretlay.planWork(job, result))).toEqual([]);
    expect(await told(() => fretlay.layOut(result.batch, { ...job, effort: 0 }))).toEqual([]);
    expect(await told(() => fretlay.boardPages(result.layout, { ...title, ...result.layout }))).toEqual([]);
    expect(
      await told(() =>
        fretlay.rackAfter(
          JSON.stringify({ boards: JSON.parse(JOB).boards }),
          result.layout,
          result.batch.boards,
          { ...job, date: undefined },
        ),
      ),
    ).toEqual([]);
  });
});
