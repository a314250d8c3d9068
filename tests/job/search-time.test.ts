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
});
