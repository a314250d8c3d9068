import type { NestingProblem } from './problem.ts';

/**
 * The boards behind the containers of a problem. Whoever takes one section of a board has paid for all of them, so
 * what counts is boards, not sections: another section of an opened board is free, another board is not.
 */
export interface WholeBoard {
  /** Numbers of its containers, in their order. */
  readonly containers: readonly number[];
  /** What taking it costs. */
  readonly cost: number;
  /** Usable area of all its containers, mm2. */
  readonly area: number;
  /** Boards with the same text are interchangeable. */
  readonly kind: string;
}

/** The boards of a problem, in the order of their first containers. */
export function wholeBoards({ containers }: Pick<NestingProblem, 'containers'>): WholeBoard[] {
  const boards = new Map<number | string, number[]>();
  containers.forEach(({ board }, k) => {
    const key = board ?? `container ${k}`;
    const known = boards.get(key);
    if (known === undefined) boards.set(key, [k]);
    else known.push(k);
  });
  return [...boards.values()].map((numbers) => ({
    containers: numbers,
    cost: containers[numbers[0]].cost,
    area: numbers.reduce((sum, k) => sum + containers[k].area, 0),
    kind: numbers.map((k) => containers[k].kind).join(' '),
  }));
}
