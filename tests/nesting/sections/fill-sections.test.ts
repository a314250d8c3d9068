import { expect, test } from 'vitest';
import type { Batch } from '../../../src/model/batch.ts';
import { copiesByArea } from '../../../src/nesting/construct/construct.ts';
import { groupSpec } from '../../../src/nesting/groups/group-problem.ts';
import { stackWays } from '../../../src/nesting/groups/stack-ways.ts';
import { ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { fillSections, KnownSections } from '../../../src/nesting/sections/fill-sections.ts';
import { rectangle } from '../../rectangle.ts';
import { blob } from '../random-batch.ts';

const random = new Random(8);
const knot = (x: number) => blob(random, 8, 4, 6, true).map(([u, v]) => [u - 200 + x, v - 50] as const);
const batch: Batch = {
  sets: 4,
  demands: [12, 9, 7].map((points) => ({
    part: `part ${points}`,
    layer: 'wood',
    region: { outline: blob(random, points, 15, 25, true), openings: [] },
    veins: [],
    copiesPerSet: 2,
    species: 'cherry',
    thickness: 6,
    rules: { grain: 'free', grainTolerance: 0, turnOver: false, restEdge: false },
  })),
  boards: [
    {
      id: 'long',
      species: 'cherry',
      thickness: 6,
      outline: rectangle(700, 100),
      defects: [150, 420].map(knot),
      quantity: 1,
      price: undefined,
    },
  ],
  kerf: 1,
  clearance: 0,
  edgeMargin: 2,
  thicknessTolerance: 0.5,
  outlineTolerance: 0,
  reach: { throat: 200, longest: undefined },
};

test('filling sections gives way after every field or two, and stops when it is told to', async () => {
  const [{ ways }] = stackWays(batch);
  const [[group]] = ways;
  const problem = new ProblemBuilder().build(groupSpec(batch, group));
  const made = problem.pairs as unknown as { fields: Map<string, unknown>; alike: Map<string, unknown> };
  const fields = () => made.fields.size + made.alike.size;
  let before = 0;
  let most = 0;
  let stopAt = Number.POSITIVE_INFINITY;
  class CountingPulse extends Pulse {
    override get due(): boolean {
      return true;
    }
    override get stopped(): boolean {
      return fields() >= stopAt;
    }
    override async breathe(): Promise<void> {
      most = Math.max(most, fields() - before);
      before = fields();
    }
  }
  const fill = () =>
    fillSections(problem, {
      boards: [group.pieces[0]],
      pinned: new Map(),
      order: copiesByArea(problem),
      lengths: [],
      reach: batch.reach!,
      kerf: 3,
      known: new KnownSections(),
      pulse: new CountingPulse(undefined),
    });
  stopAt = 5;
  expect((await fill()).homes.size).toBe(0);
  expect(fields()).toBe(5);
  stopAt = Number.POSITIVE_INFINITY;
  expect((await fill()).homes.size).toBe(24);
  expect(fields()).toBeGreaterThan(40);
  expect(most).toBeLessThanOrEqual(2);
});

test('what a rest has beyond the longest section, if less than a cut, goes with the cut: no section is longer than may be', async () => {
  const part = {
    ...batch.demands[0],
    region: { outline: rectangle(131, 130), openings: [] },
    copiesPerSet: 1,
  };
  const one: Batch = {
    ...batch,
    sets: 1,
    demands: [{ ...part, rules: { ...part.rules, grain: 'along' } }],
    boards: [{ ...batch.boards[0], outline: rectangle(519.238, 142.069), defects: [] }],
    edgeMargin: 1,
    reach: { throat: 406.4, longest: undefined },
  };
  const [{ ways }] = stackWays(one);
  const [[group]] = ways;
  const problem = new ProblemBuilder().build(groupSpec(one, group));
  const { parted, homes } = await fillSections(problem, {
    boards: [group.pieces[0]],
    pinned: new Map(),
    order: copiesByArea(problem),
    lengths: [],
    reach: one.reach!,
    kerf: 3.175,
    known: new KnownSections(),
    pulse: new Pulse(undefined),
  });
  expect(homes.size).toBe(1);
  const [sections] = [...parted.values()];
  const longest = Math.sqrt(406.4 ** 2 - 142.069 ** 2);
  expect(519.238 - sections[1].from).toBeGreaterThan(longest);
  expect(519.238 - sections[1].from).toBeLessThan(longest + 3.175);
  for (const { from, to } of sections) expect(to - from).toBeLessThanOrEqual(longest);
});
