import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { SearchTime } from '../../src/job/search-time.ts';
import type { LayOutOptions, LayOutProgress } from '../../src/model/laying-out.ts';

const MINUTE = 60_000;

/** What a search tells that has a layout with so many copies left out, or none yet. */
function told(unplaced?: number): LayOutProgress {
  const best = unplaced === undefined ? undefined : { unplaced: Array.from({ length: unplaced }) };
  return { best } as unknown as LayOutProgress;
}

describe('the time of a search', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  /** A search that runs until it is stopped, within 10 minutes; `at` tells after how many of them it was. */
  function begun(time: SearchTime, share: number) {
    const begin = performance.now();
    const search: { options?: LayOutOptions; at?: number } = {};
    const end = time.search(share, (options) => {
      search.options = options;
      return new Promise<void>((resolve) => {
        options.signal!.addEventListener('abort', () => {
          search.at = (performance.now() - begin) / MINUTE;
          resolve();
        });
      });
    });
    return { search, end, tell: (progress: LayOutProgress) => search.options!.onProgress!(progress) };
  }

  it('is its share while copies are without a place, and the rest is for what is asked next', async () => {
    const time = new SearchTime({}, 10);
    const first = begun(time, 0.5);
    first.tell(told(3));
    vi.advanceTimersByTime(11 * MINUTE);
    await first.end;
    expect(first.search.at).toBeCloseTo(5, 3);
    expect(time.isStopped).toBe(true);
  });

  it('is all of it once every copy has a place', () => {
    const first = begun(new SearchTime({}, 10), 0.5);
    first.tell(told(0));
    vi.advanceTimersByTime(11 * MINUTE);
    expect(first.search.at).toBeCloseTo(10, 3);
  });

  it('waits for a first layout, and no longer', () => {
    const first = begun(new SearchTime({}, 10), 0.5);
    first.tell(told());
    vi.advanceTimersByTime(12 * MINUTE);
    first.tell(told());
    expect(first.search.at).toBeUndefined();
    first.tell(told(3));
    expect(first.search.at).toBeCloseTo(12, 3);
  });

  it('ends a look for notes, which is no stop of the search', async () => {
    const time = new SearchTime({}, 10);
    await time.search(1, async () => vi.advanceTimersByTime(4 * MINUTE));
    const stops: number[] = [];
    const look = (signal: AbortSignal | undefined) =>
      new Promise<[]>((resolve) => {
        signal!.addEventListener('abort', () => {
          stops.push(performance.now() - begin);
          resolve([]);
        });
      });
    const begin = performance.now();
    const notes = time.notes(look);
    vi.advanceTimersByTime(7 * MINUTE);
    expect(await notes).toEqual([]);
    expect(stops).toEqual([expect.closeTo(6 * MINUTE, 0)]);
    expect(time.isStopped).toBe(false);
    // The time is over: none is begun.
    expect(await time.notes(() => Promise.reject(new Error('begun')))).toEqual([]);
  });

  it('is without end for notes where no minutes are said, and over once the search is called off', async () => {
    const calledOff = new AbortController();
    const time = new SearchTime({ signal: calledOff.signal }, undefined);
    const told = { kind: 'told', severity: 'note', message: 'told' } as const;
    const look = async (signal: AbortSignal | undefined) => (signal === calledOff.signal ? [told] : []);
    expect(await time.notes(look)).toEqual([told]);
    calledOff.abort();
    expect(await time.notes(look)).toEqual([]);
  });
});
