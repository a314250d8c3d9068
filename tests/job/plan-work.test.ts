import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { JobInput } from '../../src/job/job-schema.ts';
import { planWork, type WorkPlan } from '../../src/job/plan-work.ts';
import { readJob, tryReadJob } from '../../src/job/read-job.ts';
import { type JobResult, runJob } from '../../src/job/run-job.ts';
import { replay } from '../sawing/replay.ts';

const fixture = (name: string) => readFileSync(new URL(`../../fixtures/${name}`, import.meta.url), 'utf8');
const LAKE: JobInput = JSON.parse(fixture('lake-shore/job.json'));
const jobWith = (fields: Partial<JobInput>) =>
  readJob(JSON.stringify({ ...LAKE, sets: 1, effort: 0, ...fields }));

describe('the work on a set of the lake shore', () => {
  const job = jobWith({ costs: { batchSizes: [1, 2] } });
  let result: JobResult;
  let work: WorkPlan;
  beforeAll(async () => {
    result = await runJob(job, fixture('lake-shore/pattern.svg'));
    work = await planWork(job, result);
  }, 60_000);

  it('can be carried out at the saw, cut by cut', () => {
    expect(replay(result.layout, work.cutPlan)).toEqual([]);
    expect(work.cutPlan.travel).toBeLessThan(work.cutPlan.travelLeftToRight);
  });

  it('adds up: hours to labour, lines to the batch, and a piece of a larger batch costs less', () => {
    const { time, lines, batch } = work.estimate;
    const labour = lines.find(({ name }) => name === 'Labour');
    expect(labour?.cents.likely).toBe(Math.round((time.total.likely / 60) * 2500));
    expect(lines.reduce((sum, { cents }) => sum + cents.likely, 0)).toBe(batch.likely);
    const [one, two] = work.batchSizes;
    expect([one.sets, two.sets]).toEqual([1, 2]);
    expect(two.piece.likely).toBeLessThan(one.piece.likely);
  });

  it('knows no wood of a size whose boards have no price, and costs it without', async () => {
    expect(work.batchSizes.every(({ wood }) => wood !== undefined && wood > 0)).toBe(true);
    const boards = result.batch.boards.map((board) => ({ ...board, price: undefined }));
    const unpriced = await planWork(job, { ...result, batch: { ...result.batch, boards } });
    expect(unpriced.batchSizes.map(({ wood }) => wood)).toEqual([undefined, undefined]);
  });

  it('stacks the four layers, stands on one plane, and knows that nothing holds the sun', () => {
    const { assembly } = work;
    expect(assembly.width).toBeCloseTo(280, 0);
    expect(assembly.depth).toBeCloseTo((13 / 16 + 1 / 2 + 1 / 4 + 13 / 16) * 25.4, 3);
    expect(assembly.issues.filter(({ kind }) => kind === 'rest-edge-off-plane')).toEqual([]);
    const loose = assembly.issues.filter(({ kind }) => kind === 'part-held-by-nothing');
    expect(loose.map(({ where }) => where?.part)).toEqual(['sun']);
  });

  it('fits the times to a log, and reports the error', async () => {
    const log = [{ minutes: 200, cutLength: '6 m', species: 'black walnut', thickness: '13/16 in' }];
    const { calibration } = await planWork(jobWith({ work: { log }, costs: { batchSizes: [] } }), result);
    expect(calibration?.fitted).toEqual(['sawing']);
    expect(calibration?.constants.sawing.likely).toBeGreaterThan(11.2);
    expect(calibration?.error).toBeLessThan(calibration?.errorBefore ?? 0);
  });
});

it('a piece with several copies of a part has all of them to sand, glue and finish', async () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60"><g id="Back"><path id="base" d="M0 0H100V60H0Z"/></g><g id="Front"><path id="fir" d="M10 10H30V50H10Z"/><path id="leaf" d="M50 10H70V50H50Z"/></g></svg>';
  const job = readJob(
    JSON.stringify({
      pattern: 'shore.svg',
      sets: 2,
      effort: 0,
      layers: { Front: { copiesOf: { leaf: 3 } } },
      costs: { batchSizes: [] },
      boards: [{ id: 'A', species: 'basswood', thickness: 6, length: 800, width: 200 }],
    }),
  );
  const { estimate } = await planWork(job, await runJob(job, svg));
  const amounts = Object.fromEntries(estimate.time.lines.map(({ constant, amount }) => [constant, amount]));
  // Two pieces of a base of 100 x 60 mm and, on it, a fir and three leaves of 20 x 40 mm, all 6 mm thick.
  expect(amounts.gluing).toBe(2 * 4);
  expect(amounts.faceSanding).toBeCloseTo((2 * 2 * (6000 + 4 * 800)) / 1e6, 9);
  expect(amounts.finishing).toBeCloseTo((2 * (12000 + 320 * 6 + 4 * (1600 + 120 * 6))) / 1e6, 9);
});

describe('rates of a job', () => {
  it('are written for a foot, a square foot or an ounce where the maker thinks in these', () => {
    const { costs, work } = jobWith({
      costs: { finishPerSquareFoot: 0.4, gluePerOunce: 0.5 },
      work: { times: { sawing: { perFoot: [3, 5] }, faceSanding: { perSquareFoot: 1 }, drilling: 0.3 } },
    });
    // 1 m2 is 10.7639 sq ft, 1 kg 35.274 oz, 1 m 3.28084 ft.
    expect(costs.finishPerSquareMetre).toBeCloseTo(0.4 * 10.7639, 4);
    expect(costs.gluePerKilogram).toBeCloseTo(0.5 * 35.27396, 4);
    expect(costs.patternPerSquareMetre).toBe(4);
    expect(work.times.sawing?.likely).toBeCloseTo(4 * 3.28084, 4);
    expect(work.times.faceSanding?.likely).toBeCloseTo(10.7639, 4);
    expect(work.times.drilling?.likely).toBe(0.3);
  });

  it('are refused when stated twice, or for a foot of what is not measured by it', () => {
    const fields = (job: Partial<JobInput>) =>
      tryReadJob(JSON.stringify({ ...LAKE, ...job })).issues.map(({ where }) => where?.field);
    expect(fields({ costs: { gluePerOunce: 1, gluePerKilogram: 30 } })).toEqual(['costs.gluePerOunce']);
    expect(fields({ work: { times: { drilling: { perFoot: 1 } } } })).toEqual(['work.times.drilling']);
    expect(fields({ work: { times: { sawing: { perSquareFoot: 1 } } } })).toEqual(['work.times.sawing']);
  });
});

describe('the blade of a job', () => {
  it('gives its measured kerf to the layout, and its width and hole to the check', () => {
    const blades = [
      { name: 'Mine', width: '0.04 in', thickness: '0.016 in', kerf: '0.55 mm', hole: '1.8 mm' },
    ];
    const job = jobWith({ kerf: 'blade', work: { blade: 'Mine', blades } });
    expect(job.kerf).toBe(0.55);
    expect(job.saw.bladeWidth).toBeCloseTo(1.016, 9);
    expect(job.saw.hole).toBe(1.8);
    expect(jobWith({ kerf: 'blade', work: { blade: 'No. 5' } }).kerf).toBeCloseTo(0.018 * 25.4, 9);
  });

  it('leaves an old job as it was', () => {
    const job = jobWith({});
    expect(job.kerf).toBe(0.6);
    expect(job.saw.bladeWidth).toBeUndefined();
  });

  it('is refused by name when nobody knows it', () => {
    for (const fields of [{ work: { blade: 'No. 6' } }, { kerf: 'blade' as const }]) {
      const { issues } = tryReadJob(JSON.stringify({ ...LAKE, ...fields }));
      expect(issues.map(({ where }) => where?.field)).toEqual(['work.blade']);
      expect(issues[0].message).toContain('"No. 5"');
    }
  });
});
