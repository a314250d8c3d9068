import type { Issue } from '../issues/issue.ts';
import type { Demand } from '../model/batch.ts';
import { formatThickness } from '../units/distances.ts';
import type { Job } from './job-schema.ts';

/** A warning for every layer with `stacked` of whose boards not even two are as low as `stackHeight`: they are sawn singly. */
export function stackIssues(
  { layers, saw, sets, unit }: Job,
  demands: readonly Demand[],
  file: string,
): Issue[] {
  if (sets < 2) return [];
  return Object.entries(layers).flatMap(([layer, { stacked }]): Issue[] => {
    const demand = demands.find((one) => one.layer === layer);
    if (!stacked || demand === undefined || (demand.stack ?? 1) > 1) return [];
    return [
      {
        kind: 'stack-not-made',
        severity: 'warning',
        message: 'two boards of this layer are higher than a stack may be, so it is sawn board by board',
        expected: `at most ${formatThickness(saw.stackHeight, unit)}`,
        received: `twice ${formatThickness(demand.thickness, unit)}`,
        remedy: 'Raise "stackHeight" under "saw" as far as your saw and blade allow, or leave "stacked" out.',
        where: { file, field: `layers.${layer}.stacked` },
      },
    ];
  });
}
