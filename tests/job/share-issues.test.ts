import { expect, it } from 'vitest';
import { formatIssue } from '../../src/issues/issue.ts';
import { tryReadJob } from '../../src/job/read-job.ts';
import { shareIssues } from '../../src/job/share-issues.ts';

const read = (costs: object) =>
  tryReadJob(JSON.stringify({ pattern: 'p.svg', boards: [{ id: 'A', length: 400, width: 200 }], costs }));

it('a markup or overhead that is most likely a percentage is remarked on', () => {
  const told = (costs: object) =>
    shareIssues(read(costs).job!, 'job.json').map((issue) => formatIssue(issue));
  expect(told({ markup: 100 })).toEqual([
    'job.json, costs.markup: a share is meant here, and this one is 100 times the cost (expected at most 5, found 100). If 100 % was meant, write 1.',
  ]);
  expect(told({ overhead: 7.5 })[0]).toContain('If 7.5 % was meant, write 0.075.');
  expect(told({ markup: 4, overhead: 0.5 })).toEqual([]);
});

it('the refusal of a share that is too large says that it is one', () => {
  const told = (costs: object) => read(costs).issues.map((issue) => formatIssue(issue));
  expect(told({ channels: [{ name: 'online', fee: 9.5 }] })).toEqual([
    expect.stringContaining(
      'costs.channels[0].fee: this number is too large (expected a share, at most 0.95: 0.065 for 6.5 %, found 9.5)',
    ),
  ]);
  expect(told({ keeperCredit: 50 })[0]).toContain('expected a share, at most 1: 0.5 for 50 %, found 50');
  expect(told({ markup: 200 })[0]).toContain('expected a share, at most 100: 1 for 100 %, found 200');
  expect(told({ overhead: 20 })[0]).toContain('expected a share, at most 10: 0.1 for 10 %, found 20');
});
