import { expect, test } from 'vitest';
import { fullEnds } from '../../../src/nesting/arrangement/arrangement.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { Separation } from '../../../src/nesting/search/separation.ts';
import { rectangle } from '../../rectangle.ts';

test('a stop is heard between tries in which nothing overlaps', async () => {
  const region = { outline: rectangle(10, 10), openings: [] };
  const lies = [{ degrees: 0, turnedOver: false }];
  const problem = new ProblemBuilder().build({
    shapes: [{ region, lies, stands: false, copies: 1, perSet: 1 }],
    containers: [containerFrom({ outline: rectangle(50, 20), openings: [] }, 1, 50)],
    gap: 0,
    margin: 0,
  });
  const stop = new AbortController();
  let breaths = 0;
  class DueAtOnce extends Pulse {
    override get due(): boolean {
      return true;
    }
    override async breathe(): Promise<void> {
      if (++breaths === 2) stop.abort();
    }
  }
  const separation = new Separation(problem, new Random(1), new DueAtOnce(stop.signal), false);
  separation.arrangement.container[0] = 0;
  separation.arrangement.x[0] = 5;
  separation.arrangement.y[0] = 5;
  const field = { containers: [0], ends: fullEnds(problem) };
  const tries: boolean[] = [];
  for (let n = 0; n < 3; n++) {
    tries.push(await separation.separate(field, { sweeps: 1, strikes: 1 }, new MoveBudget(100)));
  }
  expect(tries).toEqual([true, false, false]);
});
