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
