import type { Issue } from '../issues/issue.ts';
import type { Demand, PlacingRules } from '../model/batch.ts';
import type { Layer, Pattern } from '../model/pattern.ts';
import type { Board } from '../model/stock.ts';
import { copiesInSet, rulesOf } from './cut-in-batch.ts';
import type { Job, JobLayer } from './job-schema.ts';
import { woodOfLayer } from './wood-of-layer.ts';

/**
 * What is to be cut of each part of a pattern, and from which wood. A layer whose wood is in doubt is told, and has no
 * demands.
 *
 * @param boards all boards of the job, at hand and for sale
 */
export function demandsOfJob(
  job: Job,
  pattern: Pattern,
  boards: readonly Board[],
  file: string,
): { readonly demands: readonly Demand[]; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const demands = pattern.layers.flatMap((layer): Demand[] => {
    const rules = rulesOf(job, layer.name);
    const cut = layer.parts.filter(({ name }) => copiesInSet(rules, name) > 0);
    // Where nothing of a layer is cut its wood need not be at hand any more.
    if (cut.length === 0) return [];
    const choice = woodOfLayer(rules, boards, job);
    if (choice.ok) return demandsOfLayer(layer.name, cut, rules, choice.wood, job.saw.stackHeight);
    issues.push({
      severity: 'error',
      ...choice.issue,
      where: { file, field: `layers.${layer.name}.${choice.field}` },
    });
    return [];
  });
  return { demands, issues };
}

function demandsOfLayer(
  layer: string,
  cut: Layer['parts'],
  rules: JobLayer,
  wood: Pick<Demand, 'species' | 'thickness'>,
  stackHeight: number,
): Demand[] {
  return cut.map((part) => ({
    part: part.name,
    layer,
    region: part.region,
    veins: part.veins,
    copiesPerSet: copiesInSet(rules, part.name),
    ...wood,
    rules: placingRules(rules),
    ...(rules.stacked ? { stack: stackFor(wood.thickness, stackHeight) } : {}),
  }));
}

/** Boards of a thickness that make a stack no higher than `height`; at least one. */
function stackFor(thickness: number, height: number): number {
  return Math.max(1, Math.floor((height + 1e-6) / thickness));
}

function placingRules({ grain, grainTolerance, turnOver, restEdge }: JobLayer): PlacingRules {
  return { grain, grainTolerance, turnOver, restEdge };
}
