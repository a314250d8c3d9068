import { Arrangement, usedEnd } from '../arrangement/arrangement.ts';
import { clearEnd } from '../arrangement/clear-end.ts';
import { ExactCheck } from '../arrangement/exact-check.ts';
import { scoreOf } from '../arrangement/score.ts';
import { completeSetsFirst, construct, constructMeanwhile } from '../construct/construct.ts';
import { latticeLayout } from '../lattice/lattice-layout.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { wholeBoards } from '../problem/whole-boards.ts';
import { ShareOfBudget, UntilShare } from '../running/budget.ts';
import type { Pulse } from '../running/pulse.ts';
import { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { boardByBoard, moreSetsByBoard } from './board-by-board.ts';
import { fewerBoards } from './fewer-boards.ts';
import { inFinerOutlines } from './in-finer-outlines.ts';
import { KeptTrials } from './kept-trials.ts';
import { moreSets } from './more-sets.ts';
import { setsByBoard } from './sets-by-board.ts';
import { shorten } from './shorten.ts';

/** How a problem is to be solved. */
export interface SolveSettings extends Run {
  /** Arrangement without overlaps to go on from; the constructive passes are left out. */
  readonly start: Arrangement | undefined;
  /** Arrangement in boxes that is known already; the constructive passes are made all the same. */
  readonly inBoxes?: Arrangement | undefined;
  readonly seed: number;
  /** What was tried to fill single boards with in the parts of the effort before; nothing when left out. */
  readonly trials?: KeptTrials;
  /** Whether whole lattices are left out, which take seconds of hundreds of copies; tried when left out. */
  readonly brief?: boolean | undefined;
  /** Called with every better arrangement and the share of the budget that is gone. */
  readonly onBetter: (arrangement: Arrangement, done: number) => void;
}

/**
 * Copies up to which all of them are searched at once: the tables of pairs then take up to 144 MB, and grow with the square. Of more,
 * boards are filled one by one alone.
 */
const MOST_SEARCHED = 3000;

/** Share of the budget after which the boards are settled and only the used length is shortened. */
export const BOARDS_SETTLED = 0.9;

/**
 * Share of the budget after which a search in coarser outlines ends in finer ones: copies hardly change places any more, and
 * nobody exchanges layouts after it, which would not be valid in the coarser outlines of others.
 */
const FINER_FROM = 0.9;

/**
 * Share of what is spent on the choice of boards that goes to boards filled one by one: on many boards all copies at once hardly
 * ever come to lie on cheaper ones.
 */
const FILLED_SINGLY = 0.75;
const MANY_FILLED_SINGLY = 0.9;

/** Boards in use from which there are many. */
const MANY_BOARDS = 7;

/** The passes of the engine, one after the other; the result is free of overlaps. */
export async function solve(problem: NestingProblem, settings: SolveSettings): Promise<Arrangement> {
  const { budget, pulse } = settings;
  const random = new Random(settings.seed);
  let best = new Arrangement(problem.shapeOf.length);
  // All copies are pinned: there is nothing to find a place for.
  if (best.count === 0) return best;
  const check = new ExactCheck(problem);
  const keep = (next: Arrangement): boolean => {
    if (!check.isBetter(next, best)) return false;
    best = next;
    settings.onBetter(best, Math.min(1, budget.done));
    return true;
  };
  // What is handed in was found for coarser outlines, or whole boards: it is checked like everything else.
  if (settings.start !== undefined && check.passes(settings.start)) {
    best = settings.start;
    // A quick layout places the largest copies first, whichever sets they belong to.
    if (budget.done === 0 && scoreOf(problem, best).missing > 0 && !pulse.stopped) {
      keep(await completeSetsFirst(problem, best, pulse));
    }
  } else {
    const { inBoxes } = settings;
    if (inBoxes !== undefined && check.passes(inBoxes)) best = inBoxes;
    await build(problem, pulse, inBoxes === undefined, keep);
  }
  const over = () => isOver(settings);
  if (over()) return best;
  // What is handed in at the beginning was laid copy by copy; later parts go on from a search that tried lattices.
  if (!settings.brief && (settings.start === undefined || budget.done === 0)) {
    const staggered = await latticeLayout(problem, random, pulse);
    if (staggered !== undefined) keep(staggered);
    if (over()) return best;
  }
  const isSearched = problem.shapeOf.length <= MOST_SEARCHED;
  // A share of the whole: it comes to the same however the effort is cut into parts.
  const filledSingly = (end: number): Run => {
    const share = scoreOf(problem, best).boards < MANY_BOARDS ? FILLED_SINGLY : MANY_FILLED_SINGLY;
    return { pulse, budget: isSearched ? new ShareOfBudget(budget, share * end) : budget };
  };
  const { trials = new KeptTrials() } = settings;
  const choosesBoards = problem.containers.length > 1 && budget.done < BOARDS_SETTLED;
  if (choosesBoards && !trials.hasBegun) {
    const share = new ShareOfBudget(budget, BOARDS_SETTLED);
    // Chance of its own: what it comes to changes nothing in the passes after it.
    await setsByBoard(problem, best, new Random(settings.seed), { pulse, budget: share }, keep);
  }
  if (scoreOf(problem, best).missing > 0) {
    // Of one board alone the tries would be those below.
    if (wholeBoards(problem).length > 1) {
      await moreSetsByBoard(problem, best, trials, new Random(settings.seed), filledSingly(1), keep);
    }
    if (isSearched) keep(await moreSets(problem, best, random, settings));
    settings.onBetter(best, 1);
    return best;
  }
  if (choosesBoards) {
    const share = new ShareOfBudget(budget, BOARDS_SETTLED);
    await boardByBoard(problem, best, trials, new Random(settings.seed), filledSingly(BOARDS_SETTLED), keep);
    if (isSearched) await fewerBoards(problem, best, random, { pulse, budget: share }, keep);
  }
  if (!isSearched || over()) return best;
  const hasFiner = problem.finer.length > 0;
  const coarsely = hasFiner ? new UntilShare(budget, FINER_FROM) : budget;
  keep(await shortenTail(problem, best, { ...settings, budget: coarsely }));
  if (!hasFiner || over()) return best;
  // What finer outlines let come nearer would not pass in the coarser ones: it is checked in its own.
  const finer = await inFinerOutlines(problem, best, pulse);
  return shortenTail(finer ?? problem, best, settings);
}

/** The constructive passes: an answer at once, then the best of several orders. */
async function build(
  problem: NestingProblem,
  pulse: Pulse,
  boxesFirst: boolean,
  keep: (arrangement: Arrangement) => boolean,
): Promise<void> {
  await constructMeanwhile(problem, pulse, boxesFirst, keep);
  if (!pulse.stopped) keep(await construct(problem, pulse, keep));
}

/** Shortens what is used of the board with the largest clear end, so that one large offcut is left. */
async function shortenTail(
  problem: NestingProblem,
  start: Arrangement,
  settings: SolveSettings,
): Promise<Arrangement> {
  const used = [...new Set(start.container)].sort((a, b) => a - b);
  const clear = used.map((k) => clearEnd(problem.containers[k], usedEnd(problem, start, k)));
  const container = used[clear.indexOf(Math.max(...clear))];
  const { budget, pulse, seed } = settings;
  return shorten(problem, start, {
    container,
    containers: used,
    seed,
    budget,
    pulse,
    onBetter: (arrangement) => settings.onBetter(arrangement, Math.min(1, budget.done)),
  });
}
