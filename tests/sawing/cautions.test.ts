import { describe, expect, it } from 'vitest';
import type { Blade } from '../../src/model/cut-plan.ts';
import { COMMON_BLADES } from '../../src/sawing/blades.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { outsideCheck } from '../outside-check.ts';
import { board, disc, fullBoard, layoutOf, part, rectangle } from './boards.ts';

describe('cautions', () => {
  it('name the woods ACGIH lists and the limit NIOSH recommends (1 mg/m3)', () => {
    const walnut = planCuts(layoutOf(board([part('plate', rectangle(10, 10, 90, 90))]))).cautions.join('\n');
    expect(walnut).toContain('the dust of black walnut as suspected of causing cancer (A2)');
    outsideCheck({
      what: 'Limits of wood dust over a shift as cautioned: OSHA total and respirable, NIOSH and ACGIH, cedar, mg/m3',
      source: 'OSHA, "Wood dust: evaluating exposure" (PEL, NIOSH REL, ACGIH TLV 2007)',
      expected: [15, 5, 1, 0.5],
      found:
        /OSHA (\d+) mg\/m3 in all and (\d+) respirable; .* (\d+) \(ACGIH ([\d.]+)/
          .exec(walnut)
          ?.slice(1)
          .map(Number) ?? [],
    });
    const pine = planCuts(layoutOf(board([part('plate', rectangle(10, 10, 90, 90))], { species: 'pine' })));
    expect(pine.cautions.join('\n')).not.toContain('ACGIH lists');
    expect(pine.issues.map(({ kind }) => kind)).toEqual(['species-without-facts']);
  });

  it('go with a word on what to write for a wood that the table has several of', () => {
    const remedy = (species: string) =>
      planCuts(layoutOf({ ...fullBoard(), species })).issues.find(
        ({ kind }) => kind === 'species-without-facts',
      )?.remedy;
    expect(remedy('Oak')).toContain('The table has "red oak" and "white oak": write which it is');
    expect(remedy('snowberry')).toBe('Times and blades for it are rougher than the others.');
    for (const known of ['white ash', 'ash', 'beech', 'sycamore', 'willow'])
      expect(remedy(known), known).toBe(undefined);
  });

  it('and the plan take a wood that is written in two ways for one', () => {
    const boards = (one: string, other: string) =>
      layoutOf(
        { ...fullBoard(), species: one },
        { ...fullBoard(), id: 'B-1', species: 'basswood', thickness: 3 },
        { ...fullBoard(), id: 'C-1', species: other },
      );
    const plain = planCuts(boards('black walnut', 'black walnut'));
    const mixed = planCuts(boards('black walnut', 'Black Walnut'));
    expect(plain.bladeChangesGrouped).toBeLessThan(plain.bladeChanges);
    expect(mixed.bladeChangesGrouped).toBe(plain.bladeChangesGrouped);
    expect(mixed.cautions).toEqual(plain.cautions);
    const unknown = planCuts(boards('snowberry', 'Snowberry'));
    expect(unknown.issues.filter(({ kind }) => kind === 'species-without-facts')).toHaveLength(1);
  });

  it('speak of tabs where a part hangs by one, not where they are only asked for', () => {
    const toldOf = (half: number) =>
      planCuts(layoutOf(board([part('dot', rectangle(20, 20, 2 * half, 2 * half))])), {
        tab: 3,
      }).cautions.join('\n');
    expect(toldOf(15)).toContain('when you saw a tab');
    expect(toldOf(40)).not.toContain('tab');
  });

  it('count the parts too small for fingers, and defer to the manual', () => {
    const { cautions } = planCuts(
      layoutOf(board([part('dot', disc(20, 20, 8)), part('dot', disc(60, 20, 8))])),
    );
    expect(cautions[0]).toMatch(/^2 parts are too small/);
    expect(cautions.at(-1)).toMatch(/manual of your saw/);
  });

  it('count small parts in openings, on the edge of the board and of every board of a stack', () => {
    const frame = { outline: rectangle(10, 10, 120, 120), openings: [rectangle(30, 30, 80, 80)] };
    // Two feet on the edge: its outline is sawn in two cuts.
    const arch = part('arch', [
      [200, 150],
      [200, 120],
      [230, 120],
      [230, 150],
      [220, 150],
      [220, 130],
      [210, 130],
      [210, 150],
    ]);
    const parts = [part('frame', frame), part('dot', disc(70, 70, 8)), arch];
    const stacked = board(parts, { copies: 4, pieces: ['A-1', 'A-2'] });
    const { cautions, boards } = planCuts(layoutOf(stacked));
    expect(boards[0].cuts.filter((cut) => cut.part === 'arch')).toHaveLength(2);
    expect(cautions[0]).toMatch(/^8 parts are too small/);
    const dot = boards[0].cuts.find((cut) => cut.part === 'dot');
    expect(dot?.reason).toMatch(/^too small to hold by itself, laid into an opening: sawn while the waste/);
  });

  it('warn when a blade saws wider than the layout left room for', () => {
    const layout = { ...layoutOf(board([part('plate', rectangle(10, 10, 90, 90))])), kerf: 0.3 };
    const { issues } = planCuts(layout);
    expect(issues.map(({ kind }) => kind)).toEqual(['kerf-below-blade']);
    expect(issues[0].message).toContain('kerf of 0.30 mm, but the blade No. 7 saws 0.51 mm (typical');
  });

  it('say both numbers where the kerf of the job is not the measured one of the blade', () => {
    const plate = layoutOf(board([part('plate', rectangle(10, 10, 90, 90))]));
    const mine = { ...COMMON_BLADES[3], name: 'Mine', kerf: 0.48, kerfMeasured: true };
    const kerfs = (kerf: number, blade: Blade) => planCuts({ ...plate, kerf }, { blades: [blade] }).issues;
    const [issue] = kerfs(0.6, mine);
    expect([issue.kind, issue.severity]).toEqual(['kerf-above-blade', 'warning']);
    expect(issue.message).toContain('kerf of 0.60 mm, but the blade Mine saws 0.48 mm (measured)');
    expect(issue.message).toContain('0.12 mm farther apart');
    // Two test cuts differ by a few hundredths; typical kerfs are rough, and a note is enough.
    for (const near of [0.44, 0.52]) expect(kerfs(near, mine)).toEqual([]);
    // 0.5 mm beside .020 in, which are told alike in inches.
    expect(planCuts({ ...plate, kerf: 0.5 }).issues).toEqual([]);
    expect(kerfs(0.6, { ...mine, kerfMeasured: false })).toEqual([]);
    expect(kerfs(1, { ...mine, kerfMeasured: false })[0]).toMatchObject({ severity: 'note' });
  });
});
