import type { Batch } from '../model/batch.ts';
import type { Arrangement } from './arrangement/arrangement.ts';
import { constructQuickly } from './construct/construct.ts';
import type { Group } from './groups/group.ts';
import { groupSpec } from './groups/group-problem.ts';
import { type LaidGroup, laidGroup } from './laid/laid-group.ts';
import type { ProblemBuilder } from './problem/problem-spec.ts';
import { Pulse } from './running/pulse.ts';
import { type SearchSettings, type SearchTeam, searchTogether } from './workers/search-pool.ts';
import { arrangementOf, type Found, foundOf } from './workers/search-task.ts';

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
  const problem = builder.build(groupSpec(batch, group));
  const arrangement = known ?? (await constructQuickly(problem, new Pulse(signal)));
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
  const problem = builder.build(spec);
  const put = (found: Found) =>
    laidGroup(batch, group, problem, arrangementOf(found), signal?.aborted === true);
  const reports = onBetter && new Reports((found) => onBetter(put(found), found.done));
  const offer = (found: Found) => reports?.offer(found);
  const from = start === undefined ? undefined : foundOf(problem, start, 0);
  try {
    return put(await searchTogether(spec, { ...settings, start: from }, search, offer));
  } finally {
    reports?.end();
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
  private readonly report: (found: Found) => void;

  constructor(report: (found: Found) => void) {
    this.report = report;
  }

  offer(found: Found): void {
    this.end();
    const wait = this.next - performance.now();
    if (wait <= 0) this.send(found);
    else this.waiting = setTimeout(() => this.send(found), wait);
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
