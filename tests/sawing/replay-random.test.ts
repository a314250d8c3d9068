import { describe, expect, it } from 'vitest';
import type { Line, Region } from '../../src/geometry/shapes.ts';
import type { Placement } from '../../src/model/layout.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { seeded } from '../seeded.ts';
import { board, disc, layoutOf, part, rectangle } from './boards.ts';
import { replay } from './replay.ts';

/** What stands in one cell of the board, 100 mm wide and 70 high: a part with an opening, veins, a part inside. */
function cell(x: number, y: number, random: () => number): Placement[] {
  const low = y > 0 && random() < 0.5;
  const [width, height] = [30 + 60 * random(), low ? 70 : 30 + 30 * random()];
  const [left, top] = [x + 4, low ? 80 : y + 5];
  const small = random() < 0.3;
  const outline = small
    ? disc(left + 20, top + 15, 10)
    : rectangle(left, top, Math.round(width), Math.round(height));
  if (small) return [part('small', outline)];
  const [middle, across] = [left + width / 2, top + height / 2];
  const opened = random() < 0.6;
  const openings = opened ? [rectangle(middle - 9, across - 9, 18, 18)] : [];
  const region: Region = { outline, openings };
  const veins: Line[] = [];
  // From the outline in, alone in the wood, from the opening out.
  if (random() < 0.5)
    veins.push([
      [left + Math.round(width), across],
      [left + Math.round(width) - 4, across + 1],
    ]);
  if (random() < 0.5)
    veins.push([
      [left + 2, top + 2],
      [left + 4, top + 5],
    ]);
  if (opened && random() < 0.5)
    veins.push([
      [middle, across - 9],
      [middle, across - 12],
    ]);
  const inside = opened && random() < 0.4 ? [part('inner', disc(middle, across, 5))] : [];
  return [part('plate', region, veins), ...inside];
}

describe('a cut plan of boards put together at random', () => {
  it('can be carried out at the saw, with and without tabs, sections and a narrow throat', () => {
    const kinds = new Set<string>();
    for (let seed = 1; seed <= 8; seed++) {
      const random = seeded(seed);
      const cells = [0, 100, 200, 300, 400, 500].flatMap((x) => [0, 75].flatMap((y) => cell(x, y, random)));
      const sections =
        seed % 3 === 0
          ? [
              { number: 1, from: 0, to: 300 },
              { number: 2, from: 300, to: 600 },
            ]
          : undefined;
      const layout = layoutOf(board(cells, sections === undefined ? {} : { sections }));
      const plan = planCuts(layout, {
        holdSize: 30,
        ...(seed % 2 === 0 ? { tab: 3 } : {}),
        ...(seed % 4 === 0 ? { throat: 200 } : {}),
      });
      expect([seed, replay(layout, plan)]).toEqual([seed, []]);
      for (const { kind, entry } of plan.boards[0].cuts) kinds.add(`${kind} ${entry}`);
    }
    // The boards have come upon every way there is to begin a cut.
    expect([...kinds].sort()).toEqual([
      'opening hole',
      'opening waste',
      'outline hole',
      'outline waste',
      'tab earlier cut',
      'vein hole',
      'vein in passing',
    ]);
  });
});
