import type { LaidBoard } from '../model/layout.ts';

/**
 * How often one layout is sawn, as the end of a sentence on its board; empty for a single board. Boards with names of
 * their own are a stack, sawn at once; others are sawn alike, one after the other.
 */
export function stackWords({ copies, pieces }: Pick<LaidBoard, 'copies' | 'pieces'>): string {
  if (copies === 1) return '';
  return pieces === undefined
    ? `, saw ${copies} boards like this`
    : `, in a stack of ${copies} boards sawn at once`;
}

/** The same in few words, for the head of a page; empty for a single board. */
export function shortStackWords({ copies, pieces }: Pick<LaidBoard, 'copies' | 'pieces'>): string {
  if (copies === 1) return '';
  return pieces === undefined ? `saw ${copies} alike` : `stack of ${copies}`;
}
