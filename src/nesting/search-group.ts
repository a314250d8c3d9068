import type { Batch } from '../model/batch.ts';
import { Arrangement } from './arrangement/arrangement.ts';
import { better, scoreOf } from './arrangement/score.ts';
import { constructBySets, constructInBoxes, constructQuickly } from './construct/construct.ts';
import type { Group } from './groups/group.ts';
import { groupSpec } from './groups/group-problem.ts';
import { type LaidGroup, laidGroup } from './laid/laid-group.ts';
import type { ProblemBuilder } from './problem/problem-spec.ts';
import { OwnStop } from './running/own-stop.ts';
import { Pulse } from './running/pulse.ts';
import { type SearchSettings, type SearchTeam, searchTogether } from './workers/search-pool.ts';
import { type Found, foundOf } from './workers/search-task.ts';

/** One group of boards and parts laid out: at once, or with all the effort there is. */

/**
 * Lays a group out in one pass over its parts: what is at hand when a search is stopped early.
 *
 * @param known arrangement of just that kind, when there is one
 */
export async function layQuickly(
  batch: Batch,
  group: Group,
  { builder, signal }: Pick<GroupSearch, 'builder' | 'signal'>,
  known?: Arrangement,
): Promise<LaidGroup> {
  const pulse = new Pulse(signal);
  const problem = await builder.buildGivingWay(groupSpec(batch, group), pulse);
  const quick = known ?? (await constructQuickly(problem, pulse));
  const isShort = batch.setsTogether === true && !pulse.stopped && scoreOf(problem, quick).missing > 0;
  const bySets = isShort ? await constructBySets(problem, 'coarse', pulse) : quick;
  const arrangement = better(scoreOf(problem, bySets), scoreOf(problem, quick)) ? bySets : quick;
  return laidGroup(batch, group, problem, arrangement, signal?.aborted === true);
}

/** Lays a group out in boxes of a few sizes: what is at hand when a search is stopped before that. */
export async function layInBoxes(
  batch: Batch,
  group: Group,
  { builder, signal }: Pick<GroupSearch, 'builder' | 'signal'>,
): Promise<LaidGroup> {
  const problem = builder.buildInBoxes(groupSpec(batch, group));
  const pulse = new Pulse(signal);
  // Of sets that stay on one board nothing is kept but whole ones.
  const arrangement =
    batch.setsTogether === true
      ? await constructBySets(problem, 'boxes', pulse)
      : await constructInBoxes(problem, pulse);
  return laidGroup(batch, group, problem, arrangement, signal?.aborted === true);
}

/** How the searches of a layout are run. */
export interface GroupSearch extends SearchTeam {
  readonly settings: SearchSettings;
  readonly builder: ProblemBuilder;
  /** Called with better layouts of the group and the share of its effort that is gone, when there is who asks. */
  readonly onBetter: ((laid: LaidGroup, done: number) => void) | undefined;
}

/**
 * The best layout of a group that the search finds before its effort is spent or its signal comes.
 *
 * @param start arrangement without overlaps to go on from
 */
export async function searchGroup(
  batch: Batch,
  group: Group,
  search: GroupSearch,
  start?: Arrangement,
): Promise<LaidGroup> {
  const { settings, signal, builder, onBetter } = search;
  const spec = groupSpec(batch, group);
  const problem = await builder.buildGivingWay(spec, new Pulse(signal));
  const put = (found: Found) =>
    laidGroup(batch, group, problem, Arrangement.of(found), signal?.aborted === true);
  const from = start === undefined ? undefined : foundOf(problem, start, 0);
  const task = { ...settings, start: from };
  if (onBetter === undefined) return put(await searchTogether(spec, task, search, () => {}));
  // A late report is told from a timer, where what the listener throws reaches nobody: it ends the search instead.
  const own = new OwnStop(signal);
  // None is made once it is stopped: the layout itself comes sooner.
  const report = (found: Found) => {
    if (!own.signal.aborted) onBetter(put(found), found.done);
  };
  const reports = new Reports(report, own.stop);
  try {
    const team = { ...search, signal: own.signal };
    const found = await searchTogether(spec, task, team, (better) => reports.offer(better));
    reports.throwFailure();
    return put(found);
  } finally {
    own.release();
    reports.end();
  }
}

/** Milliseconds between two progress reports at least. */
const REPORT_EVERY = 100;

/**
 * How many times as long as a report took the pause after it is at least: workers wait while thousands of parts are put
 * on their boards for one.
 */
const PAUSE = 15;

/**
 * Hands reports on ten times a second at most, and less often where they take their time: the newest one late rather
 * than never, for it may be the last.
 */
class Reports {
  private next = Number.NEGATIVE_INFINITY;
  private waiting: ReturnType<typeof setTimeout> | undefined;
  private failure: { readonly thrown: unknown } | undefined;
  private readonly report: (found: Found) => void;
  private readonly onFailure: () => void;

  /** @param onFailure called when a late report has thrown; {@link throwFailure} then throws the same */
  constructor(report: (found: Found) => void, onFailure: () => void) {
    this.report = report;
    this.onFailure = onFailure;
  }

  offer(found: Found): void {
    if (this.failure !== undefined) return;
    this.end();
    const wait = this.next - performance.now();
    if (wait <= 0) this.send(found);
    else this.waiting = setTimeout(() => this.sendLate(found), wait);
  }

  private sendLate(found: Found): void {
    try {
      this.send(found);
    } catch (thrown) {
      this.failure = { thrown };
      this.onFailure();
    }
  }

  /** Throws what a late report has thrown, if one has. */
  throwFailure(): void {
    if (this.failure !== undefined) throw this.failure.thrown;
  }

  /** Gives up what is waiting: the result itself is at hand. */
  end(): void {
    clearTimeout(this.waiting);
  }

  private send(found: Found): void {
    const begun = performance.now();
    this.report(found);
    const end = performance.now();
    this.next = end + Math.max(REPORT_EVERY, PAUSE * (end - begun));
  }
}
