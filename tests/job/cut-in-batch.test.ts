import { expect, it } from 'vitest';
import { groupsOfPartsCut } from '../../src/job/cut-in-batch.ts';
import type { Finding } from '../../src/model/pattern-check.ts';

it('what is told of parts alike names those that are cut, and none that is not', () => {
  const finding = (part: string): Finding => ({
    ...{ kind: 'part-small', severity: 'warning', layer: 'Shore', part, at: [0, 0], span: undefined },
    ...{
      size: 20,
      limit: 50.8,
      message: 'the part is 20 mm at its longest',
      advice: 'Leave it in the board.',
    },
  });
  const findings = ['duck', 'heron', 'goose'].map(finding);
  const content = (part: string) => ({
    ...({
      layer: 'Shore',
      part,
      copiesPerSet: 1,
      grain: 'along',
      grainTolerance: 0,
      turnOver: false,
    } as const),
  });
  const told = (...cut: string[]) =>
    groupsOfPartsCut({ findings }, { setContents: cut.map(content) }).map(({ parts, message }) => [
      parts,
      message,
    ]);
  expect(told('duck')).toEqual([[['duck'], 'the part is 20 mm at its longest']]);
  expect(told('goose', 'duck')).toEqual([
    [['duck', 'goose'], '2 parts alike, each: the part is 20 mm at its longest'],
  ]);
  expect(told()).toEqual([]);
});
