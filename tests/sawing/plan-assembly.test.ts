import { describe, expect, it } from 'vitest';
import type { Region, Ring } from '../../src/geometry/shapes.ts';
import { jobCheck } from '../../src/job/job-check.ts';
import { readJob } from '../../src/job/read-job.ts';
import type { Pattern } from '../../src/model/pattern.ts';
import { type AssemblyOptions, planAssembly } from '../../src/sawing/assembly/plan-assembly.ts';
import { outsideCheck } from '../outside-check.ts';
import { rectangle } from './boards.ts';

const solid = (outline: Ring): Region => ({ outline, openings: [] });

function pattern(layers: Record<string, Record<string, Region>>): Pattern {
  return {
    file: 'drawn.svg',
    scale: 1,
    tolerance: 0.05,
    layers: Object.entries(layers).map(([name, parts]) => ({
      name,
      parts: Object.entries(parts).map(([part, region]) => ({
        name: part,
        layer: name,
        element: '<path>',
        region,
        veins: [],
      })),
    })),
  };
}

const walnut = { species: 'black walnut', thickness: 20, grain: 'along' } as const;
const maple = { species: 'sugar maple', thickness: 6, grain: 'along' } as const;
const scene = pattern({
  Back: { hills: solid(rectangle(0, 0, 200, 100)) },
  Middle: { house: solid(rectangle(20, 40, 60, 60)), tree: solid(rectangle(150, 59.5, 20, 40)) },
  Front: {
    duck: solid(rectangle(60, 80, 40, 20)),
    sun: { outline: rectangle(120, 10, 20, 20), openings: [rectangle(125, 15, 10, 10)] },
  },
});
const options: AssemblyOptions = { layers: { Back: walnut, Middle: walnut, Front: maple } };

describe('the glue-up', () => {
  const plan = planAssembly(scene, options);
  const depth = Object.fromEntries(plan.parts.map(({ part, back, front }) => [part, [back, front]]));

  it('puts every part on what lies behind it, by hand', () => {
    expect(depth).toEqual({ hills: [0, 20], house: [20, 40], tree: [20, 40], duck: [40, 46], sun: [20, 26] });
    expect([plan.width, plan.height, plan.depth]).toEqual([200, 100, 46]);
  });

  it('finds the joints and their areas, and glue kept 3 mm from the edges', () => {
    const joints = Object.fromEntries(
      plan.joints.map(({ behind, front, contactArea, glueArea }) => [
        `${front.part} on ${behind.part}`,
        [contactArea, glueArea],
      ]),
    );
    // The offset takes a hundredth more than asked for, to be safe: 3.01 mm.
    expect(joints).toEqual({
      'house on hills': [3600, expect.closeTo(53.98 ** 2, 1)],
      'tree on hills': [800, expect.closeTo(13.98 * 33.98, 1)],
      // The duck hangs over the hills by half of its width, but rests on the house.
      'duck on house': [400, expect.closeTo(13.98 ** 2, 1)],
      'sun on hills': [300, 0],
    });
    const square = (53.98 ** 2 + 13.98 * 33.98 + 13.98 ** 2) / 1e6;
    expect(plan.glueGrams[0]).toBeCloseTo(171 * square, 2);
    expect(plan.glueGrams[1]).toBeCloseTo(244 * square, 2);
  });

  it('sees which bottom is off the plane, and by how much', () => {
    expect(plan.restPlane).toBe(100);
    const off = Object.fromEntries(plan.parts.map(({ part, offPlane }) => [part, offPlane]));
    expect(off).toMatchObject({ hills: 0, house: 0, tree: 0.5, duck: 0, sun: 70 });
    // The sun hangs in the sky on purpose; its ring is too narrow for glue kept back 3 mm.
    const [rest, narrow] = plan.issues;
    expect(plan.issues).toHaveLength(2);
    expect(rest).toMatchObject({ kind: 'rest-edge-off-plane', where: { part: 'tree' } });
    expect(rest.message).toContain('0.50 mm above');
    expect(narrow).toMatchObject({ kind: 'joint-narrow', where: { part: 'sun' } });
    expect(planAssembly(scene, { ...options, restTolerance: 0.6, glueMargin: 2 }).issues).toEqual([]);
  });

  it('sees a pointed part that the piece would rock on, and notes one that hangs much lower', () => {
    const told = (lowest: number) => {
      const keel: Ring = [
        [20, 60],
        [80, 60],
        [50, lowest],
      ];
      const scene = pattern({
        Back: { hills: solid(rectangle(0, 0, 100, 100)) },
        Front: { keel: solid(keel) },
      });
      return planAssembly(scene, { layers: { Back: walnut, Front: walnut } }).issues.map(
        ({ message }) => message,
      );
    };
    expect(told(101)).toEqual([expect.stringContaining('the part reaches 1.00 mm below the plane')]);
    for (const lowest of [90, 100.1]) expect(told(lowest)).toEqual([]);
    expect(told(102.1)).toEqual([expect.stringContaining('the part ends 2.1 mm below the plane')]);
    expect(told(104)).toEqual([
      'the part ends 4.0 mm below the plane that most straight bottoms lie on: the piece does not stand on that plane',
    ]);
  });

  it('warns of a large part that only a corner of another holds', () => {
    // 10 x 10 mm of 200 x 60 touch; glue kept back 3 mm leaves 4 x 4 mm, 0.13 % of the face.
    const shore = pattern({
      Back: { hills: solid(rectangle(0, 0, 100, 50)) },
      Front: { bank: solid(rectangle(90, 40, 200, 60)) },
    });
    const { issues } = planAssembly(shore, { layers: { Back: walnut, Front: walnut } });
    const small = issues.filter(({ kind }) => kind === 'joint-small');
    expect(small.map(({ where }) => where?.part)).toEqual(['hills', 'bank']);
    expect(small[1].message).toContain('0.13 % of its face only: it may');
  });

  it('says that glue kept back from the edges leaves a slim part without', () => {
    // A reed of 6.1 x 100 mm lies on the hills; glue kept back 3 mm leaves a line of 0.1 x 94 mm at most, 1.54 % of it.
    const reeds = pattern({
      Back: { hills: solid(rectangle(0, 0, 100, 150)) },
      Front: { reed: solid(rectangle(40, 20, 6.1, 100)) },
    });
    const { issues } = planAssembly(reeds, { layers: { Back: walnut, Front: walnut } });
    const reed = issues.find(({ where }) => where?.part === 'reed');
    expect(reed?.message).toMatch(/ 1\.\d\d % of its face only, of 100\.00 % that touch/);
    expect(reed?.remedy).toContain('glueMargin');
  });

  it('counts all copies of the parts that hold one, and one for each of several', () => {
    // Glue on 24 x 4 mm, 0.8 % of the bank and 8 % of a tree: three trees make 2.4 % of the bank.
    const shore = pattern({
      Back: { bank: solid(rectangle(0, 0, 200, 60)) },
      Front: { tree: solid(rectangle(90, -30, 30, 40)) },
    });
    const small = (layer: string, part: string, copiesPerSet: number) =>
      planAssembly(shore, {
        layers: { Back: walnut, Front: walnut },
        only: [
          { layer: 'Back', part: 'bank' },
          { layer: 'Front', part: 'tree' },
          { layer, part, copiesPerSet },
        ],
      }).issues.map(({ kind, where }) => `${kind}: ${where?.part}`);
    expect(small('Front', 'tree', 1)).toEqual(['joint-small: bank']);
    expect(small('Front', 'tree', 3)).toEqual([]);
    // Three banks behind one tree: each of them is held by that one.
    expect(small('Back', 'bank', 3)).toEqual(['joint-small: bank']);
  });

  it('says when nothing holds a part', () => {
    const apart = pattern({
      Back: { hills: solid(rectangle(0, 50, 200, 50)) },
      Front: { duck: solid(rectangle(20, 60, 40, 40)), sun: solid(rectangle(90, 0, 20, 20)) },
    });
    const { issues } = planAssembly(apart, options);
    expect(issues.map(({ kind, where }) => `${kind}: ${where?.part}`)).toEqual(['part-held-by-nothing: sun']);
  });

  it('says when parts that hold one another are held by nothing else, or where there is no room for glue', () => {
    const toldOf = (x: number) => {
      const boat = pattern({
        Back: { hills: solid(rectangle(0, 0, 200, 100)) },
        Middle: { house: solid(rectangle(20, 20, 60, 80)), boat: solid(rectangle(x, 40, 60, 40)) },
        Front: { oar: solid(rectangle(x + 20, 40, 30, 30)), sail: solid(rectangle(x + 20, 60, 30, 30)) },
      });
      const wood = { Back: walnut, Middle: maple, Front: maple };
      return planAssembly(boat, { layers: wood }).issues.map(
        ({ kind, message, where }) => `${kind}: ${where?.part}: ${message}`,
      );
    };
    expect(toldOf(150)).toEqual([]);
    expect(toldOf(195)).toEqual([
      'joint-narrow: boat: it and Front oar, Front sail are glued to one another and to no other part of the piece: those they touch only where there is no room for glue kept back from the edges',
    ]);
    expect(toldOf(210)).toEqual([
      'part-held-by-nothing: boat: it and Front oar, Front sail are glued to one another and to no other part of the piece: they touch none',
    ]);
  });

  it('says once what holds for several parts of a layer', () => {
    const bird = (x: number) => solid(rectangle(x, 0, 20, 20));
    const flock = pattern({
      Back: { hills: solid(rectangle(0, 50, 200, 50)), sun: bird(0) },
      Front: { gull: bird(30), tern: bird(60), duck: solid(rectangle(20, 60, 40, 40)), swift: bird(90) },
    });
    expect(
      planAssembly(flock, options).issues.map(({ where, message }) => `${where?.part}: ${message}`),
    ).toEqual([
      'sun: the part touches no other part: nothing holds it',
      'gull, tern, swift: 3 parts, each: the part touches no other part: nothing holds it',
    ]);
  });

  it('names a dozen of a flock, and how many more there are', () => {
    const birds = Array.from({ length: 30 }, (_, i) => [
      `bird ${i + 1}`,
      solid(rectangle(30 * i, 0, 20, 20)),
    ]);
    const flock = pattern({
      Back: { hills: solid(rectangle(0, 50, 200, 50)) },
      Front: Object.fromEntries(birds),
    });
    const [{ where, message }] = planAssembly(flock, options).issues.filter(({ message }) =>
      message.startsWith('30 parts'),
    );
    expect(message).toMatch(/^30 parts, each: the part touches no other/);
    expect(where?.part).toMatch(/^bird 1, bird 2, .*, bird 12 and 18 more$/);
  });

  it('of some parts tells their joints alone, and nothing of what holds them or where they stand', () => {
    const only = ['house', 'tree', 'duck'].map((part) => ({
      layer: part === 'duck' ? 'Front' : 'Middle',
      part,
    }));
    const again = planAssembly(scene, { ...options, only });
    expect(again.parts.map(({ part, back }) => [part, back])).toEqual([
      ['house', 0],
      ['tree', 0],
      ['duck', 20],
    ]);
    expect(again.joints.map(({ front, behind }) => `${front.part} on ${behind.part}`)).toEqual([
      'duck on house',
    ]);
    // The tree stands half a millimetre too high and on nothing here, which is told of the whole piece only.
    expect(again.issues).toEqual([]);
    expect(again.faces).toBe(2 * (3600 + 800 + 800));
  });

  it('reckons all copies of a part, and its joints as often as the part with more copies is there', () => {
    const number = { hills: 1, house: 4, tree: 3, duck: 2, sun: undefined };
    const only = plan.parts.map(({ layer, part }) => ({
      layer,
      part,
      copiesPerSet: number[part as keyof typeof number],
    }));
    const again = planAssembly(scene, { ...options, only });
    // Four houses 60 x 60, three trees 20 x 40, two ducks 40 x 20, one ring of 300 mm2, on hills of 200 x 100.
    expect(again.faces).toBe(2 * (20000 + 14400 + 2400 + 1600 + 300));
    const edges = (600 + 4 * 240 + 3 * 120) * 20 + (2 * 120 + 120) * 6;
    expect(again.surface).toBe(again.faces + edges);
    const walnutAndMaple = 36800 * 20 * 0.55 + 1900 * 6 * 0.63;
    expect(again.weight).toBeCloseTo((walnutAndMaple * 1120) / 1e9, 9);
    const joints = again.joints.map(({ behind, front, copies }) => [front.part, behind.part, copies]);
    expect(joints).toEqual([
      ['house', 'hills', 4],
      ['tree', 'hills', 3],
      ['duck', 'house', 4],
      ['sun', 'hills', 1],
    ]);
    const square = (4 * 53.98 ** 2 + 3 * 13.98 * 33.98 + 4 * 13.98 ** 2) / 1e6;
    expect(again.glueGrams[0]).toBeCloseTo(171 * square, 2);
    expect([again.parts, again.issues]).toEqual([plan.parts, plan.issues]);
  });

  it('stands a change of moisture of 20 percentage points at most, as a job may ask for', () => {
    expect(planAssembly(scene, { ...options, moistureChange: 20 }).joints).toHaveLength(4);
    expect(() => planAssembly(scene, { ...options, moistureChange: 20.1 })).toThrow('options.moistureChange');
    const work = (moistureChange: number) =>
      JSON.stringify({ pattern: 'p.svg', rack: 'rack.json', work: { moistureChange } });
    expect(readJob(work(20)).work.moistureChange).toBe(20);
    expect(() => readJob(work(20.1))).toThrow('work.moistureChange');
    const job = readJob(work(20));
    expect(jobCheck('job', { ...job, work: { ...job.work, moistureChange: 20.1 } })).toMatchObject([
      { where: { field: 'job.work.moistureChange' } },
    ]);
  });

  it.each([0, 1.5, '2'])('refuses %j copies of a part', (copiesPerSet) => {
    const only = [{ layer: 'Back', part: 'hills', copiesPerSet: copiesPerSet as number }];
    expect(() => planAssembly(scene, { ...options, only })).toThrow('options.only[0].copiesPerSet');
  });

  it('weighs a piece: volumes times 1000 G 1.12 (Wood Handbook ch. 4)', () => {
    const walnutVolume = (20000 + 3600 + 800) * 20;
    const mapleVolume = (800 + 300) * 6;
    outsideCheck({
      what: 'Weight of a piece of 488 cm3 of black walnut and 6.6 cm3 of sugar maple, kg',
      source:
        'Wood Handbook (Forest Products Laboratory), chapter 4: 1000 G 1.12 kg/m3, with G of 0.55 and 0.63',
      expected: (walnutVolume * 0.55 * 1120 + mapleVolume * 0.63 * 1120) / 1e9,
      found: plan.weight ?? 0,
      tolerance: 1e-9,
    });
    const unknown = planAssembly(scene, { layers: { Back: { ...walnut, species: 'driftwood' } } });
    expect(unknown.weight).toBeUndefined();
  });

  it('has two faces and the sawn edges to sand', () => {
    const only = planAssembly(pattern({ Back: { hills: solid(rectangle(0, 0, 200, 100)) } }), options);
    expect(only.surface).toBe(2 * 20000 + 600 * 20);
    expect(only.joints).toEqual([]);
  });

  it('cautions where grains cross over more than 3 in, naming the method', () => {
    const crossed = planAssembly(scene, {
      layers: { ...options.layers, Middle: { ...walnut, grain: 'across' } },
    });
    expect(crossed.issues.filter(({ kind }) => kind === 'grain-crossed')).toEqual([]);
    const wide = pattern({
      Back: { a: solid(rectangle(0, 0, 200, 100)) },
      Front: { b: solid(rectangle(0, 0, 200, 100)) },
    });
    const { issues, joints } = planAssembly(wide, {
      layers: { Back: walnut, Front: { ...maple, grain: 'across' } },
    });
    expect(issues.map(({ kind }) => kind)).toEqual(['grain-crossed']);
    expect(issues[0].message).toContain('coefficient method');
    expect(joints[0].movement).toBeCloseTo(200 * 0.00353 * 5 - 200 * 0.00005 * 5, 9);
    const unknown = planAssembly(wide, {
      layers: { Back: walnut, Front: { ...walnut, species: 'driftwood', grain: 'across' } },
    });
    expect(unknown.joints[0].movement).toBeUndefined();
    expect(unknown.issues[0].message).toContain('how far they move apart is unknown');
  });

  it('reckons the same wherever the piece lies in its drawing, but for the height of the plane', () => {
    const by =
      (dx: number, dy: number) =>
      (ring: Ring): Ring =>
        ring.map(([x, y]) => [x + dx, y + dy]);
    const moved = (dx: number, dy: number) =>
      planAssembly(
        {
          ...scene,
          layers: scene.layers.map((layer) => ({
            ...layer,
            parts: layer.parts.map((part) => ({
              ...part,
              region: {
                outline: by(dx, dy)(part.region.outline),
                openings: part.region.openings.map(by(dx, dy)),
              },
            })),
          })),
        },
        { layers: { Back: walnut, Middle: { ...maple, grain: 'across' }, Front: maple } },
      );
    const [here, there] = [moved(0, 0), moved(300, -400)];
    expect([there.width, there.height, there.depth]).toEqual([200, 100, 32]);
    expect([here.restPlane, there.restPlane]).toEqual([100, -300]);
    expect(there.parts).toEqual(here.parts);
    expect(there.issues).toEqual(here.issues);
    expect(there.joints.map(({ movement, contactArea }) => [movement, contactArea])).toEqual(
      here.joints.map(({ movement, contactArea }) => [
        expect.closeTo(movement ?? -1, 9),
        expect.closeTo(contactArea, 6),
      ]),
    );
    // The house on the hills, 60 x 60 mm: across, 0.00353 against 0.00005 a percentage point along the grain; for 5 of them.
    expect(there.joints[0].movement).toBeCloseTo(60 * (0.00353 - 0.00005) * 5, 9);
  });

  it('cautions where grains cross over more than 3 in, 76.2 mm, either way', () => {
    const told = (width: number, height: number) =>
      planAssembly(
        pattern({
          Back: { a: solid(rectangle(300, 200, 400, 400)) },
          Front: { b: solid(rectangle(350, 250, width, height)) },
        }),
        { layers: { Back: walnut, Front: { ...walnut, grain: 'across' } } },
      ).issues.some(({ kind }) => kind === 'grain-crossed');
    expect([told(76, 76), told(76.4, 40), told(40, 76.4)]).toEqual([false, true, true]);
  });

  it('crosses no grain with wood whose grain is free', () => {
    const wide = pattern({
      Back: { a: solid(rectangle(0, 0, 200, 100)) },
      Front: { b: solid(rectangle(0, 0, 200, 100)) },
    });
    const kinds = (behind: 'along' | 'free', front: 'across' | 'free') =>
      planAssembly(wide, {
        layers: { Back: { ...walnut, grain: behind }, Front: { ...walnut, grain: front } },
      }).issues.map(({ kind }) => kind);
    expect([kinds('along', 'across'), kinds('free', 'across'), kinds('along', 'free')]).toEqual([
      ['grain-crossed'],
      [],
      [],
    ]);
    const { joints } = planAssembly(wide, {
      layers: { Back: { ...walnut, grain: 'free' }, Front: walnut },
    });
    expect(joints.map(({ grains }) => grains)).toEqual(['any way']);
  });

  it('stands an empty pattern', () => {
    expect(planAssembly(pattern({}), options)).toMatchObject({
      width: 0,
      height: 0,
      depth: 0,
      restPlane: undefined,
      issues: [],
    });
  });
});
