import { Arrangement, type Lies } from '../arrangement/arrangement.ts';
import { copiesByShape, countsByShape } from '../problem/copies-by-shape.ts';
import { excerptOf } from '../problem/excerpt.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { boardsByKind, costOfChoice, type WholeBoard } from '../problem/whole-boards.ts';
import { fittingLies } from './scatter.ts';

/** What lies on one board: on every other board of its kind the same can lie, with other copies of the same shapes. */
export interface Filling {
  /** Number of the kind of boards. */
  readonly kind: number;
  /** Copies of every shape. */
  readonly counts: Int32Array;
  /** These copies, sorted by shape, on the containers of one such board. */
  readonly layout: Arrangement;
  /** What taking the board counts. */
  readonly cost: number;
  /** Area of the copies, mm2. */
  readonly area: number;
}

/** A filling as plain data, of the copies that lie on the board: what one worker tells the others. */
export type FillingFound = Wanted & { readonly layout: Lies };

/** A filling that was not found yet: some copies on a board of some kind. */
export type Wanted = Pick<Filling, 'kind' | 'counts'>;

/** All fillings that are known of the boards of a problem. */
export class Fillings {
  readonly problem: NestingProblem;
  /** The boards by their kinds. */
  readonly kinds: readonly (readonly WholeBoard[])[];
  /** Numbers of the copies of every shape. */
  readonly ofShape: readonly (readonly number[])[];
  /** A board of every kind with nothing on it. */
  readonly empty: readonly Filling[];
  readonly #known = new Map<string, Filling>();
  /** Of every shape on every kind of boards: 1 where it can lie, 0 where not, -1 where nobody asked yet. */
  readonly #mayLie: Int8Array;

  constructor(problem: NestingProblem) {
    this.problem = problem;
    this.kinds = boardsByKind(problem);
    this.ofShape = copiesByShape(problem);
    this.#mayLie = new Int8Array(this.kinds.length * this.ofShape.length).fill(-1);
    this.empty = this.kinds.map((_, kind) =>
      this.add({ kind, counts: new Int32Array(this.ofShape.length) }, new Arrangement(0)),
    );
  }

  get all(): readonly Filling[] {
    return [...this.#known.values()];
  }

  /** Number of the known fillings. */
  get known(): number {
    return this.#known.size;
  }

  /** The known filling with just these copies. */
  find(wanted: Wanted): Filling | undefined {
    return this.#known.get(keyOf(wanted));
  }

  /** A known filling with at least these copies. */
  holding(wanted: Wanted): Filling | undefined {
    const same = this.find(wanted);
    if (same !== undefined) return same;
    for (const known of this.#known.values()) if (holds(known, wanted)) return known;
    return undefined;
  }

  /** Whether a shape can lie on a board of some kind, other copies aside. */
  mayLie(shape: number, kind: number): boolean {
    const at = kind * this.ofShape.length + shape;
    if (this.#mayLie[at] < 0) {
      const lies = fittingLies(this.problem, shape, this.kinds[kind][0].containers);
      this.#mayLie[at] = lies.length > 0 ? 1 : 0;
    }
    return this.#mayLie[at] === 1;
  }

  /** Some copies on a board of some kind as a problem of their own, sorted by shape. */
  asProblem({ kind, counts }: Wanted): NestingProblem {
    const copies = this.ofShape.flatMap((items, s) => items.slice(0, counts[s]));
    return excerptOf(this.problem, this.kinds[kind][0].containers, copies);
  }

  /** Adds a filling, and returns it. */
  add({ kind, counts }: Wanted, layout: Arrangement): Filling {
    const [board] = this.kinds[kind];
    const area = this.problem.shapes.reduce((sum, shape, s) => sum + counts[s] * shape.area, 0);
    const filling = { kind, counts, layout, cost: costOfChoice(board), area };
    this.#known.set(keyOf(filling), filling);
    return filling;
  }

  /** Adds what another worker has found, unless it is known. */
  addFound({ kind, counts, layout }: FillingFound): void {
    if (this.find({ kind, counts }) === undefined) this.add({ kind, counts }, Arrangement.of(layout));
  }

  /** Adds what lies on each board of an arrangement without overlaps. */
  addFrom(arrangement: Arrangement): void {
    const boards = this.kinds.flatMap((members, kind) =>
      members.map(({ containers }) => ({ kind, containers, copies: [] as number[] })),
    );
    const boardOf = new Map(boards.flatMap((board) => board.containers.map((k) => [k, board] as const)));
    for (const item of this.ofShape.flat()) boardOf.get(arrangement.container[item])?.copies.push(item);
    for (const { kind, containers, copies } of boards) {
      if (copies.length === 0) continue;
      const wanted = { kind, counts: countsByShape(this.problem, copies) };
      if (this.find(wanted) === undefined) this.add(wanted, arrangement.excerpt(copies, containers));
    }
  }

  /** The copies of the problem as some fillings have them; copies too few or too many lie nowhere. */
  arranged(fillings: readonly Filling[]): Arrangement {
    const arrangement = new Arrangement(this.problem.shapeOf.length);
    const next = this.ofShape.map((items) => items.values());
    const boards = this.kinds.map((members) => members.values());
    for (const { kind, counts, layout } of fillings) {
      const { containers } = boards[kind].next().value!;
      let n = 0;
      for (const [s, count] of counts.entries()) {
        for (let m = 0; m < count; m++, n++) {
          const item = next[s].next().value;
          if (item === undefined) continue;
          arrangement.layAs(item, layout, n);
          arrangement.container[item] = containers[layout.container[n]];
        }
      }
    }
    return arrangement;
  }
}

/** True when one filling has all copies of another on a board of the same kind. */
export function holds(all: Wanted, some: Wanted): boolean {
  return all.kind === some.kind && all.counts.every((copies, s) => copies >= some.counts[s]);
}

/** Names a filling by its kind of board and its copies. */
export function keyOf({ kind, counts }: Wanted): string {
  return `${kind}: ${counts.join(' ')}`;
}
