import { Arrangement } from '../arrangement/arrangement.ts';
import { costOfUsed, type Score } from '../arrangement/score.ts';
import { copiesByArea, placeInOrder } from '../construct/construct.ts';
import { areaOfCopies } from '../problem/area-of-copies.ts';
import { type BoardChoice, boardChoices, FULLEST } from '../problem/board-choices.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { boardsByKind, costOfChoice, type WholeBoard } from '../problem/whole-boards.ts';
import type { Pulse } from '../running/pulse.ts';

/**
 * Choices of boards that cost less than the present one, the most hopeful first. Area alone does not tell which those are:
 * parts fill one size of board well and leave half of another. So a board of every kind is also filled by itself, and what
 * it then holds counts.
 */
export class CheaperChoices {
  readonly #problem: NestingProblem;
  readonly #pulse: Pulse;
  readonly #need: number;
  readonly #ofKind: readonly (readonly WholeBoard[])[];
  #held: ReadonlyMap<WholeBoard, number> | undefined;

  constructor(problem: NestingProblem, pulse: Pulse) {
    this.#problem = problem;
    this.#pulse = pulse;
    this.#need = areaOfCopies(problem, problem.shapeOf.keys());
    this.#ofKind = boardsByKind(problem);
  }

  /**
   * Containers of the choices that cost less than an arrangement with this score and could be large enough: by turns the
   * one of most area, and the cheapest of those whose boards, each filled by itself, hold as much as all copies. Of hundreds
   * of boards there are thousands of choices: an abort is heard while they are sorted, and none is handed back.
   */
  async below(score: Score): Promise<number[][]> {
    const kinds = this.#ofKind.map((members) => {
      const [board] = members;
      return { members, cost: costOfChoice(board), room: board.area };
    });
    const choices = boardChoices(kinds, costOfUsed(score) * (1 - 1e-9), this.#need / FULLEST);
    if (choices.length < 2) return choices.map(containersOf);
    this.#held ??= await this.#whenFilled();
    const enough = this.#need * (1 - 1e-9);
    const holdAll: BoardChoice<WholeBoard>[] = [];
    for (const choice of choices) {
      if (this.#pulse.due) await this.#pulse.breathe();
      if (this.#pulse.stopped) return [];
      if (this.#heldBy(choice) >= enough) holdAll.push(choice);
    }
    const cheapest = holdAll.sort((a, b) => a.cost - b.cost);
    const roomiest = choices.toSorted((a, b) => b.room - a.room);
    const byTurns = roomiest.flatMap((choice, i) => [choice, ...cheapest.slice(i, i + 1)]);
    const containers: number[][] = [];
    for (const choice of new Set(byTurns)) {
      if (this.#pulse.due) await this.#pulse.breathe();
      if (this.#pulse.stopped) return [];
      containers.push(containersOf(choice));
    }
    return containers;
  }

  #heldBy({ members }: BoardChoice<WholeBoard>): number {
    return members.reduce((sum, board) => sum + this.#held!.get(board)!, 0);
  }

  /** Area in mm2 of the copies that lie on a board when it is filled by itself. */
  async #whenFilled(): Promise<Map<WholeBoard, number>> {
    const held = new Map<WholeBoard, number>();
    for (const members of this.#ofKind) {
      const filled = new Arrangement(this.#problem.shapeOf.length);
      const order = copiesByArea(this.#problem);
      await placeInOrder(this.#problem, filled, order, members[0].containers, this.#pulse);
      const lying = [...filled.container.keys()].filter((item) => filled.container[item] >= 0);
      const area = areaOfCopies(this.#problem, lying);
      for (const board of members) held.set(board, area);
    }
    return held;
  }
}

function containersOf({ members }: BoardChoice<WholeBoard>): number[] {
  return members.flatMap(({ containers }) => containers);
}
