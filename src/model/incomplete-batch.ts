import type { Layout } from './layout.ts';

/** What of a batch is whole where copies found no place, and what is cut that belongs to no whole set. */
export interface IncompleteBatch {
  readonly complete: number;
  readonly sets: number;
  /** Parts that are cut and belong to no complete set, those to spare of stacks among them. */
  readonly partsBeyond: number;
}

/** Undefined where every set is complete. */
export function incompleteBatch({ figures, sets, setContents }: Layout): IncompleteBatch | undefined {
  const { completeSets: complete, parts } = figures;
  if (complete >= sets) return undefined;
  const perSet = setContents.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
  return { complete, sets, partsBeyond: Math.max(0, parts - complete * perSet) };
}
