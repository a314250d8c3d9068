import { expect, test, vi } from 'vitest';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { Probe } from '../../../src/nesting/arrangement/probe.ts';
import { latticeLayout } from '../../../src/nesting/lattice/lattice-layout.ts';
import { PairTable } from '../../../src/nesting/problem/pair-table.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { rectangle } from '../../rectangle.ts';

test('boards of one kind are filled in the same places, and what is left stands at the left of the last', async () => {
  const region = (length: number, width: number) => ({ outline: rectangle(length, width), openings: [] });
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [{ region: region(30, 20), lies, stands: false, copies: 20, perSet: 1 }];
  // 3 by 3 of them, 1 mm apart.
  const containers = Array.from({ length: 3 }, () => containerFrom(region(100, 70), 1, 0));
  const problem = new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 0 });
  const layout = (await latticeLayout(problem, new Random(1), new Pulse(undefined)))!;
  expect(new ExactCheck(problem).passes(layout)).toBe(true);
  const placesOn = (board: number) =>
    [...layout.container.keys()]
      .filter((item) => layout.container[item] === board)
      .map((item) => [layout.x[item], layout.y[item]]);
  expect(placesOn(0)).toHaveLength(9);
  expect(placesOn(1)).toEqual(placesOn(0));
  expect(placesOn(2)).toHaveLength(2);
  for (const [x] of placesOn(2)) expect(x).toBeCloseTo(15, 6);
});

test('pairs of copies lie as their lattice says where fewer vertices reach farther to one side', async () => {
  // A wedge with a fine round tip: chords in place of it reach past that end alone.
  const tip = Array.from({ length: 401 }, (_, i): [number, number] => {
    const angle = ((i / 400) * 160 - 90) * (Math.PI / 180);
    return [400 + 60 * Math.cos(angle), -90 + 60 * Math.sin(angle)];
  });
  const outline: [number, number][] = [[0, -150], ...tip, [0, 150]];
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  const shapes = [{ region: { outline, openings: [] }, lies, stands: false, copies: 12, perSet: 1 }];
  const board = containerFrom({ outline: rectangle(3000, 1000), openings: [] }, 1, 0);
  const problem = new ProblemBuilder().build({ shapes, containers: [board], gap: 0, margin: 0 });
  const layout = (await latticeLayout(problem, new Random(1), new Pulse(undefined)))!;
  expect(new Set(layout.orientation).size).toBe(2);
  expect(new ExactCheck(problem).passes(layout)).toBe(true);
});

test('a board as long and wide as so many copies and the gaps between them takes them all', async () => {
  const lies = [{ degrees: 0, turnedOver: false }];
  const [across, down, gap, margin] = [9, 3, 2.62, 7.14];
  const shapes = [
    {
      region: { outline: rectangle(158.07, 92.07), openings: [] },
      lies,
      stands: false,
      copies: across * down,
      perSet: 1,
    },
  ];
  const outline = rectangle(
    across * 158.07 + (across - 1) * gap + 2 * margin,
    down * 92.07 + (down - 1) * gap + 2 * margin,
  );
  const containers = [containerFrom({ outline, openings: [] }, 1, 0)];
  const problem = new ProblemBuilder().build({ shapes, containers, gap, margin });
  const layout = (await latticeLayout(problem, new Random(1), new Pulse(undefined)))!;
  expect(layout.container.filter((container) => container === 0)).toHaveLength(across * down);
  expect(new ExactCheck(problem).passes(layout)).toBe(true);
});

test('pairs stand in as many rows as a board takes, also where pairs of other rows would lie a little denser', async () => {
  const [length, width, gap] = [46.65, 15.29, 1.66];
  const outline = [
    [0, 0],
    [length, 0],
    [0, width],
  ] as const;
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  // By hand: two triangles head to foot are longer than one by what the gap takes along the slant; 11 such pairs in a row.
  const pair = length + (gap * Math.sqrt(length * length + width * width)) / width;
  const board = rectangle(11 * (pair + gap), 3 * (width + gap));
  const shapes = [{ region: { outline, openings: [] }, lies, stands: false, copies: 66, perSet: 1 }];
  const containers = [containerFrom({ outline: board, openings: [] }, 1, 0)];
  const problem = new ProblemBuilder().build({ shapes, containers, gap, margin: 0 });
  const layout = (await latticeLayout(problem, new Random(1), new Pulse(undefined)))!;
  expect(layout.container.filter((container) => container === 0)).toHaveLength(66);
  expect(new ExactCheck(problem).passes(layout)).toBe(true);
});

test('lattices are found once for boards that are parted in two ways, and the layout is the one without', async () => {
  const outline = [
    [0, 0],
    [50, 0],
    [40, 12],
    [12, 30],
  ] as const;
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  const shapes = [{ region: { outline, openings: [] }, lies, stands: false, copies: 12, perSet: 1 }];
  const on = (length: number, builder: ProblemBuilder) => {
    const containers = [containerFrom({ outline: rectangle(length, 90), openings: [] }, 1, 0)];
    return builder.build({ shapes, containers, gap: 1, margin: 2 });
  };
  const asked = vi.spyOn(PairTable.prototype, 'pair');
  const layoutOf = async (length: number, builder: ProblemBuilder) => {
    const problem = on(length, builder);
    const before = asked.mock.calls.length;
    const random = new Random(5);
    const layout = (await latticeLayout(problem, random, new Pulse(undefined)))!;
    return { layout, next: random.unit(), asked: asked.mock.calls.length - before };
  };
  const builder = new ProblemBuilder();
  await layoutOf(300, builder);
  const again = await layoutOf(400, builder);
  const anew = await layoutOf(400, new ProblemBuilder());
  asked.mockRestore();
  expect(again.layout).toEqual(anew.layout);
  expect(again.next).toBe(anew.next);
  expect(anew.asked).toBeGreaterThan(10_000);
  expect(again.asked).toBeLessThan(100);
});

test('places of a lattice are given up once they can hold no more copies than others do', async () => {
  const lies = [0, 180].map((degrees) => ({ degrees, turnedOver: false }));
  const shapeOf = (length: number, width: number, copies: number) => ({
    ...{ region: { outline: rectangle(length, width), openings: [] }, lies, stands: false },
    ...{ copies, perSet: 1 },
  });
  const shapes = [shapeOf(50, 30, 10), shapeOf(30, 20, 10)];
  const containers = [containerFrom({ outline: rectangle(400, 110), openings: [] }, 1, 0)];
  const problem = new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 0 });
  const asked = vi.spyOn(Probe.prototype, 'gather');
  const layout = (await latticeLayout(problem, new Random(1), new Pulse(undefined)))!;
  const times = asked.mock.calls.length;
  asked.mockRestore();
  expect(new ExactCheck(problem).passes(layout)).toBe(true);
  expect(layout.container.every((container) => container === 0)).toBe(true);
  expect(times).toBeGreaterThan(100);
  expect(times).toBeLessThan(6500);
});
