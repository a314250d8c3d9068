import { expect, it } from 'vitest';
import { restEdgeIssues } from '../../src/job/rest-edge-issues.ts';
import type { Demand } from '../../src/model/batch.ts';
import { disc, rectangle } from '../sawing/boards.ts';

const demand = (part: string, outline: Demand['region']['outline'], restEdge = true): Demand => ({
  ...{ part, layer: 'Bank', region: { outline, openings: [] }, veins: [], copiesPerSet: 1 },
  ...{ species: 'walnut', thickness: 19 },
  rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge },
});

it('parts without a flat bottom that are to stand on the straight edge are told once for their layer', () => {
  const bank = demand('bank', rectangle(0, 0, 200, 30));
  expect(restEdgeIssues([bank, demand('sun', disc(0, 0, 20, 90), false)], 'job.json')).toEqual([]);
  // A heron on two feet of 4 mm, 60 mm from end to end under a body of 100 mm, stands; on the one of them it would not.
  const heron: Demand['region']['outline'] = [
    [0, 0],
    [100, 0],
    [80, 40],
    [80, 60],
    [76, 60],
    [76, 40],
    [24, 40],
    [24, 60],
    [20, 60],
    [20, 40],
  ];
  expect(restEdgeIssues([demand('heron', heron)], 'job.json')).toEqual([]);
  const oneLegged = heron.slice(0, -3).concat([[20, 40]]);
  expect(restEdgeIssues([demand('heron', oneLegged)], 'job.json')).toHaveLength(1);
  // A boat that is drawn over the bank reaches below it.
  const boat = [
    [0, 0],
    [200, 0],
    [200, 30],
    [120, 30],
    [110, 38],
    [104, 40],
    [98, 38],
    [90, 30],
    [0, 30],
  ] as const;
  const issues = restEdgeIssues([bank, demand('sun', disc(0, 0, 20, 90)), demand('hull', boat)], 'job.json');
  expect(issues).toMatchObject([
    {
      kind: 'rest-edge-rounded',
      message: '2 parts without a flat bottom are to stand on the straight edge of a board: "sun", "hull"',
      where: { file: 'job.json', field: 'layers.Bank.restEdge' },
    },
  ]);
});
