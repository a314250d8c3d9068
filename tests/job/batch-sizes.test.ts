import { expect, it } from 'vitest';
import { planWork } from '../../src/job/plan-work.ts';
import { readJob } from '../../src/job/read-job.ts';
import { runJob } from '../../src/job/run-job.ts';
import { TIME_NAMES } from '../../src/sawing/time/time-constants.ts';

it('costs batches of parts that come nearer to themselves than their outlines are taken for it', async () => {
  // A spiral of 3 mm.
  const outline =
    'M12.1615 11.5705L12.1986 11.7334L12.1406 11.9221L11.9768 12.0813L11.7271 12.1537L11.4409 12.0962L11.1875 11.8944L11.0393 11.5705L11.0537 11.1821L11.2558 10.8125L11.628 10.553L12.109 10.4806L12.6035 10.6384L13.0012 11.021L13.2008 11.5705L13.1349 12.1843L12.7886 12.7346L12.2081 13.0945L11.4958 13.1669L10.793 12.9088L10.2511 12.3454L10 11.5705L10.1173 10.7311L10.6078 10L10.8618 10.3184L10.4843 10.9078L10.4073 11.5705L10.6181 12.1686L11.0469 12.5903L11.5865 12.7698L12.1175 12.6975L12.5358 12.4176L12.7855 12.0161L12.8307 11.5705L12.6837 11.1739L12.3948 10.9001L12.0384 10.7896L11.6946 10.8447L11.4314 11.0327L11.2914 11.2965L11.2854 11.5705L11.3933 11.7953L11.5723 11.9315L11.7701 11.9655L11.9378 11.9104L12.0424 11.7989L12.0725 11.6727L12.0393 11.5705Z';
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><g id="L"><path d="${outline}"/></g></svg>`;
  const job = readJob(
    JSON.stringify({
      pattern: 'p.svg',
      effort: 0,
      boards: [{ id: 'B', length: 200, width: 60, price: 3 }],
      costs: { batchSizes: [2] },
    }),
  );
  const { batchSizes } = await planWork(job, await runJob(job, svg));
  expect(batchSizes.map(({ sets }) => sets)).toEqual([1, 2]);
});

it('threads the blade and sticks the paper on once for a stack, and once for a set that is sawn by itself', async () => {
  const square = 'M2 2H28V28H2ZM10 10H20V20H10Z';
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="30mm" viewBox="0 0 30 30"><g id="L"><path fill-rule="evenodd" d="${square}"/></g></svg>`;
  const times = Object.fromEntries(TIME_NAMES.map((name) => [name, 0]));
  const job = readJob(
    JSON.stringify({
      pattern: 'p.svg',
      sets: 3,
      effort: 0,
      saw: { stackHeight: 18 },
      layers: { L: { thickness: 6, stacked: true } },
      boards: [{ id: 'B', thickness: 6, length: 200, width: 60, quantity: 3 }],
      costs: { batchSizes: [1, 6] },
      work: { times: { ...times, threading: 10, sticking: 2 } },
    }),
  );
  const laid = await runJob(job, svg);
  const { batchSizes } = await planWork(job, laid);
  const nothing = { ...laid.layout, boards: [], figures: { ...laid.layout.figures, completeSets: 0 } };
  const empty = await planWork(job, { ...laid, layout: nothing });
  expect(empty.batchSizes.every(({ minutes }) => minutes.likely >= 0)).toBe(true);
  // Three sets make one stack, threaded once, as one set alone is; six are two places on the boards of one stack.
  expect(batchSizes.map(({ sets, minutes }) => [sets, minutes.likely])).toEqual([
    [1, 12],
    [3, 4],
    [6, (2 * 10 + 2) / 6],
  ]);
});

it('wears out half as many blades where 6 mm is sawn by itself that lies in stacks of three', async () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="30mm" viewBox="0 0 30 30"><g id="L"><path d="M2 2H28V28H2Z"/></g></svg>';
  const free = {
    labourPerHour: 0,
    overhead: 0,
    patternPerSquareMetre: 0,
    perHole: 0,
    finishPerSquareMetre: 0,
  };
  const job = readJob(
    JSON.stringify({
      ...{ pattern: 'p.svg', sets: 3, effort: 0, saw: { stackHeight: 18 } },
      layers: { L: { thickness: 6, stacked: true } },
      boards: [{ id: 'B', thickness: 6, length: 200, width: 60, quantity: 3, price: 0 }],
      costs: { ...free, perBlade: 10000, batchSizes: [1] },
      work: { blade: 'No. 5' },
    }),
  );
  const { batchSizes } = await planWork(job, await runJob(job, svg));
  const [single, stacked] = batchSizes.map(({ piece }) => piece.likely);
  // Three times as thick, a blade lasts half as long, and the minutes of sawing are the same.
  expect(single / stacked).toBeCloseTo(0.5, 3);
});

it('takes a keeper once: what is repeated is laid out on fresh boards', async () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="30mm" viewBox="0 0 30 30"><g id="L"><path d="M0 0H30V30H0Z"/></g></svg>';
  // Room for one part on each.
  const board = { thickness: 6, length: 40, width: 40 };
  const keeper = { ...board, id: 'K', price: 1, keeper: true };
  const fresh = { ...board, id: 'B', price: 9 };
  const woodOf = async (boards: readonly object[]) => {
    const layers = { L: { thickness: 6 } };
    const costs = { batchSizes: [2, 20], keeperCredit: 0 };
    const job = readJob(
      JSON.stringify({ ...{ pattern: 'p.svg', effort: 0, take: 'keepers first' }, layers, boards, costs }),
    );
    const { batchSizes } = await planWork(job, await runJob(job, svg));
    return batchSizes.map(({ sets, boards: taken, wood }) => [sets, taken, wood]);
  };
  expect(await woodOf([keeper, fresh])).toEqual([
    [1, 1, 100],
    [2, 2, 500],
    [20, 20, 900],
  ]);
  expect(await woodOf([keeper])).toEqual([[1, 1, 100]]);
});

it('counts whole boards where they are ripped into strips: those left of one board serve when the batch is repeated', async () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="190mm" height="40mm" viewBox="0 0 190 40"><g id="L"><path d="M0 0H190V40H0Z"/></g></svg>';
  const job = readJob(
    JSON.stringify({
      ...{ pattern: 'p.svg', sets: 10, effort: 0 },
      boards: [{ id: 'B', thickness: 6, length: 200, width: 165, quantity: 4, price: 3, strips: 3 }],
      costs: { batchSizes: [1, 20] },
    }),
  );
  const { batchSizes } = await planWork(job, await runJob(job, svg));
  // One on each strip: ten take four boards of three strips, twenty take seven.
  expect(batchSizes.map(({ sets, boards }) => [sets, boards])).toEqual([
    [1, 1],
    [10, 4],
    [20, 7],
  ]);
});
