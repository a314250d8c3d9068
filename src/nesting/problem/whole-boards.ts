import type { Container } from './container.ts';
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
  /** Whether it is filled before others. */
  readonly first: boolean;
  /** Usable area of all its containers, mm2. */
  readonly area: number;
  /** Boards with the same text are interchangeable. */
  readonly kind: string;
}

/** What a board that is filled first counts for beside others, as a share of its cost: less than any of those. */
const FILLED_FIRST = 1e-4;

/** Cost by which boards are chosen: those that are filled first come before any other, however cheap. */
export function costOfChoice({ cost, first }: Pick<WholeBoard, 'cost' | 'first'>): number {
  return first ? FILLED_FIRST * cost : cost;
}

/** Boards of the containers that were asked for: every score asks for those of the same few problems. */
const KNOWN = new WeakMap<readonly Container[], readonly WholeBoard[]>();

/** The boards of a problem, in the order of their first containers. */
export function wholeBoards({ containers }: Pick<NestingProblem, 'containers'>): readonly WholeBoard[] {
  let boards = KNOWN.get(containers);
  if (boards === undefined) {
    boards = sorted(containers);
    KNOWN.set(containers, boards);
  }
  return boards;
}

function sorted(containers: readonly Container[]): WholeBoard[] {
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
    first: containers[numbers[0]].first === true,
    area: numbers.reduce((sum, k) => sum + containers[k].area, 0),
    kind: numbers.map((k) => containers[k].kind).join(' '),
  }));
}

/** The boards of a problem by their kinds, in the order of the first of each. */
export function boardsByKind(problem: Pick<NestingProblem, 'containers'>): WholeBoard[][] {
  const kinds = new Map<string, WholeBoard[]>();
  for (const board of wholeBoards(problem)) {
    const known = kinds.get(board.kind);
    if (known === undefined) kinds.set(board.kind, [board]);
    else known.push(board);
  }
  return [...kinds.values()];
}

/** Kinds of boards by what an area of theirs costs, the cheapest first. */
export function byCostOfArea(kinds: readonly (readonly WholeBoard[])[]): (readonly WholeBoard[])[] {
  const perArea = ([board]: readonly WholeBoard[]) => costOfChoice(board) / board.area;
  return kinds.toSorted((a, b) => perArea(a) - perArea(b));
}
